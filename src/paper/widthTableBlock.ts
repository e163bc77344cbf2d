import { type WidthRow, sayAtCounter } from '../fabric';
import { formatLength } from '../pattern';
import type { Colour, Units } from '../pattern';
import { paragraph, row, stack } from './block';
import type { Block } from './block';
import { shortName } from './cleanText';
import { SOFT } from './ink';
import type { Lettering } from './marks';
import { swatch } from './panelLabel';
import { columnWidth, tableHead, tableRow } from './table';
import type { Columns } from './table';

const ONE_WAY = 'All one way';
const BOTH_WAYS = 'Either way up';

/** What to ask for over the usual widths, one way and both ways, as on a pattern envelope's back. The cloth's own entry stands bold. */
export function widthTableBlock(
  lettering: Lettering,
  colour: Colour,
  rows: readonly WidthRow[],
  units: Units,
  width: number,
): Block {
  const widths = rows[0]?.entries ?? [];
  const first = 34;
  const each = Math.min(34, (width - first) / Math.max(1, widths.length));
  const columns: Columns = {
    starts: [0, ...widths.map((_, i) => first + i * each)],
    width: Math.min(width, first + each * widths.length),
  };
  const cell = (words: string, i: number, bold = false): Block =>
    paragraph(lettering, words, columnWidth(columns, i), { size: 3.3, bold });
  const head = tableHead(columns, [
    paragraph(lettering, 'Width', columnWidth(columns, 0), { size: 2.9, colour: SOFT }),
    ...widths.map((e, i) =>
      paragraph(lettering, formatLength(e.width, units), columnWidth(columns, i + 1), {
        size: 2.9,
        colour: SOFT,
      }),
    ),
  ]);
  const body = rows.map(({ oneWay, entries }) =>
    tableRow(columns, [
      cell(oneWay ? ONE_WAY : BOTH_WAYS, 0),
      ...entries.map(({ plan, isShown }, i) => {
        if (!plan) return cell('–', i + 1);
        return cell(plan.placed.length > 0 ? sayAtCounter(plan.buy, units) : 'too narrow', i + 1, isShown);
      }),
    ]),
  );
  const name = row(
    [
      swatch(colour.fill, 7, 4.5),
      paragraph(lettering, shortName(colour.name, 40), width - 12, { size: 3.6, bold: true }),
    ],
    3,
    true,
  );
  return stack([name, stack([head, ...body], 0)], 2);
}
