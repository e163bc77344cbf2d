import { type Pt, dot, pathBox, pathLength, pointAtLength, subtract, unit } from '../geometry';
import { type WholePiece, edgePath, remember } from '../pattern';

/** Unit vectors of a piece: down along the grain (towards +y as drawn, whichever way its arrow points), and across to the drawing's right. */
export function grainAxes({ grain }: Pick<WholePiece, 'grain'>): { down: Pt; across: Pt } {
  const along = unit(subtract(grain[1], grain[0]));
  const down: Pt = along[1] < 0 || (along[1] === 0 && along[0] < 0) ? [-along[0], -along[1]] : along;
  return { down, across: [down[1], -down[0]] };
}

/** How far down the grain a point lies, mm, from the frame's origin. */
export const heightOf = (whole: WholePiece, p: Pt): number => dot(p, grainAxes(whole).down);

/** Middle of an edge. */
export const middleOfEdge = remember((whole: WholePiece, edge: number): Pt => {
  const path = edgePath(whole, edge);
  return pointAtLength(path, pathLength(path) / 2).point;
});

/** How far across the grain a point lies from the middle of the piece (its fold, where it has one), mm; right as drawn is positive. */
export function acrossFromMiddle(whole: WholePiece, p: Pt): number {
  const { across } = grainAxes(whole);
  if (whole.foldLine) return dot(subtract(p, whole.foldLine[0]), across);
  const box = pathBox(whole.stitching);
  return dot(subtract(p, [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]), across);
}
