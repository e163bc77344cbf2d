import {
  type Line,
  type Matrix,
  type Path,
  type Pt,
  type Ring,
  SAME_POINT,
  applyMatrix,
  boxOfPoints,
  distance,
  flattenRing,
  mirrorAcross,
  nearestOnPath,
  signedArea,
  transformPath,
} from '../geometry';
import { remember } from '../pattern';

/** Lines this near each other are the same to everybody who cuts, mm: what a re-fitted parallel may differ. */
export const SAME_CUT = 0.05;

const farthest = (points: readonly Pt[], path: Path): boolean =>
  points.some((p) => nearestOnPath(path, p).distance > SAME_CUT);

/** Whether one ring is the mirror image of another across a line, to SAME_CUT everywhere. Both may be the same ring. */
export const areMirrorImages = remember((a: Ring, b: Ring, across: Line): boolean => {
  const m = mirrorAcross(across);
  const [own, other] = [flattenRing(transformPath(a, m)), flattenRing(b)];
  const [p, q] = [boxOfPoints(own), boxOfPoints(other)];
  const apart = Math.max(
    ...(['minX', 'minY', 'maxX', 'maxY'] as const).map((side) => Math.abs(p[side] - q[side])),
  );
  // chords of the two may miss their curves' outermost points by their sagitta
  if (apart > SAME_CUT * 2) return false;
  const [areaA, areaB] = [Math.abs(signedArea(a)), Math.abs(signedArea(b))];
  const around = (p.maxX - p.minX + p.maxY - p.minY) * 4;
  if (Math.abs(areaA - areaB) > around * SAME_CUT) return false;
  const back = transformPath(b, m);
  return !farthest(own, b) && !farthest(flattenRing(a), back);
});

/** Where a point's mirror image is. */
export const imageOf = (across: Line): ((p: Pt) => Pt) => {
  const m: Matrix = mirrorAcross(across);
  return (p) => applyMatrix(m, p);
};

/** Whether every point of one list has one of the other at its mirror image, and nothing is left over. */
export function areMirroredPoints(a: readonly Pt[], b: readonly Pt[], across: Line): boolean {
  if (a.length !== b.length) return false;
  const image = imageOf(across);
  const left = [...b];
  return a.every((p) => {
    const at = left.findIndex((q) => distance(image(p), q) < SAME_CUT + SAME_POINT);
    if (at >= 0) left.splice(at, 1);
    return at >= 0;
  });
}
