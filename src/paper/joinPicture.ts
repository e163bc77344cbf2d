import { widthAlong, zipIn } from '../garment/telling';
import type { Garment } from '../garment';
import { add, pathLength, perpendicular, pointAtLength, scale, transformPath } from '../geometry';
import type { Matrix, Pt } from '../geometry';
import type { EdgeRef } from '../neighbours';
import type { Panel } from '../panels';
import { edgePath } from '../pattern';
import type { Step } from '../sewing';
import type { Block } from './block';
import { EMPTY_BLOCK } from './block';
import { garmentDrawing, placePieces } from './garmentDrawing';
import { tint } from './ink';
import type { Lettering, Mark } from './marks';
import { colourOf } from './panelOnPaper';
import { allowanceEdge, arrow, sewnMarks, zipStroke } from './seamMarks';

const PALE = 0.35;

/** Arrows that turn a hem up, from its stitching line inwards. */
function hemMarks(garment: Garment, edge: EdgeRef, m: Matrix): Mark[] {
  const path = transformPath(edgePath(garment.neighbours.wholes.get(edge.piece)!, edge.edge), m);
  const depth = widthAlong(garment, edge) * m[0];
  const length = pathLength(path);
  const arrows = [0.3, 0.7].flatMap((share) => {
    const { point, direction } = pointAtLength(path, length * share);
    const up: Pt = scale(perpendicular(direction), Math.max(3, depth));
    return arrow(point, add(point, up));
  });
  return [allowanceEdge(path, 1, depth), ...arrows];
}

function edgeMarks(garment: Garment, step: Step, edge: EdgeRef, m: Matrix): Mark[] {
  const path = transformPath(edgePath(garment.neighbours.wholes.get(edge.piece)!, edge.edge), m);
  if (path.length === 0) return [];
  return [...sewnMarks([path]), ...(step.kind === 'hem' ? hemMarks(garment, edge, m) : [])];
}

/** The pieces of a step side by side, whole again, with the edges that are joined, finished, hemmed or closed drawn thick. */
export function joinPicture(
  lettering: Lettering,
  garment: Garment,
  step: Step,
  size: { readonly width: number; readonly height: number },
): Block {
  const ids = new Set([
    ...step.edges.map((e) => e.piece),
    ...step.joins.flat().flatMap((id) => garment.panelById.get(id)?.piece ?? []),
  ]);
  const edged = new Set(step.edges.map((e) => e.piece));
  const pieces = garment.pieces.filter(({ whole }) => (edged.size > 0 ? edged : ids).has(whole.piece.id));
  if (pieces.length === 0) return EMPTY_BLOCK;
  const style = {
    ...size,
    fill: (panel: Panel): string => tint(colourOf(garment, panel).fill, PALE),
    isNumbered: () => true,
    hasNames: true,
    hasDetail: false,
    numberSize: 3,
    gap: 4,
    beside: 5,
    isSmall: true,
  };
  const picture = garmentDrawing(lettering, garment, pieces, style);
  const { placed } = placePieces(pieces, style);
  const marks = placed.flatMap(({ piece, matrix }) =>
    step.edges
      .filter((e) => e.piece === piece.whole.piece.id)
      .flatMap((e) => edgeMarks(garment, step, e, matrix)),
  );
  const zip = step.kind === 'zip' ? zipIn(garment, step) : null;
  const teeth = placed.flatMap(({ piece, matrix }) =>
    zipStroke(
      (zip?.sides ?? [])
        .filter((side) => side.piece === piece.whole.piece.id)
        .map((side) => transformPath(side.opening, matrix)),
    ),
  );
  return { ...picture, marks: [...picture.marks, ...(zip ? teeth : marks)] };
}
