import { boxOfPoints, boxesMeet, overlapArea } from '../geometry';
import { settleLines } from '../lines';
import type { Design, OffGrainMark, PanelLine, PanelMark, Piece } from '../pattern';
import { leaveMark, leaveOf } from './leave';
import type { Panel } from './panel';
import { panelledPiece, slicedPiece } from './slicedPieces';

type Shape = Pick<Panel, 'flat'>;

/** The old panel that a new one shares the most area with. */
export function ancestor<P extends Shape>(panel: Shape, before: readonly P[]): P | undefined {
  const shared = before
    .filter((old) => boxesMeet(boxOfPoints(panel.flat.points), boxOfPoints(old.flat.points)))
    .map((old) => ({ old, area: overlapArea(panel.flat.points, old.flat.points) }));
  return shared.reduce<(typeof shared)[number] | undefined>(
    (best, s) => (best && best.area >= s.area ? best : s),
    undefined,
  )?.old;
}

/** One mark per panel of a piece after an edit, in the colour of the panel it came from. */
function marksAfter(piece: Piece, before: Design, after: Design): readonly PanelMark[] {
  const old = panelledPiece(piece, before).panels;
  return slicedPiece(piece, after).panels.map((panel): PanelMark => ({
    piece: piece.id,
    at: panel.flat.at,
    colour: ancestor(panel, old)?.colour ?? before.colours[0]!.id,
  }));
}

/** Leave to lie off the grain after an edit: a panel has that of the one it came from. */
function leaveAfter(piece: Piece, before: Design, after: Design): readonly OffGrainMark[] {
  if (!before.offGrain.some((m) => m.piece === piece.id)) return [];
  const old = slicedPiece(piece, before).panels;
  return slicedPiece(piece, after).panels.flatMap((panel) => {
    const from = ancestor(panel, old);
    return leaveMark(panel, from ? leaveOf(before, from) : null);
  });
}

const sameLines = (a: readonly PanelLine[], b: readonly PanelLine[]): boolean =>
  a.length === b.length && a.every((line, i) => line === b[i]);

/**
 * A design with other panel lines, those tied to them in step, in which every panel keeps its colour: a panel that splits gives
 * both parts its colour, panels that merge take the colour of the larger one; leave to lie off the grain goes the same ways. Marks
 * are moved to the middle of their panels on changed pieces only.
 */
export function withLines(design: Design, lines: readonly PanelLine[]): Design {
  if (sameLines(design.lines, lines)) return design;
  const after = settleLines({ ...design, lines });
  const own = (d: Design, piece: Piece): readonly PanelLine[] => d.lines.filter((l) => l.piece === piece.id);
  const changed = design.pieces.filter((p) => !sameLines(own(design, p), own(after, p)));
  const stays = (mark: Pick<PanelMark, 'piece'>): boolean => !changed.some((p) => p.id === mark.piece);
  return {
    ...after,
    marks: [...design.marks.filter(stays), ...changed.flatMap((p) => marksAfter(p, design, after))],
    offGrain: design.offGrain.every(stays)
      ? design.offGrain
      : [...design.offGrain.filter(stays), ...changed.flatMap((p) => leaveAfter(p, design, after))],
  };
}

/** A design with every tied line in step with what it is tied to, and every panel in its colour; the same one when it is so already. */
export const settled = (design: Design): Design => withLines(design, settleLines(design).lines);
