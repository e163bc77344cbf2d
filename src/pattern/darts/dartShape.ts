import {
  type Matrix,
  type Path,
  type Pt,
  type Ring,
  applyMatrix,
  distance,
  endOf,
  mirrorAcross,
  pathLength,
  pathThrough,
  reversePath,
  startOf,
  transformPath,
  type Line,
} from '../../geometry';
import type { DartShape } from '../design';

export type SingleDart = Extract<DartShape, { kind: 'single' }>;
export type DoubleDart = Extract<DartShape, { kind: 'double' }>;
export type FourPaths = readonly [Path, Path, Path, Path];

/** The sewn lines of a dart, curved ones as curves: mouth to point to mouth, or the closed ring of a double-pointed one. */
export const dartLegs = (dart: DartShape): Path =>
  dart.legs !== null
    ? dart.legs.flat()
    : dart.kind === 'single'
      ? pathThrough([dart.mouth[0], dart.point, dart.mouth[1]], false)
      : pathThrough(dart.points, true);

/** The two legs of a single dart: mouth to point, point to mouth. */
export const legsOf = ({ mouth, point, legs }: SingleDart): readonly [Path, Path] =>
  legs ?? [[[mouth[0], point]], [[point, mouth[1]]]];

/** The wedge as a closed ring: the legs, and straight across the mouth of a single dart. Runs either way round. */
export function dartRing(dart: DartShape): Ring {
  const legs = dartLegs(dart);
  return dart.kind === 'double' ? legs : [...legs, [endOf(legs), startOf(legs)]];
}

/** Where a dart ends inside the cloth: one point, or the two of a double-pointed dart. */
export const dartPoints = (dart: DartShape): readonly Pt[] =>
  dart.kind === 'single' ? [dart.point] : [dart.points[0], dart.points[2]];

/**
 * Angle at the point, radians, between the straight chords from the point to the mouth's ends (curved legs bow about their chords);
 * for a double-pointed dart the larger of its two.
 */
export function dartAngle(dart: DartShape): number {
  if (dart.kind === 'single') return Math.abs(turnBetween(dart.mouth[0], dart.point, dart.mouth[1]));
  const [p, a, q, b] = dart.points;
  return Math.max(Math.abs(turnBetween(a, p, b)), Math.abs(turnBetween(a, q, b)));
}

/** Turn at a point from the direction of one point to that of another, radians, -π to π; positive from +x towards +y. */
export function turnBetween(from: Pt, at: Pt, to: Pt): number {
  const [ux, uy, vx, vy] = [from[0] - at[0], from[1] - at[1], to[0] - at[0], to[1] - at[1]];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

/** What the dart takes in: its mouth's width, straight across, or the greatest width of a double-pointed one, mm. */
export const dartIntake = (dart: DartShape): number =>
  dart.kind === 'single' ? distance(...dart.mouth) : distance(dart.points[1], dart.points[3]);

/** Sewn length of each leg along its curve, mm: the two of a single dart in the order of its mouth, or the four in ring order. */
export function dartLegLengths(dart: DartShape): readonly number[] {
  if (dart.legs) return dart.legs.map(pathLength);
  return dartLegs(dart).map((leg) => distance(leg[0], leg.at(-1)!));
}

/** How much the legs that are sewn to each other differ in length, mm; for a double-pointed dart at its worse end. */
export function dartLegDifference(dart: DartShape): number {
  const l = dartLegLengths(dart);
  if (dart.kind === 'single') return Math.abs(l[0]! - l[1]!);
  return Math.max(Math.abs(l[0]! - l[3]!), Math.abs(l[1]! - l[2]!));
}

/** The dart moved by a rigid map that does not mirror. */
export function movedDart<D extends DartShape>(dart: D, m: Matrix): D;
export function movedDart(dart: DartShape, m: Matrix): DartShape {
  const at = (p: Pt): Pt => applyMatrix(m, p);
  const legs = dart.legs && dart.legs.map((leg) => transformPath(leg, m));
  if (dart.kind === 'single') {
    const mouth = [at(dart.mouth[0]), at(dart.mouth[1])] as const;
    return { ...dart, mouth, point: at(dart.point), legs: legs as readonly [Path, Path] | null };
  }
  return { ...dart, points: fourPoints(dart.points, at), legs: legs as FourPaths | null };
}

const fourPoints = (p: DoubleDart['points'], at: (p: Pt) => Pt): DoubleDart['points'] => [
  at(p[0]),
  at(p[1]),
  at(p[2]),
  at(p[3]),
];

/** The mirror image across a fold; its corners are in mirrored order, so that it runs round the outline the same way. */
export function mirroredDart(dart: DartShape, fold: Line): DartShape {
  const m = mirrorAcross(fold);
  const at = (p: Pt): Pt => applyMatrix(m, p);
  const leg = (path: Path): Path => reversePath(transformPath(path, m));
  if (dart.kind === 'single') {
    const legs = dart.legs && ([leg(dart.legs[1]), leg(dart.legs[0])] as const);
    return { kind: 'single', mouth: [at(dart.mouth[1]), at(dart.mouth[0])], point: at(dart.point), legs };
  }
  const [a, b, c, d] = dart.points;
  const legs = dart.legs && ([3, 2, 1, 0].map((i) => leg(dart.legs![i]!)) as unknown as FourPaths);
  return { kind: 'double', points: [at(a), at(d), at(c), at(b)], legs };
}
