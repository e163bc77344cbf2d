import type { Garment } from '../garment';
import { MM_PER_INCH } from '../pattern';
import { paragraph, row, stack } from './block';
import type { Block } from './block';
import { heading } from './coverSheet';
import { ACCENT, INK } from './ink';
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
import { line, text } from './marks';
import type { Lettering } from './marks';
import { swatch } from './panelLabel';

/** What the words on a lay's page are about. */
export interface Said {
  readonly lettering: Lettering;
  readonly garment: Garment;
  readonly lay: LayOnPaper;
}

const KEY_COLUMN = 66;

/** Exactly 10 or 20 cm of cloth (or 9 in), as long on paper as the scale makes it. */
function scaleBar(lettering: Lettering, scale: number, units: 'cm' | 'in'): Block {
  const lengths = units === 'cm' ? [50, 100, 200, 500, 1000] : [4.5, 9, 18, 36].map((n) => n * MM_PER_INCH);
  const mm = lengths.find((l) => l / scale >= 14) ?? lengths[lengths.length - 1]!;
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

export function titleBlock({ lettering, garment, lay }: Said, width: number, part: string): Block {
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

export function factsBlock({ lettering, garment, lay }: Said, width: number, frame: LayFrame): Block {
  const { scale } = frame;
  const isPart = frame.from > 0 || frame.to < lay.length;
  const { units } = garment.design;
  const bar = scaleBar(lettering, scale, units);
  const said = `${sayScale(scale)}, not full size`;
  const scaled = row(
    [bar, paragraph(lettering, said, width - bar.width - 5, { size: 3.3, bold: true })],
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
        laySentences(garment, lay, scale, isPart).map((w) => paragraph(lettering, w, width, { size })),
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
export function keyBlock(
  { lettering, garment, lay }: Said,
  shown: readonly PieceOnCloth[],
  width: number,
  least: number = KEY_COLUMN,
): Block {
  const count = Math.max(1, Math.floor((width + 6) / (least + 6)));
  const column = (width - (count - 1) * 6) / count;
  const rows = keyRows(lettering, keyEntries(garment, lay, shown), column);
  return columnsOf(rows, count, column);
}

export function keyRows(
  lettering: Lettering,
  entries: ReturnType<typeof keyEntries>,
  column: number,
): Block[] {
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
