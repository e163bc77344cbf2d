import {
  type Path,
  type Pt,
  type Ring,
  SAME_POINT,
  add,
  cross,
  crossStraight,
  curveLength,
  directionAt,
  endOf,
  flattenPath,
  flattenRing,
  isClosed,
  isInRing,
  length,
  lengthAt,
  nearestOnPath,
  pathLength,
  pointAt,
  reversePath,
  scale,
  startOf,
  subPath,
  subtract,
  unit,
} from '../../geometry';
import type { DartShape } from '../design';
import { withPathEnds } from '../halfToWhole';
import { remember } from '../remember';
import { legsOf } from './dartShape';

/**
 * How much farther along its own direction than straight to the edge a leg that stops short may be drawn on: beyond that it
 * runs beside the edge, and the nearest point is the better guess. Common practice, no source.
 */
const LONGEST_DRAWN_ON = 3;

/** A dart with its mouth on an outline. */
export interface PlacedShape {
  readonly dart: DartShape;
  /** How far the worse of its mouth's ends stopped short of the outline as traced, mm; 0 where both reached it. */
  readonly gap: number;
  /** That end as traced; null where both reached it. */
  readonly at: Pt | null;
}

const cornersOf = remember((ring: Ring): readonly Pt[] => flattenRing(ring));

/**
 * Put a single dart's mouth on the stitching outline: back along its leg where the tracing reaches past it (an allowance was traced),
 * on along its leg where it stops short, else to the nearest point. Curved legs are cut, or drawn straight on from their end.
 */
export function placeDart(dart: DartShape, stitching: Ring): PlacedShape {
  if (dart.kind === 'double' || stitching.length === 0) return { dart, gap: 0, at: null };
  const [first, second] = legsOf(dart);
  const ends = [reversePath(first), second].map((leg) => legToRing(leg, stitching));
  const [a, b] = ends as [PlacedLeg, PlacedLeg];
  const worse = a.gap >= b.gap ? { gap: a.gap, at: dart.mouth[0] } : { gap: b.gap, at: dart.mouth[1] };
  const legs = dart.legs && ([reversePath(a.leg), b.leg] as const);
  const placed: DartShape = { ...dart, mouth: [endOf(a.leg), endOf(b.leg)], legs };
  return { dart: placed, gap: worse.gap, at: worse.gap > 0 ? worse.at : null };
}

interface PlacedLeg {
  readonly leg: Path;
  readonly gap: number;
}

/** One leg, run from the point to its mouth end, made to end on the ring. */
function legToRing(leg: Path, ring: Ring): PlacedLeg {
  const mouth = endOf(leg);
  const near = nearestOnPath(ring, mouth);
  if (near.distance < SAME_POINT) return { leg: withPathEnds(leg, startOf(leg), near.point), gap: 0 };
  const nearest = { leg: withPathEnds(leg, startOf(leg), near.point), gap: near.distance };
  if (!isInRing(mouth, cornersOf(ring))) return cutBack(leg, ring) ?? { ...nearest, gap: near.distance };
  const direction = directionAt(leg.at(-1)!, 1);
  const ahead = crossStraight(ring, mouth, direction).find((c) => c.along > 0);
  if (!ahead || ahead.along > LONGEST_DRAWN_ON * near.distance) return nearest;
  return { leg: drawnOn(leg, ahead.point), gap: near.distance };
}

/** The leg with its last stretch drawn straight on to a point ahead; a straight one stays one stretch. */
function drawnOn(leg: Path, to: Pt): Path {
  const last = leg.at(-1)!;
  return last.length === 2 ? [...leg.slice(0, -1), [last[0], to]] : [...leg, [endOf(leg), to]];
}

/** The leg up to where it last leaves the ring; null where it never does. */
function cutBack(leg: Path, ring: Ring): PlacedLeg | null {
  const flat = flattenPath(leg);
  for (let i = flat.points.length - 1; i > 0; i -= 1) {
    const [a, b] = [flat.points[i - 1]!, flat.points[i]!];
    const along = subtract(b, a);
    const reach = length(along);
    const hit = crossStraight(ring, a, unit(along)).findLast((c) => c.along >= 0 && c.along <= reach);
    if (!hit) continue;
    const { index } = flat.refs[i]!.t > 0 ? flat.refs[i]! : flat.refs[i - 1]!;
    const curve = leg[index]!;
    const t = curve.length === 2 ? nearestT(curve, hit.point) : leavingT(curve, ring, hit.point);
    const kept = subPath(leg, { index: 0, t: 0 }, { index, t });
    if (kept.length === 0) return null;
    return { leg: withPathEnds(kept, startOf(leg), nearestOnPath(ring, endOf(kept)).point), gap: 0 };
  }
  return null;
}

const nearestT = (curve: Path[number], p: Pt): number => nearestOnPath([curve], p).t;

/** Where a curve crosses a ring near a point, its parameter: the chords' crossing put on both curves by turns. */
function leavingT(curve: Path[number], ring: Ring, guess: Pt): number {
  let t = nearestT(curve, guess);
  for (let i = 0; i < 20; i += 1) {
    const near = nearestOnPath(ring, pointAt(curve, t));
    if (near.distance < 1e-9) break;
    const [u, v] = [directionAt(curve, t), directionAt(ring[near.index]!, near.t)];
    const turn = cross(u, v);
    if (Math.abs(turn) < 1e-6) break;
    const step = cross(subtract(near.point, pointAt(curve, t)), v) / turn;
    t = nearestT(curve, add(pointAt(curve, t), scale(u, step)));
  }
  return t;
}

/** Length of a dart's mouth along a stretch of outline, mm; 0 when the mouth does not lie on it. */
export function mouthLengthOn(path: Path, dart: DartShape): number {
  if (dart.kind === 'double' || path.length === 0) return 0;
  const [a, b] = dart.mouth.map((p) => nearestOnPath(path, p)) as [Near, Near];
  if (a.distance > SAME_POINT || b.distance > SAME_POINT) return 0;
  if (a.index === b.index)
    return Math.abs(curveLength(path[a.index]!, 0, b.t) - curveLength(path[a.index]!, 0, a.t));
  const along = Math.abs(lengthAt(path, a) - lengthAt(path, b));
  return isClosed(path) ? Math.min(along, pathLength(path) - along) : along;
}

type Near = ReturnType<typeof nearestOnPath>;
