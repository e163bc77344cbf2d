import { directionAt, subCurve, transformCurve } from './curve';
import { crossStraight } from './crossStraight';
import { firstCrossing } from './curveCrossing';
import type { Corner } from './offsetJoins';
import { reversePath } from './path';
import type { Curve, CurveRef, Path, Pt } from './types';
import { add, distance, dot, mirrorAcross, scale, subtract } from './vector';

/**
 * How the strips of an offset end at a convex corner, other than in a mitre.
 * square end: the strip `of` one curve runs on past the corner, `reach` mm along its own direction, and ends square to it.
 * mirrored: within the strip of the curve `across`, the border of the other curve goes on as its mirror image across the tangent of `across`.
 */
export type CornerShape =
  | { readonly kind: 'square end'; readonly of: 'before' | 'after'; readonly reach: number }
  | { readonly kind: 'mirrored'; readonly across: 'before' | 'after' };

/** A joint between two open borders: where the first is left, the way between, where the second is joined. Null: at its end. */
export interface ShapedJoint {
  readonly leave: CurveRef | null;
  readonly way: Path;
  readonly enter: CurveRef | null;
}

/** One border at a corner as seen from there: its source's direction away from the corner, outwards, width, and its parallel from the corner on. */
interface Arm {
  readonly away: Pt;
  readonly out: Pt;
  readonly width: number;
  readonly border: Path;
}

/** A joint told from the one arm to the other, both seen from the corner. */
interface ArmJoint {
  readonly from: CurveRef | null;
  readonly way: Path;
  readonly to: CurveRef | null;
}

const ALL_BUT_SQUARE = 1e-9;

/**
 * Join two borders that end at a convex corner by a given shape.
 * @param before the parallel that ends beside the corner; `after` the one that begins there
 * @param mitreLimit a mirrored border is drawn on to meet its axis within this many of its widths
 * @returns null where the shape cannot be made: the caller mitres
 */
export function shapedJoint(
  corner: Corner,
  shape: CornerShape,
  before: Path,
  after: Path,
  mitreLimit: number,
): ShapedJoint | null {
  const outOf = ([x, y]: Pt): Pt => [y, -x];
  const [d1, d2] = [corner.before.direction, corner.after.direction];
  const arms = {
    before: { away: scale(d1, -1), out: outOf(d1), width: corner.before.width, border: reversePath(before) },
    after: { away: d2, out: outOf(d2), width: corner.after.width, border: after },
  } satisfies Record<string, Arm>;
  const isBefore = shape.kind === 'square end' ? shape.of === 'before' : shape.across === 'after';
  const [one, other] = isBefore ? [arms.before, arms.after] : [arms.after, arms.before];
  const joint =
    shape.kind === 'square end'
      ? squareEnd(corner.at, one, other, shape.reach)
      : mirrored(corner.at, one, other, mitreLimit);
  if (!joint) return null;
  const turned = (ref: CurveRef | null): CurveRef | null =>
    ref && { index: before.length - 1 - ref.index, t: 1 - ref.t };
  return isBefore
    ? { leave: turned(joint.from), way: joint.way, enter: joint.to }
    : { leave: turned(joint.to), way: reversePath(joint.way), enter: joint.from };
}

/** Straight stretches through points, those of no length left out. */
const through = (...points: readonly Pt[]): Path =>
  points.slice(1).flatMap((p, i): Curve[] => (distance(points[i]!, p) > 1e-9 ? [[points[i]!, p]] : []));

const inPathOrder = (a: CurveRef, b: CurveRef): number => a.index - b.index || a.t - b.t;

/** The strip of `one` ends square, `reach` beyond the corner; that of `other` is met there, or stepped back to. */
function squareEnd(v: Pt, one: Arm, other: Arm, reach: number): ArmJoint | null {
  const on = scale(one.away, -1);
  const foot = add(v, scale(on, reach));
  const [start, tip] = [add(v, scale(one.out, one.width)), add(foot, scale(one.out, one.width))];
  const otherStart = add(v, scale(other.out, other.width));
  const [cos, sin] = [dot(on, other.away), dot(on, other.out)];
  const own = other.width / sin;
  const stepped = (met: Pt): Path => through(start, tip, foot, met);
  /** How far from the line of `one`, outwards, the square end may meet the other border. */
  const isNear = (p: Pt): boolean => Math.abs(dot(subtract(p, v), one.out)) <= one.width / 2;
  if (cos <= ALL_BUT_SQUARE) {
    const met =
      cos < -ALL_BUT_SQUARE ? add(otherStart, scale(other.away, (reach - other.width * sin) / cos)) : foot;
    const isSlanted = cos < -ALL_BUT_SQUARE ? reach <= own || isNear(met) : Math.abs(reach - own) < 1e-6;
    const corner = add(v, scale(on, own));
    const way = isSlanted
      ? through(start, tip, met, otherStart)
      : [...stepped(corner), ...through(corner, otherStart)];
    return { from: null, way, to: null };
  }
  const square = crossStraight(other.border, foot, one.out).sort(inPathOrder)[0];
  if (square && isNear(square.point) && isAlong(other, square))
    return { from: null, way: through(start, tip, square.point), to: square };
  const ahead = crossStraight(other.border, v, on).filter((c) => c.along > 0);
  const met = ahead.sort(inPathOrder)[0];
  if (met && met.along < reach && isAlong(other, met))
    return { from: null, way: stepped(met.point), to: met };
  // the other border is too short or bends away: both strips are laid over each other and cleaned up
  return { from: null, way: through(start, tip, foot, v, otherStart), to: null };
}

/** How much of a border is mirrored, in widths of the strip it is mirrored into: enough where that one's border is curved. */
const DEEP = 2;

/** Within the strip of `axis` the border of `side` goes on as its mirror image across the axis's tangent at the corner. */
function mirrored(v: Pt, side: Arm, axis: Arm, mitreLimit: number): ArmJoint | null {
  const start = add(v, scale(side.out, side.width));
  const beyond = dot(subtract(start, v), axis.out);
  const sin = -dot(side.away, axis.out);
  if (Math.abs(beyond) / sin > mitreLimit * Math.max(side.width, axis.width)) return null;
  const isShort = beyond <= 0;
  const cut = isShort ? null : crossStraight(side.border, v, axis.away).sort(inPathOrder)[0];
  if (cut === undefined || (cut && !isAlong(side, cut))) return null;
  const onAxis = cut ? cut.point : add(start, scale(side.away, beyond / sin));
  const whole = [...(cut ? [] : through(onAxis, start)), ...from(side.border, cut)];
  const deep = crossStraight(whole, add(v, scale(axis.out, -DEEP * axis.width)), axis.away).sort(
    inPathOrder,
  )[0];
  const along = deep ? upTo(whole, deep) : whole;
  const image = mirrorAcross([v, add(v, axis.away)]);
  const imageOf = (path: Path): Path => path.map((c) => transformCurve(c, image));
  const straight = through(onAxis, add(onAxis, scale(side.away, (DEEP * axis.width) / sin)));
  const joined = meetBorder(imageOf(along), v, axis) ?? meetBorder(imageOf(straight), v, axis);
  if (!joined) return null;
  return { from: cut, way: [...(cut ? [] : through(start, onAxis)), ...joined.way], to: joined.to };
}

/** A path that starts on the axis, as far as the axis's border or that border's straight lengthening past the corner. */
function meetBorder(path: Path, v: Pt, axis: Arm): { way: Path; to: CurveRef | null } | null {
  const otherStart = add(v, scale(axis.out, axis.width));
  const level = crossStraight(path, otherStart, axis.away).sort(inPathOrder)[0];
  if (level && level.along <= 0) {
    return { way: [...upTo(path, level), ...through(level.point, otherStart)], to: null };
  }
  const met = firstCrossing(path, axis.border);
  if (met && isAlong(axis, met.after)) return { way: upTo(path, met.before), to: met.after };
  // nothing of the border is left so far on: it is crossed out by what comes from its other end
  const isAll = isAlong(axis, { index: axis.border.length - 1, t: 1 });
  return level && isAll ? { way: upTo(path, level), to: BEYOND } : null;
}

/** Cosine of the turn (60°) by which a border may leave its direction at the corner where it is cut: else it belongs to other edges. */
const ALONG = 0.5;

const isAlong = ({ border, away }: Arm, { index }: CurveRef): boolean =>
  border
    .slice(0, index + 1)
    .every((c) => dot(directionAt(c, 0), away) > ALONG && dot(directionAt(c, 1), away) > ALONG);

/** Farther along a border than its end. */
export const BEYOND: CurveRef = { index: Infinity, t: 0 };

function from(path: Path, ref: CurveRef | null): Path {
  if (!ref) return path;
  const first = path[ref.index]!;
  return [...(ref.t < 1 ? [subCurve(first, ref.t, 1)] : []), ...path.slice(ref.index + 1)];
}

function upTo(path: Path, ref: CurveRef): Path {
  const last = path[ref.index]!;
  return [...path.slice(0, ref.index), ...(ref.t > 0 ? [subCurve(last, 0, ref.t)] : [])];
}
