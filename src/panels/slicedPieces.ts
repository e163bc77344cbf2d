import {
  type ColourId,
  type Design,
  type PanelLine,
  type PanelMark,
  type Piece,
  type WholePiece,
  openedPiece,
  remember,
} from '../pattern';
import { colourPanels } from './colourPanels';
import { layLines } from './layLines';
import type { PanelledPiece } from './panel';
import { slicePiece } from './slicePiece';

const sliceOnce = remember(
  (whole: WholePiece, lines: readonly PanelLine[], orders: readonly number[]): PanelledPiece =>
    slicePiece(
      whole,
      layLines(
        lines.map((line, i) => ({ line, order: orders[i]! })),
        whole,
      ),
    ),
);

const colourOnce = remember(
  (sliced: PanelledPiece, marks: readonly PanelMark[], plain: ColourId): PanelledPiece =>
    colourPanels(sliced, marks, plain),
);

/** A piece's panels without their colours: depends on the piece and its lines only. */
export function slicedPiece(piece: Piece, design: Pick<Design, 'allowances' | 'lines'>): PanelledPiece {
  const own = design.lines
    .map((line, order) => ({ line, order }))
    .filter(({ line }) => line.piece === piece.id);
  return sliceOnce(
    openedPiece(piece, design).whole,
    own.map((o) => o.line),
    own.map((o) => o.order),
  );
}

/** A piece's panels in their colours. */
export function panelledPiece(piece: Piece, design: Design): PanelledPiece {
  const marks = design.marks.filter((m) => m.piece === piece.id);
  return colourOnce(slicedPiece(piece, design), marks, design.colours[0]!.id);
}
