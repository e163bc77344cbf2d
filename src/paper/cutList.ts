import type { CutPiece } from '../allowance';
import { howToCut } from '../garment';
import type { Garment } from '../garment';
import { boxOfPoints } from '../geometry';
import type { Panel } from '../panels';
import { type Colour, formatLength } from '../pattern';
import { padded, paragraph, row, stack, tickBox } from './block';
import type { Block } from './block';
import { shortName } from './cleanText';
import { heading } from './coverSheet';
import type { Flow } from './flow';
import { SOFT } from './ink';
import type { Lettering } from './marks';
import { swatch } from './panelLabel';
import { colourOf } from './panelOnPaper';
import { columnWidth, tableHead, tableRow } from './table';
import type { Columns } from './table';

/** Size of a cut piece across and along its grain, mm. */
export function sizeOnGrain(cut: CutPiece): { readonly across: number; readonly along: number } {
  const a = (-cut.grainAngle * Math.PI) / 180;
  const [c, s] = [Math.cos(a), Math.sin(a)];
  const box = boxOfPoints(cut.cuttingPoints.map(([x, y]) => [c * x - s * y, s * x + c * y] as const));
  return { along: box.maxX - box.minX, across: box.maxY - box.minY };
}

const SIZE = 3.3;

/** Every cut piece with a box to tick, one box per copy, and its interfacing in a row of its own. */
export function cutListPages(flow: Flow, lettering: Lettering, garment: Garment): void {
  flow.newPage();
  const { width } = flow;
  const { units } = garment.design;
  const columns: Columns = { starts: [0, 16, 29, width * 0.33, width * 0.53, width * 0.74], width };
  const cell = (words: string, i: number, bold = false): Block =>
    paragraph(lettering, words, columnWidth(columns, i), { size: SIZE, bold });
  const tick = tickBox(4.4, { width: 0.3, colour: SOFT });
  const rowOf = (panel: Panel, index: number, colour: Colour, words: string): Block => {
    const cut = howToCut(garment, panel);
    const size = sizeOnGrain(garment.cutPieces[index]!);
    return tableRow(columns, [
      row(
        Array.from({ length: cut.count }, () => tick),
        2,
      ),
      cell(`${garment.plan.numbers.get(panel.id) ?? index + 1}`, 1, true),
      cell(shortName(garment.pieceById.get(panel.piece)?.whole.name ?? '', 40), 2),
      row(
        [
          swatch(colour.fill, 6.5, 4),
          paragraph(lettering, shortName(colour.name, 40), columnWidth(columns, 3) - 9, { size: SIZE }),
        ],
        2.5,
        true,
      ),
      cell(words, 4),
      cell(`${formatLength(size.across, units)} × ${formatLength(size.along, units)}`, 5),
    ]);
  };
  const rows = garment.panels.flatMap((panel, index) => {
    const { text, interfacing } = howToCut(garment, panel);
    const own = rowOf(panel, index, colourOf(garment, panel), text);
    return interfacing ? [own, rowOf(panel, index, interfacing, 'Interfacing, by the same piece')] : [own];
  });
  const head = tableHead(
    columns,
    ['Done', 'No.', 'Piece', 'Colour', 'Cut', 'Across × along grain'].map((w, i) =>
      paragraph(lettering, w, columnWidth(columns, i), { size: 2.7, colour: SOFT }),
    ),
  );
  const note = 'Sizes are of the cut piece, allowances included.';
  const top = stack(
    [heading(lettering, 'Cut list', width), paragraph(lettering, note, width, { size: 3.3, colour: SOFT })],
    3,
  );
  flow.placeAll(top, rows, 0, 0, padded(head, 0, 4, width, head.height + 4));
}
