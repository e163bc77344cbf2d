import {
  CHORD_SAGITTA,
  type CurveRef,
  type Line,
  type Matrix,
  type Path,
  type Polyline,
  type Pt,
  SAME_POINT,
  applyMatrix,
  cross,
  distance,
  dot,
  endOf,
  isSimpleRing,
  multiply,
  pointOn,
  reversePath,
  startOf,
  subtract,
  transformCurve,
  transformPath,
  unit,
  turnAbout,
} from '../../geometry';
import { withPathEnds } from '../halfToWhole';
import { type SingleDart, dartRing, legsOf, turnBetween } from './dartShape';
import { type CutApart, type Outline, curvesOf, cutApart, firstOf, joint, lastOf, withEnd } from './turnPart';

/** What one swing moved, for carrying marks along. Coordinates before the swing. */
export interface Turn {
  readonly about: Pt;
  /** Radians by which the part turned, positive from +x towards +y. */
  readonly angle: number;
  readonly matrix: Matrix;
  /** The part that turned, and the one that stayed: corners of both, the dart's point last. */
  readonly turned: Polyline;
  readonly still: Polyline;
  /** Where it was cut: from the point to the outline. */
  readonly cut: Line;
  /** The dart before: from its point to the mouth end on the turned part, and to the other. */
  readonly legs: readonly [Line, Line];
  /** Further straight cuts that part the piece; a swing needs none. */
  readonly borders: readonly Line[];
  /** Share of the dart's angle that was closed, 0..1. */
  readonly closed: number;
}

/** A piece after one swing. */
export interface Swung<T> {
  readonly outline: Outline<T>;
  /** The dart at its new place; the mouth straight across. */
  readonly dart: SingleDart;
  /** What is left of it where it was; null when it closed wholly. */
  readonly rest: SingleDart | null;
  readonly turn: Turn;
}

/** Below this share of its angle a dart is closed. */
const CLOSED = 1e-9;

/** Which part of a piece turns; the other keeps its place. */
export type Turning<T> = (cut: CutApart<T>) => 'before' | 'after';

/**
 * Swing a share of a dart to a place on the outline: the piece is cut from the point to the place, the part between is turned
 * about the point until that share of the dart's angle is closed, and the cut opens by the same angle. Every stretch of the outline
 * is turned as it is, so lengths and, about the point, angles are kept (encyclopedia article "Dart (sewing)": the angle is the intake).
 * Curved legs bow at both places by their share, flatter where the leg grows longer, so that the bows keep their area.
 * Unequal legs, once closed, leave a step of their difference in the edge.
 * @param share of the dart's present angle, over 0 to 1
 * @param place not in the mouth; seen from the point (the caller checks)
 * @param tag of the new mouth
 */
export function swingDart<T>(
  outline: Outline<T>,
  dart: SingleDart,
  place: CurveRef,
  share: number,
  tag: T,
  turning: Turning<T>,
): Swung<T> {
  const cut = cutApart(outline, dart, place);
  const turns = turning(cut);
  const at = pointOn(curvesOf(outline), place);
  const [entry, exit] = cut.mouth.isFirst ? dart.mouth : [dart.mouth[1], dart.mouth[0]];
  const closes = turnBetween(entry, dart.point, exit) * share;
  const angle = turns === 'before' ? closes : -closes;
  const matrix = turnAbout(dart.point, angle);
  const isClosed = 1 - share < CLOSED;
  const put = (along: Outline<T>): Outline<T> =>
    along.map((c) => ({ ...c, curve: transformCurve(c.curve, matrix) }));
  let before = turns === 'before' ? put(cut.before.along) : cut.before.along;
  let after = turns === 'after' ? put(cut.after.along) : cut.after.along;
  if (isClosed && distance(lastOf(before), firstOf(after)) <= SAME_POINT) {
    if (turns === 'before') before = withEnd(before, 'last', firstOf(after));
    else after = withEnd(after, 'first', lastOf(before));
  }
  const oldMouth = joint(lastOf(before), firstOf(after), cut.across[0]?.tag ?? tag);
  const newMouth = joint(lastOf(after), firstOf(before), tag);
  const [oldEnds, newEnds] = [
    [lastOf(before), firstOf(after)],
    [lastOf(after), firstOf(before)],
  ] as const;
  const rest = isClosed ? null : redrawn(dart, oldEnds, cut.mouth.isFirst, 1 - share);
  const swung = redrawn(dart, newEnds, cut.mouth.isFirst, share);
  const turn: Turn = {
    about: dart.point,
    angle,
    matrix,
    turned: cut[turns].corners,
    still: cut[turns === 'before' ? 'after' : 'before'].corners,
    cut: [dart.point, at],
    legs:
      turns === 'before'
        ? [
            [dart.point, entry],
            [dart.point, exit],
          ]
        : [
            [dart.point, exit],
            [dart.point, entry],
          ],
    borders: [],
    closed: share,
  };
  return { outline: [...before, ...oldMouth, ...after, ...newMouth], dart: swung, rest, turn };
}

/**
 * A dart with the same point and other mouth ends, in ring order; its legs keep their curve, with such a share of their bow: so that the bow keeps
 * its area, or, where the legs would then cross (a hollow dart grown much shorter), in proportion to the leg.
 */
function redrawn(dart: SingleDart, ends: readonly [Pt, Pt], isFirst: boolean, share: number): SingleDart {
  const mouth: readonly [Pt, Pt] = isFirst ? ends : [ends[1], ends[0]];
  if (!dart.legs) return { kind: 'single', mouth, point: dart.point, legs: null };
  const [first, second] = legsOf(dart);
  const drawn = (power: 1 | -1): SingleDart => ({
    kind: 'single',
    mouth,
    point: dart.point,
    legs: [
      reversePath(refitted(reversePath(first), mouth[0], share, power)),
      refitted(second, mouth[1], share, power),
    ],
  });
  const kept = drawn(-1);
  return isSimpleRing(dartRing(kept), CHORD_SAGITTA) ? kept : drawn(1);
}

/**
 * A leg from the point, drawn to another mouth end: along its chord in proportion, its bow by `share` and the power of that proportion (-1
 * keeps the bow's area, 1 its shape).
 */
function refitted(leg: Path, to: Pt, share: number, power: 1 | -1): Path {
  const [point, from] = [startOf(leg), endOf(leg)];
  const [was, is] = [distance(point, from), distance(point, to)];
  if (was === 0 || is === 0) return [[point, to]];
  const [along, bow] = [is / was, share * (is / was) ** power];
  const [u, v] = [unit(subtract(from, point)), unit(subtract(to, point))];
  const stretched: Matrix = [
    along * u[0] * u[0] + bow * u[1] * u[1],
    (along - bow) * u[0] * u[1],
    (along - bow) * u[0] * u[1],
    along * u[1] * u[1] + bow * u[0] * u[0],
    0,
    0,
  ];
  const turned: Matrix = [dot(u, v), cross(u, v), -cross(u, v), dot(u, v), 0, 0];
  const linear = multiply(turned, stretched);
  const moved = applyMatrix(linear, point);
  const m: Matrix = [linear[0], linear[1], linear[2], linear[3], point[0] - moved[0], point[1] - moved[1]];
  return withPathEnds(transformPath(leg, m), point, to);
}
