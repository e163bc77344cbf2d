import { type Pt, boxesMeet, controlBox, nearestOnPath } from '../geometry';
import type { PanelledPiece } from '../panels';

/** Outline edges at a point of the outline, indices into WholePiece.edges; `reach` mm off still counts. */
export const edgesAt = ({ whole }: PanelledPiece, p: Pt, reach: number): readonly number[] => {
  const here = { minX: p[0], minY: p[1], maxX: p[0], maxY: p[1] };
  const near = whole.stitching.flatMap((c, i) =>
    boxesMeet(controlBox(c), here, reach) && nearestOnPath([c], p).distance <= reach
      ? [whole.edgeOf[i]!]
      : [],
  );
  return [...new Set(near)];
};
