import { type WidthEntry, type WidthRow, sayAtCounter } from '../fabric';
import { formatLength } from '../pattern';
import type { Colour, Units } from '../pattern';
import { EMPTY_BLOCK, paragraph, row, stack } from './block';
import type { Block } from './block';
import { shortName } from './cleanText';
import { SOFT } from './ink';
import type { Lettering } from './marks';
import { swatch } from './panelLabel';
import { columnWidth, tableHead, tableRow } from './table';
import type { Columns } from './table';

const ONE_WAY = 'All one way';
const BOTH_WAYS = 'Either way up';

/** Columns for the cloth's name and the way it lies, and the most for a width, mm. */
const [NAME, WAY, MOST_EACH] = [46, 27, 26];
const SWATCH = 7;

/** What to ask for of one cloth over the usual widths. */
export interface ClothWidths {
  readonly colour: Colour;
  /** One way and both ways, as on a pattern envelope's back. */
  readonly rows: readonly WidthRow[];
}

/** Cloths that are listed over the same widths: their common head, and a pair of rows for each. */
export interface WidthTableBlocks {
  readonly head: Block;
  readonly pairs: readonly Block[];
}

interface Table {
  readonly lettering: Lettering;
  readonly columns: Columns;
  readonly units: Units;
}

const widthsOf = ({ rows }: ClothWidths): readonly number[] => rows[0]?.entries.map((e) => e.width) ?? [];

/** Widths this near are said alike, mm. */
const SAME = 0.5;

const areAlike = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((w, i) => Math.abs(w - b[i]!) < SAME);

function headOf({ lettering, columns, units }: Table, widths: readonly number[]): Block {
  const words = ['Cloth', '', ...widths.map((w) => `${formatLength(w, units)} wide`)];
  return tableHead(
    columns,
    words.map((w, i) => paragraph(lettering, w, columnWidth(columns, i), { size: 2.9, colour: SOFT })),
  );
}

function sayEntry({ plan }: WidthEntry, units: Units): string {
  if (!plan) return '–';
  return plan.placed.length > 0 ? sayAtCounter(plan.buy, units) : 'too narrow';
}

/** Two rows, one way and both ways, the cloth's name beside the first. Its own entry stands bold. */
function pairOf({ lettering, columns, units }: Table, { colour, rows }: ClothWidths): Block {
  const cell = (words: string, i: number, bold = false): Block =>
    paragraph(lettering, words, columnWidth(columns, i), { size: 3.3, bold });
  const name = row(
    [
      swatch(colour.fill, SWATCH, 4.2),
      paragraph(lettering, shortName(colour.name, 32), columnWidth(columns, 0) - SWATCH - 3, {
        size: 3.4,
        bold: true,
      }),
    ],
    3,
    true,
  );
  const lines = rows.map(({ oneWay, entries }, k) =>
    tableRow(
      columns,
      [
        k === 0 ? name : EMPTY_BLOCK,
        cell(oneWay ? ONE_WAY : BOTH_WAYS, 1),
        ...entries.map((entry, i) => cell(sayEntry(entry, units), i + 2, entry.isShown)),
      ],
      1.1,
      k === rows.length - 1,
    ),
  );
  return stack(lines, 0);
}

/**
 * What to ask for over the usual widths: one table for all cloths that are listed over the same ones (a cloth's own width is a column
 * of its table).
 * @param width of the paper that may be used, mm
 */
export function widthTableBlocks(
  lettering: Lettering,
  cloths: readonly ClothWidths[],
  units: Units,
  width: number,
): readonly WidthTableBlocks[] {
  const groups: ClothWidths[][] = [];
  for (const cloth of cloths) {
    const group = groups.find(([first]) => areAlike(widthsOf(first!), widthsOf(cloth)));
    if (group) group.push(cloth);
    else groups.push([cloth]);
  }
  return groups.map((group) => {
    const widths = widthsOf(group[0]!);
    const first = NAME + WAY;
    const each = Math.min(MOST_EACH, (width - first) / Math.max(1, widths.length));
    const columns: Columns = {
      starts: [0, NAME, ...widths.map((_, i) => first + i * each)],
      width: Math.min(width, first + each * widths.length),
    };
    const table: Table = { lettering, columns, units };
    return { head: headOf(table, widths), pairs: group.map((cloth) => pairOf(table, cloth)) };
  });
}
