import { type CutPiece, SAME_CUT, areMirrorImages } from '../../allowance';
import {
  FOLD_ALONG,
  type Line,
  LOPSIDED,
  type Pt,
  centroidOfPoints,
  cross,
  dot,
  subtract,
  unit,
} from '../../geometry';
import { remember } from '../../pattern';
import { turnOf } from '../placement';

/** Where the fold runs, across the grain; null where it does not run along it. */
function foldPlace(fold: Line, along: Pt, across: Pt): number | null {
  return Math.abs(cross(unit(subtract(fold[1], fold[0])), along)) < FOLD_ALONG ? dot(fold[0], across) : null;
}

/**
 * The line along the grain across which a cut piece is its own mirror image, from end to end of it; null where there is none. Exactly along
 * the grain, so that it can lie on the fold of the cloth; the cutting lines of both halves, insets too, are the same to SAME_CUT.
 * @param fold that of its piece: the middle lies there rather than a rounding beside it
 */
export const middleOf = remember((cut: CutPiece, fold: Line | null): Line | null => {
  const { cos, sin } = turnOf(cut.grainAngle);
  const [along, across]: [Pt, Pt] = [
    [cos, sin],
    [-sin, cos],
  ];
  const places = cut.cuttingPoints.map((p) => dot(p, across));
  const heights = cut.cuttingPoints.map((p) => dot(p, along));
  const between = (Math.min(...places) + Math.max(...places)) / 2;
  const folded = fold && foldPlace(fold, along, across);
  const place = folded !== null && Math.abs(folded - between) < SAME_CUT ? folded : between;
  const at = (height: number): Pt => [
    along[0] * height + across[0] * place,
    along[1] * height + across[1] * place,
  ];
  if (Math.abs(dot(centroidOfPoints(cut.cuttingPoints), across) - place) > LOPSIDED) return null;
  const middle: Line = [at(Math.min(...heights)), at(Math.max(...heights))];
  const isOwnImage =
    areMirrorImages(cut.cutting, cut.cutting, middle) &&
    cut.holes.every((hole) => cut.holes.some((other) => areMirrorImages(hole, other, middle)));
  return isOwnImage ? middle : null;
});
