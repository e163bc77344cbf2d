import type { Garment } from '../garment';
import type { Box } from '../geometry';
import { row, stack } from './block';
import type { Block } from './block';
import { heading } from './coverSheet';
import { Flow } from './flow';
import { factsBlock, keyBlock, keyRows, titleBlock } from './layBlocks';
import type { Said } from './layBlocks';
import { drawLay } from './layDrawing';
import type { LayDrawing } from './layDrawing';
import { NUMBERS_LEFT, SHOWN_TWICE, sizeOnPaper } from './layFrame';
import type { LayFrame } from './layFrame';
import type { LayOnPaper, PieceOnCloth } from './layOnPaper';
import { keyEntries, layTitle } from './layWords';
import { movedBox, movedMarks } from './marks';
import type { Lettering, Mark } from './marks';

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
/** Scales of a lay on several pages: the largest that needs few, else the last. */
const SCALES_OF_SEVERAL = [10, 12, 15, 20, 25] as const;
const FEW = 3;
const BESIDE_LEAST = 58;
const BESIDE_MOST = 84;
/** A long key goes below the facts only where that saves some height. */
const MUCH_LOWER = 0.85;
/** Columns of a long key, mm. */
const NARROW_KEY = 38;
const GAP = 7;

interface Arrangement {
  readonly isLandscape: boolean;
  /** Words and key on the right of the drawing, below it, or the key on pages of its own. */
  readonly words: 'beside' | 'below' | 'apart';
  readonly frame: LayFrame;
}

/** Everything that is needed to set a page. */
interface Setting extends Said {
  readonly paper: UsablePaper;
}

const pageOf = ({ paper }: Setting, isLandscape: boolean): { width: number; height: number } =>
  isLandscape ? paper.landscape : paper.portrait;

/** Words below the drawing: facts on the left and the key on the right, or a long key below the facts, if that is much lower. */
function wordsBelow(setting: Setting, width: number, frame: LayFrame, shown: readonly PieceOnCloth[]): Block {
  const facts = Math.min(92, width * 0.46);
  const key = keyBlock(setting, shown, width - facts - 8);
  const sideBySide = row([{ ...factsBlock(setting, facts, frame), width: facts }, key], 8);
  const stacked = stack([factsBlock(setting, width, frame), keyBlock(setting, shown, width, NARROW_KEY)], 5);
  return stacked.height < sideBySide.height * MUCH_LOWER ? stacked : sideBySide;
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
    return besideBlock(setting, beside, frame, shown, part).height <= page.height;
  }
  const title = titleBlock(setting, page.width, part).height;
  const below =
    words === 'below'
      ? wordsBelow(setting, page.width, frame, shown).height
      : factsBlock(setting, page.width, frame).height;
  return title + GAP + height + GAP + below <= page.height;
}

function besideBlock(
  setting: Setting,
  width: number,
  frame: LayFrame,
  shown: readonly PieceOnCloth[],
  part: string,
): Block {
  return stack(
    [titleBlock(setting, width, part), factsBlock(setting, width, frame), keyBlock(setting, shown, width)],
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
    const block = besideBlock(setting, beside, frame, drawing.shown, part);
    return composed(isLandscape, drawing, [0, 0], movedMarks(block.marks, [drawing.width + GAP, 0]));
  }
  const title = titleBlock(setting, page.width, part);
  const top = title.height + GAP;
  const block =
    words === 'below'
      ? wordsBelow(setting, page.width, frame, drawing.shown)
      : factsBlock(setting, page.width, frame);
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

/** A way to set a long lay on several pages. */
interface Several {
  readonly arrangement: Omit<Arrangement, 'frame'> & Pick<LayFrame, 'standing' | 'scale'>;
  readonly count: number;
}

/** The fewest pages at one scale. */
function severalAt(setting: Setting, scale: number): Several | null {
  let best: Several | null = null;
  for (const words of ['below', 'beside', 'apart'] as const) {
    for (const isLandscape of [true, false]) {
      for (const standing of [false, true]) {
        const arrangement = { isLandscape, words, standing, scale };
        const most = longestShown(setting, arrangement);
        if (most === null) continue;
        const count = Math.ceil((setting.lay.length - SHOWN_TWICE) / (most - SHOWN_TWICE));
        if (!best || count < best.count) best = { arrangement, count };
      }
    }
    if (best) return best;
  }
  return best;
}

/** A long lay over several pages, each beginning a little before the last one ends. */
function onSeveralPages(setting: Setting): LayPage[] | null {
  const { lay } = setting;
  const all = SCALES_OF_SEVERAL.flatMap((scale) => severalAt(setting, scale) ?? []);
  const chosen = all.find((s) => s.count <= FEW) ?? all[all.length - 1];
  if (!chosen) return null;
  const { arrangement, count } = chosen;
  const { scale, standing, words } = arrangement;
  const each = (lay.length + (count - 1) * SHOWN_TWICE) / count;
  const pages = Array.from({ length: count }, (_, i) => {
    const from = i * (each - SHOWN_TWICE);
    const frame: LayFrame = { scale, standing, from, to: Math.min(lay.length, from + each) };
    return setPage(setting, { ...arrangement, frame }, `, part ${i + 1} of ${count}`);
  });
  return words === 'apart' ? [...pages, ...keyPages(setting)] : pages;
}

/** The longest stretch of cloth that goes on one page, in whole 10 cm; null where less than 60 cm does. */
function longestShown(setting: Setting, a: Several['arrangement']): number | null {
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
