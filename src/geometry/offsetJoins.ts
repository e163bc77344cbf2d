import type { Pt } from './types';
import { cross, distance, dot } from './vector';
import { OFFSET_JOINT_SLIP } from './tolerances';

/** A corner of a ring between two curves, each with the width it is moved by. Directions are unit vectors of travel. */
export interface Corner {
  readonly at: Pt;
  readonly before: { readonly direction: Pt; readonly width: number };
  readonly after: { readonly direction: Pt; readonly width: number };
  /** +1 where the ring turns from +x towards +y (convex when its signedArea is positive), −1 the other way. */
  readonly turn: 1 | -1;
}

/**
 * How the parallel of the curve before is joined to that of the curve after: straight through `points`.
 * `meetsBefore`: the first point lies on the (lengthened or shortened) parallel before; else its end stays and a straight
 * line leads on from there. `meetsAfter`: the same for the last point and the parallel after.
 * A shaped join has no points: both borders keep their ends and shapedCorners joins them.
 * Every join adds area covered the right way round only, so that the winding number tells inside from outside.
 */
export interface Join {
  readonly kind: 'mitre' | 'cut off' | 'step' | 'smooth' | 'shortened' | 'by way of the corner' | 'shaped';
  readonly points: readonly Pt[];
  readonly meetsBefore: boolean;
  readonly meetsAfter: boolean;
}

/** Point `forward` mm along the curve's direction and `out` mm outwards of the corner. */
const beside = ([x, y]: Pt, [dx, dy]: Pt, forward: number, out: number): Pt => [
  x + dx * forward + dy * out,
  y + dy * forward - dx * out,
];

/** Below this |sin| of the turn the two tangents count as one line. */
const STRAIGHT_SIN = 1e-9;

/**
 * Join two parallels at a corner; widths outwards of a ring with positive signedArea.
 * Where the strips open (outwards at a convex corner, inwards at a concave one) their borders are lengthened to a mitre, cut
 * off square across the tip at mitreLimit × the wider width from the corner. Where the wider border would reach back over its own
 * strip, it ends in a step square to its curve instead, so that no stretch loses width to a narrower neighbour.
 * Where the strips overlap, borders are shortened to their crossing, `shorten` permitting (it is exact for two lines only);
 * else the join runs by way of the corner itself and leaves the rest to a clean-up.
 */
export function joinAt(corner: Corner, mitreLimit: number, shorten: boolean): Join {
  const { at: v, before, after } = corner;
  const [w1, w2] = [before.width, after.width];
  const [d1, d2] = [before.direction, after.direction];
  const [end, start] = [beside(v, d1, 0, w1), beside(v, d2, 0, w2)];
  const [sin, cos] = [cross(d1, d2), dot(d1, d2)];
  if (distance(end, start) < OFFSET_JOINT_SLIP && cos > 0) return smooth(v, d1, d2, w1, w2, sin, cos);
  if (w1 * w2 < 0) return byWayOf(v);
  const opens = (w1 + w2) * corner.turn > 0;
  if (cos > 0) {
    const [narrow, wide] = Math.abs(w1) < Math.abs(w2) ? [w1, w2] : [w2, w1];
    if (Math.abs(narrow) < Math.abs(wide) * cos || Math.abs(sin) < STRAIGHT_SIN) {
      return opens || shorten ? step(v, d1, d2, w1, w2, narrow / cos) : byWayOf(v);
    }
  }
  if (opens) return mitre(corner, mitreLimit, sin);
  if (!shorten || !canShorten(cos) || Math.abs(sin) < STRAIGHT_SIN) return byWayOf(v);
  return {
    kind: 'shortened',
    points: [crossing(v, d1, d2, w1, w2, sin)],
    meetsBefore: true,
    meetsAfter: true,
  };
}

/**
 * Shortening takes away what both strips cover. At a turn of more than a right angle the end of one strip reaches past the
 * other curve to its far side, where it is covered once only: such corners are left to the clean-up.
 */
export const canShorten = (cosineOfTurn: number): boolean => cosineOfTurn > -1e-9;

const byWayOf = (v: Pt): Join => ({
  kind: 'by way of the corner',
  points: [v],
  meetsBefore: false,
  meetsAfter: false,
});

/** Where both borders cross: p·n1 = w1 and p·n2 = w2 from the corner, by Cramer's rule. */
const crossing = (v: Pt, d1: Pt, d2: Pt, w1: number, w2: number, sin: number): Pt => [
  v[0] + (w2 * d1[0] - w1 * d2[0]) / sin,
  v[1] + (w2 * d1[1] - w1 * d2[1]) / sin,
];

/** Directions all but agree: both ends go to one point, the crossing where it lies near, else the middle between them. */
function smooth(v: Pt, d1: Pt, d2: Pt, w1: number, w2: number, sin: number, cos: number): Join {
  const [end, start] = [beside(v, d1, 0, w1), beside(v, d2, 0, w2)];
  const middle: Pt = [(end[0] + start[0]) / 2, (end[1] + start[1]) / 2];
  const out = w1 / Math.sqrt((1 + cos) / 2);
  const l = Math.hypot(d1[0] + d2[0], d1[1] + d2[1]);
  const bisector: Pt = [(d1[0] + d2[0]) / l, (d1[1] + d2[1]) / l];
  const at = w1 === w2 && Math.abs(sin) < 0.5 ? beside(v, bisector, 0, out) : middle;
  return { kind: 'smooth', points: [at], meetsBefore: true, meetsAfter: true };
}

/** The wide border ends square to its curve; the narrow one is lengthened or shortened to that end face. */
function step(v: Pt, d1: Pt, d2: Pt, w1: number, w2: number, out: number): Join {
  return Math.abs(w1) > Math.abs(w2)
    ? { kind: 'step', points: [beside(v, d1, 0, out)], meetsBefore: false, meetsAfter: true }
    : { kind: 'step', points: [beside(v, d2, 0, out)], meetsBefore: true, meetsAfter: false };
}

function mitre({ at: v, before, after, turn }: Corner, mitreLimit: number, sin: number): Join {
  const [d1, d2, w1, w2] = [before.direction, after.direction, before.width, after.width];
  const reach = mitreLimit * Math.max(Math.abs(w1), Math.abs(w2));
  const towardsX = w2 * d1[0] - w1 * d2[0];
  const towardsY = w2 * d1[1] - w1 * d2[1];
  const far = Math.hypot(towardsX, towardsY);
  if (far <= reach * Math.abs(sin)) {
    return { kind: 'mitre', points: [crossing(v, d1, d2, w1, w2, sin)], meetsBefore: true, meetsAfter: true };
  }
  const u: Pt = [(turn * towardsX) / far, (turn * towardsY) / far];
  const along1 = (reach - w1 * (d1[1] * u[0] - d1[0] * u[1])) / dot(d1, u);
  const along2 = (reach - w2 * (d2[1] * u[0] - d2[0] * u[1])) / dot(d2, u);
  return {
    kind: 'cut off',
    points: [beside(v, d1, along1, w1), beside(v, d2, along2, w2)],
    meetsBefore: true,
    meetsAfter: true,
  };
}
