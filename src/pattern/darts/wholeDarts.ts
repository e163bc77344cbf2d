import {
  JOIN_GAP,
  type Line,
  type Pt,
  type Ring,
  applyMatrix,
  distance,
  mirrorAcross,
  reversePath,
  transformPath,
  type Path,
} from '../../geometry';
import type { DartShape, Piece } from '../design';
import { type Problem, problem } from '../problem';
import type { PlacedDart } from '../wholePiece';
import { legsOf, mirroredDart } from './dartShape';
import { legProblems } from './legProblems';
import { placeDart } from './placeDart';
import type { SwungShape } from './swingPiece';
import { untangled } from './untangleLegs';

/** Darts with their mirror images; one lying on the fold (its own image, or traced half of it) is one whole dart. */
export function wholeDarts(
  piece: Piece,
  shapes: readonly SwungShape[],
  stitching: Ring,
): { darts: PlacedDart[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const darts = shapes.flatMap(({ shape, traced, close }): PlacedDart[] => {
    const onFold = piece.fold && acrossFold(shape, piece.fold);
    const { dart: placed, gap, at } = placeDart(onFold ?? shape, stitching);
    const dart = untangled(placed);
    if (gap > JOIN_GAP) problems.push(problem('dart-mouth-off-edge', { gap }, piece.name, at));
    problems.push(...legProblems(dart, piece.name));
    const own: PlacedDart = { ...dart, mirrored: false, traced, close };
    if (!piece.fold || onFold) return [own];
    return [own, { ...mirroredDart(dart, piece.fold), mirrored: true, traced, close }];
  });
  return { darts, problems };
}

/** The whole dart of one that lies on the fold: half of it traced, or all. Null for any other. */
function acrossFold(dart: DartShape, fold: Line): DartShape | null {
  const m = mirrorAcross(fold);
  const image = (p: Pt): Pt => applyMatrix(m, p);
  const isOn = (p: Pt): boolean => distance(p, image(p)) <= 2 * JOIN_GAP;
  const isPair = (p: Pt, q: Pt): boolean => distance(p, image(q)) <= 2 * JOIN_GAP;
  const mirrored = (path: Path): Path => reversePath(transformPath(path, m));
  if (dart.kind === 'single') {
    const [a, b] = dart.mouth;
    if (!isOn(dart.point)) return null;
    if (isPair(a, b)) return dart;
    const [first, second] = legsOf(dart);
    if (isOn(b)) {
      const legs = dart.legs && ([first, mirrored(first)] as const);
      return { ...dart, mouth: [a, image(a)], legs };
    }
    if (!isOn(a)) return null;
    const legs = dart.legs && ([mirrored(second), second] as const);
    return { ...dart, mouth: [image(b), b], legs };
  }
  const [p, a, q, b] = dart.points;
  if (!isOn(p) || !isOn(q)) return null;
  if (isPair(a, b)) return dart;
  const { legs } = dart;
  if (isOn(b)) {
    const all = legs && ([legs[0], legs[1], mirrored(legs[1]), mirrored(legs[0])] as const);
    return { ...dart, points: [p, a, q, image(a)], legs: all };
  }
  if (!isOn(a)) return null;
  const all = legs && ([mirrored(legs[3]), mirrored(legs[2]), legs[2], legs[3]] as const);
  return { ...dart, points: [p, image(b), q, b], legs: all };
}
