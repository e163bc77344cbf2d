import type { Garment } from '../garment';
import type { Box } from '../geometry';
import { MM_PER_INCH } from '../pattern';
import { paragraph, row, stack } from './block';
import type { Block } from './block';
import { heading } from './coverSheet';
import { Flow } from './flow';
import { ACCENT, INK } from './ink';
import { drawLay } from './layDrawing';
import type { LayDrawing } from './layDrawing';
import { NUMBERS_LEFT, sizeOnPaper } from './layFrame';
import type { LayFrame } from './layFrame';
import type { LayOnPaper, PieceOnCloth } from './layOnPaper';
import {
  keyEntries,
  layCautions,
  layResult,
  laySentences,
  layTitle,
  layWarnings,
  ownClothName,
  sayScale,
} from './layWords';
import { line, movedBox, movedMarks, text } from './marks';
import type { Lettering, Mark } from './marks';
import { swatch } from './panelLabel';

/** A page of the lay plans, in the frame of its usable paper. */
export interface LayPage {
  /** Wider than high. */
  readonly isLandscape: boolean;
  readonly marks: readonly Mark[];
  /** Drawn before `marks`; of `pieces` only what lies in `within` shows. */
  readonly under: readonly Mark[];
  readonly pieces: readonly Mark[];
  readonly within: Box | null;
}

/** Usable paper of a page held upright, mm; held the other way the two are changed over, less what the foot takes. */
export interface UsablePaper {
  readonly portrait: { readonly width: number; readonly height: number };
  readonly landscape: { readonly width: number; readonly height: number };
}

/** Plain scales, largest first: 1 : so many. */
export const LAY_SCALES = [
  2.5, 4, 5, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 300, 500,
] as const;
/** A lay that needs a smaller scale than this for one page goes on over several. */
const SMALLEST_ON_ONE = 20;
/** Neighbouring pages show the same stretch of this length, mm at full size. */
const SHOWN_TWICE = 100;
const BESIDE_LEAST = 58;
const BESIDE_MOST = 84;
const KEY_COLUMN = 66;
const GAP = 7;

interface Arrangement {
  readonly isLandscape: boolean;
  /** Words and key on the right of the drawing, below it, or the key on pages of its own. */
  readonly words: 'beside' | 'below' | 'apart';
  readonly frame: LayFrame;
}

/** Everything that is needed to set a page. */
interface Setting {
  readonly lettering: Lettering;
  readonly garment: Garment;
  readonly lay: LayOnPaper;
  readonly paper: UsablePaper;
}

/** Exactly 10 or 20 cm of cloth (or 9 in), as long on paper as the scale makes it. */
function scaleBar(lettering: Lettering, scale: number, units: 'cm' | 'in'): Block {
  const lengths = units === 'cm' ? [50, 100, 200, 500, 1000] : [4.5, 9, 18, 36].map((n) => n * MM_PER_INCH);
  const mm = lengths.find((l) => l / scale >= 18) ?? lengths[lengths.length - 1]!;
  const long = mm / scale;
  const said = units === 'cm' ? `${mm / 10} cm` : `${Number((mm / MM_PER_INCH).toFixed(1))} in`;
  const stroke = { width: 0.3, colour: INK };
  return {
    width: long,
    height: 5.4,
    marks: [
      line([0, 4.4], [long, 4.4], stroke),
      line([0, 3.4], [0, 5.4], stroke),
      line([long, 3.4], [long, 5.4], stroke),
      text(lettering, said, [long / 2, 2.6], { size: 2.5, align: 'centre' }),
    ],
  };
}

function titleBlock({ lettering, garment, lay }: Setting, width: number, part: string): Block {
  const swatched = row(
    [
      swatch(lay.colour.fill, 11, 7),
      stack(
        [
          heading(lettering, `${layTitle(lay)}${part}`, width - 15),
          paragraph(lettering, ownClothName(lay), width - 15, { size: 3.6 }),
          paragraph(lettering, layResult({ garment, lay }), width - 15, { size: 3.6, bold: true }),
        ],
        2,
      ),
    ],
    4,
  );
  return { ...swatched, width };
}

function factsBlock({ lettering, garment, lay }: Setting, width: number, scale: number): Block {
  const { units } = garment.design;
  const scaled = row(
    [
      scaleBar(lettering, scale, units),
      {
        ...paragraph(lettering, `${sayScale(scale)}, not full size`, 40, { size: 3.3, bold: true }),
      },
    ],
    5,
    true,
  );
  const size = 3;
  return stack(
    [
      scaled,
      stack(
        layWarnings(garment, lay).map((w) => paragraph(lettering, w, width, { size, colour: ACCENT })),
        1.6,
      ),
      stack(
        laySentences(garment, lay, scale).map((w) => paragraph(lettering, w, width, { size })),
        1.6,
      ),
      stack(
        layCautions(lay).map((w) => paragraph(lettering, w, width, { size, bold: true })),
        1.6,
      ),
    ],
    2.6,
  );
}

/** Rows of the key, in columns of one width. */
function keyBlock(
  { lettering, garment, lay }: Setting,
  shown: readonly PieceOnCloth[],
  width: number,
): Block {
  const count = Math.max(1, Math.floor((width + 6) / (KEY_COLUMN + 6)));
  const column = (width - (count - 1) * 6) / count;
  const rows = keyRows(lettering, keyEntries(garment, lay, shown), column);
  return columnsOf(rows, count, column);
}

function keyRows(lettering: Lettering, entries: ReturnType<typeof keyEntries>, column: number): Block[] {
  return entries.map(({ number, piece, cut }) =>
    row(
      [
        { ...paragraph(lettering, `${number}`, 9, { size: 3.2, bold: true }), width: 9 },
        paragraph(lettering, `${piece}${piece ? ': ' : ''}${cut}`, column - 9, { size: 3 }),
      ],
      0,
    ),
  );
}

/** Rows spread over columns of about the same height. */
function columnsOf(rows: readonly Block[], count: number, width: number): Block {
  const all = rows.reduce((sum, r) => sum + r.height + 1.5, 0);
  const columns: Block[][] = Array.from({ length: count }, () => []);
  let [at, used] = [0, 0];
  for (const r of rows) {
    if (used > 0 && used + r.height / 2 > all / count && at + 1 < count) {
      at += 1;
      used = 0;
    }
    columns[at]!.push(r);
    used += r.height + 1.5;
  }
  return row(
    columns.map((c) => ({ ...stack(c, 1.5), width })),
    6,
  );
}

const pageOf = ({ paper }: Setting, isLandscape: boolean): { width: number; height: number } =>
  isLandscape ? paper.landscape : paper.portrait;

/** Words below the drawing: facts on the left, key on the right. */
function wordsBelow(setting: Setting, width: number, scale: number, shown: readonly PieceOnCloth[]): Block {
  const facts = Math.min(92, width * 0.46);
  const key = keyBlock(setting, shown, width - facts - 8);
  return row([{ ...factsBlock(setting, facts, scale), width: facts }, key], 8);
}

const besideWidth = (page: number, drawing: number): number => Math.min(BESIDE_MOST, page - drawing - GAP);

/** Whether everything finds its place. */
function fits(setting: Setting, { isLandscape, words, frame }: Arrangement, part: string): boolean {
  const page = pageOf(setting, isLandscape);
  const { width, height } = sizeOnPaper(setting.lay, frame);
  if (width > page.width || height > page.height) return false;
  const shown = setting.lay.pieces;
  if (words === 'beside') {
    const beside = besideWidth(page.width, width);
    if (beside < BESIDE_LEAST) return false;
    return besideBlock(setting, beside, frame.scale, shown, part).height <= page.height;
  }
  const title = titleBlock(setting, page.width, part).height;
  const below =
    words === 'below'
      ? wordsBelow(setting, page.width, frame.scale, shown).height
      : factsBlock(setting, page.width, frame.scale).height;
  return title + GAP + height + GAP + below <= page.height;
}

function besideBlock(
  setting: Setting,
  width: number,
  scale: number,
  shown: readonly PieceOnCloth[],
  part: string,
): Block {
  return stack(
    [titleBlock(setting, width, part), factsBlock(setting, width, scale), keyBlock(setting, shown, width)],
    5,
  );
}

/** Ways to set a whole lay at one scale, the plainest first. */
function arrangements(lay: LayOnPaper, scale: number, words: readonly Arrangement['words'][]): Arrangement[] {
  return words.flatMap((w) =>
    [false, true].flatMap((isLandscape) =>
      [false, true].map((standing): Arrangement => ({
        isLandscape,
        words: w,
        frame: { scale, standing, from: 0, to: lay.length },
      })),
    ),
  );
}

/** The largest scale at which the whole lay goes on one page; null where even the smallest is too large. */
function onOnePage(setting: Setting, words: readonly Arrangement['words'][]): Arrangement | null {
  for (const scale of LAY_SCALES) {
    const found = arrangements(setting.lay, scale, words).find((a) => fits(setting, a, ''));
    if (found) return found;
  }
  return null;
}

/** One page: drawing, words, and where the key goes on a page of its own, nothing of it. */
function setPage(setting: Setting, arrangement: Arrangement, part: string): LayPage {
  const { lettering, garment, lay } = setting;
  const { isLandscape, words, frame } = arrangement;
  const page = pageOf(setting, isLandscape);
  const drawing = drawLay(lettering, garment, lay, frame);
  if (words === 'beside') {
    const beside = besideWidth(page.width, drawing.width);
    const block = besideBlock(setting, beside, frame.scale, drawing.shown, part);
    return composed(isLandscape, drawing, [0, 0], movedMarks(block.marks, [drawing.width + GAP, 0]));
  }
  const title = titleBlock(setting, page.width, part);
  const top = title.height + GAP;
  const block =
    words === 'below'
      ? wordsBelow(setting, page.width, frame.scale, drawing.shown)
      : factsBlock(setting, page.width, frame.scale);
  // Narrow cloth stands in the middle of the page.
  const left = Math.max(0, (page.width - drawing.width - NUMBERS_LEFT) / 2);
  return composed(
    isLandscape,
    drawing,
    [left, top],
    [...title.marks, ...movedMarks(block.marks, [0, top + drawing.height + GAP])],
  );
}

function composed(
  isLandscape: boolean,
  drawing: LayDrawing,
  by: readonly [number, number],
  words: readonly Mark[],
): LayPage {
  return {
    isLandscape,
    under: movedMarks(drawing.under, by),
    pieces: movedMarks(drawing.pieces, by),
    within: movedBox(drawing.cloth, by),
    marks: [...movedMarks(drawing.marks, by), ...words],
  };
}

/** Pages with nothing but the key, for lays of very many panels. */
function keyPages(setting: Setting): LayPage[] {
  const { lettering, garment, lay, paper } = setting;
  const { width, height } = paper.portrait;
  const column = (width - 6) / 2;
  const rows = keyRows(lettering, keyEntries(garment, lay, lay.pieces), column);
  const flow = new Flow(width, height);
  const pairs: Block[] = [];
  for (let i = 0; i < rows.length; i += 2)
    pairs.push(
      row(
        rows.slice(i, i + 2).map((r) => ({ ...r, width: column })),
        6,
      ),
    );
  flow.placeAll(heading(lettering, `${layTitle(lay)}: key`, width), pairs, 2, 0);
  return flow.pages.map((marks) => ({ isLandscape: false, under: [], pieces: [], within: null, marks }));
}

/** A long lay over several pages, each beginning a little before the last one ends. */
function onSeveralPages(setting: Setting): LayPage[] | null {
  const { lay } = setting;
  for (const scale of LAY_SCALES.filter((s) => s >= 10)) {
    for (const words of ['below', 'beside', 'apart'] as const) {
      for (const isLandscape of [true, false]) {
        const standing = !isLandscape;
        const most = longestShown(setting, { isLandscape, words, standing, scale });
        if (most === null) continue;
        const count = Math.ceil((lay.length - SHOWN_TWICE) / (most - SHOWN_TWICE));
        const each = (lay.length + (count - 1) * SHOWN_TWICE) / count;
        const pages = Array.from({ length: count }, (_, i) => {
          const from = i * (each - SHOWN_TWICE);
          const part = `, part ${i + 1} of ${count}`;
          return setPage(
            setting,
            { isLandscape, words, frame: { scale, standing, from, to: from + each } },
            part,
          );
        });
        return words === 'apart' ? [...pages, ...keyPages(setting)] : pages;
      }
    }
  }
  return null;
}

/** The longest stretch of cloth that goes on one page, in whole 10 cm; null where less than 60 cm does. */
function longestShown(
  setting: Setting,
  a: { isLandscape: boolean; words: Arrangement['words']; standing: boolean; scale: number },
): number | null {
  for (let long = Math.floor(setting.lay.length / 100) * 100; long >= 600; long -= 100) {
    const frame: LayFrame = { scale: a.scale, standing: a.standing, from: 0, to: long };
    if (fits(setting, { ...a, frame }, ', part 1 of 9')) return long;
  }
  return null;
}

/**
 * The pages of one lay plan to take to the table: at the largest plain scale at which the whole lay goes on a page, either way
 * of holding it; long ones over several pages. Very many panels get their key on pages of its own.
 * @throws RangeError for a lay too large for any scale
 */
export function layPages(
  lettering: Lettering,
  garment: Garment,
  lay: LayOnPaper,
  paper: UsablePaper,
): LayPage[] {
  const setting: Setting = { lettering, garment, lay, paper };
  const whole = onOnePage(setting, ['below', 'beside']);
  const apart = onOnePage(setting, ['apart']);
  const isFine = (a: Arrangement | null): a is Arrangement => a !== null && a.frame.scale <= SMALLEST_ON_ONE;
  if (isFine(whole) && !(isFine(apart) && apart.frame.scale * 2 <= whole.frame.scale))
    return [setPage(setting, whole, '')];
  if (isFine(apart)) return [setPage(setting, apart, ''), ...keyPages(setting)];
  const several = onSeveralPages(setting);
  if (several) return several;
  if (whole) return [setPage(setting, whole, '')];
  if (apart) return [setPage(setting, apart, ''), ...keyPages(setting)];
  throw new RangeError(`a lay of ${Math.round(lay.length)} mm does not go on paper`);
}
