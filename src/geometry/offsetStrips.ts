import { boxOfPoints } from './box';
import {
  curvatureAt,
  derivativeAt,
  directionAt,
  endOfCurve,
  isCubic,
  pointAt,
  secondDerivativeAt,
} from './curve';
import { flattenPath } from './flatten';
import { DOUBLES_BACK, turnNearby, withoutStubs } from './offsetSides';
import type { Box, Curve, CurveRef, Polyline, Pt, Ring } from './types';
import { cross, distance, distanceToSegment, dot, subtract, unit } from './vector';

/**
 * What a ring with widths must cover, written down without building it: a strip beside each curve and a mitre at each
 * opening corner. Made for checkOffset; shares no construction with offsetRing.
 */
export interface OffsetStrips {
  readonly strips: readonly Strip[];
  readonly corners: readonly MitreCorner[];
  /** Source chords, for inside tests. */
  readonly points: Polyline;
}

interface Strip {
  readonly curve: Curve;
  readonly refs: readonly CurveRef[];
  readonly points: Polyline;
  readonly box: Box;
  readonly width: number;
  /** Widths of the neighbours. */
  readonly before: number;
  readonly after: number;
  readonly startDirection: Pt;
  readonly endDirection: Pt;
  /** Direction in which the ring arrives at the start, and leaves from the end. */
  readonly arriving: Pt;
  readonly leaving: Pt;
  readonly turnAtStart: number;
  readonly turnAtEnd: number;
}

/** Strips this far off are still looked at, mm, so that a near miss shows as a small negative depth. */
const LOOK_BEYOND = 0.1;

interface MitreCorner {
  readonly at: Pt;
  readonly d1: Pt;
  readonly d2: Pt;
  readonly w1: number;
  readonly w2: number;
  readonly opens: boolean;
  /** How far the mitre may reach from the corner, and in which direction, mm. */
  readonly reach: number;
  readonly towards: Pt;
}

/** |sin| of a turn below which a ring runs straight on. */
const STRAIGHT_ON = 1e-6;
const EVOLUTE_LOOKS = 512;
/** Looks this near to where the bend reaches the width count as well, so that no tip is missed. */
const NEARLY_TURNED = 0.95;

/** How far the chords used here may leave the source curves, mm. */
const CHECK_SAGITTA = 0.002;

/** @param ring signedArea > 0, its curves without cusps inside; widths outwards */
export function offsetStrips(ring: Ring, widths: readonly number[], mitreLimit: number): OffsetStrips {
  const n = ring.length;
  const strips = ring.map((c, i): Strip => {
    const { points, refs } = flattenPath([c], CHECK_SAGITTA);
    const [before, after] = [widths[(i + n - 1) % n]!, widths[(i + 1) % n]!];
    return {
      curve: c,
      refs,
      points,
      box: boxOfPoints(points),
      width: widths[i]!,
      before,
      after,
      startDirection: directionAtEnd(c, 0),
      endDirection: directionAtEnd(c, 1),
      arriving: directionAtEnd(ring[(i + n - 1) % n]!, 1),
      leaving: directionAtEnd(ring[(i + 1) % n]!, 0),
      turnAtStart: turnAt(ring[(i + n - 1) % n]!, c),
      turnAtEnd: turnAt(c, ring[(i + 1) % n]!),
    };
  });
  const corners = ring.map((c, i) =>
    mitreCorner(c, ring[(i + 1) % n]!, widths[i]!, widths[(i + 1) % n]!, mitreLimit),
  );
  return { strips, corners, points: flattenPath(ring, CHECK_SAGITTA, true).points };
}

function mitreCorner(before: Curve, after: Curve, w1: number, w2: number, mitreLimit: number): MitreCorner {
  const at = endOfCurve(before);
  const [d1, d2] = [directionAtEnd(before, 1), directionAtEnd(after, 0)];
  const sin = cross(d1, d2);
  const turns = turnAt(before, after);
  const isStraight = Math.abs(sin) < STRAIGHT_ON && dot(d1, d2) > 0;
  const ahead: Pt = [
    Math.sign(turns) * (w2 * d1[0] - w1 * d2[0]),
    Math.sign(turns) * (w2 * d1[1] - w1 * d2[1]),
  ];
  const towards = unit(isStraight ? [d1[1] + d2[1], -d1[0] - d2[0]] : ahead);
  const reach = mitreLimit * Math.max(Math.abs(w1), Math.abs(w2));
  return { at, d1, d2, w1, w2, opens: w1 * w2 >= 0 && (w1 + w2) * turns > 0, reach, towards };
}

/** Sign of the turn of a ring from one curve to the next, positive from +x towards +y. */
function turnAt(before: Curve, after: Curve): number {
  const [d1, d2] = [directionAtEnd(before, 1), directionAtEnd(after, 0)];
  return dot(d1, d2) < DOUBLES_BACK ? turnNearby(before, after) : cross(d1, d2);
}

/** Direction of travel at an end; a handle too short to have a direction counts as none. */
const directionAtEnd = (c: Curve, t: 0 | 1): Pt => directionAt(isCubic(c) ? withoutStubs(c) : c, t);

/** Nearest place of a row of chords to x. */
interface Foot {
  readonly distance: number;
  readonly at: 'start' | 'inside' | 'end';
  /** Whether x lies on the side the width points to. */
  readonly isOnSide: boolean;
}

/** Nearest chord first, then Newton on the true curve: tight bends turn far within one chord. */
function footOn({ curve, points, refs, width }: Strip, [x, y]: Pt): Foot {
  let [least, bestK, bestT] = [Infinity, 0, 0];
  for (let k = 0; k + 1 < points.length; k += 1) {
    const [ax, ay] = points[k]!;
    const [dx, dy] = [points[k + 1]![0] - ax, points[k + 1]![1] - ay];
    const l2 = dx * dx + dy * dy;
    const t = l2 > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / l2)) : 0;
    const d2 = (ax + dx * t - x) ** 2 + (ay + dy * t - y) ** 2;
    if (d2 < least) [least, bestK, bestT] = [d2, k, t];
  }
  const guess = refs[bestK]!.t + bestT * (refs[bestK + 1]!.t - refs[bestK]!.t);
  const isClose = Math.sqrt(least) < Math.abs(width) + 2 * LOOK_BEYOND;
  const better = isClose ? polished(curve, [x, y], guess) : guess;
  const isBetter = distance(pointAt(curve, better), [x, y]) < Math.sqrt(least) + CHECK_SAGITTA;
  const t = isBetter ? better : guess;
  const foot = pointAt(curve, t);
  const away: Pt = [x - foot[0], y - foot[1]];
  const side = cross(directionAt(curve, t), away);
  const at = t <= 0 ? 'start' : t >= 1 ? 'end' : 'inside';
  return { distance: Math.hypot(away[0], away[1]), at, isOnSide: side * width <= 0 };
}

/** Newton on (c − x)·c' = 0, kept on the curve. */
function polished(c: Curve, x: Pt, guess: number): number {
  let t = guess;
  for (let i = 0; i < 8 && isCubic(c); i += 1) {
    const [toX, d1] = [subtract(pointAt(c, t), x), derivativeAt(c, t)];
    const slope = dot(d1, d1) + dot(toX, secondDerivativeAt(c, t));
    if (slope <= 0) return t;
    const next = Math.min(1, Math.max(0, t - dot(toX, d1) / slope));
    if (Math.abs(next - t) < 1e-13) return next;
    t = next;
  }
  return t;
}

/** Distance from x to source curve i, mm. */
export const distanceToCurve = ({ strips }: OffsetStrips, i: number, x: Pt): number =>
  footOn(strips[i]!, x).distance;

const boxDistance = (b: Box, [x, y]: Pt): number =>
  Math.hypot(Math.max(b.minX - x, 0, x - b.maxX), Math.max(b.minY - y, 0, y - b.maxY));

/**
 * How far inside what must be covered x lies, mm: the largest of width − distance over all strips on whose side it lies.
 * Past the end of a curve the narrower of the two widths there counts. Negative or 0: x is clear of all of them.
 */
export function depthInStrips(
  { strips }: OffsetStrips,
  x: Pt,
  leaveOut = -1,
): { depth: number; strip: number } {
  let most = { depth: -Infinity, strip: -1 };
  strips.forEach((s, strip) => {
    const width = Math.abs(s.width);
    if (strip === leaveOut || width === 0 || boxDistance(s.box, x) > width + LOOK_BEYOND) return;
    const foot = footOn(s, x);
    if (foot.at === 'inside' && !foot.isOnSide) return;
    if (foot.at !== 'inside' && !isBeyondCorner(s, x, foot.at)) return;
    const depth =
      foot.at === 'inside' ? depthInside(s, x, foot.distance) : widthPastEnd(s, foot.at) - foot.distance;
    if (depth > most.depth) most = { depth, strip };
  });
  return most;
}

/** Whether x lies square beside some chord of a strip, on its side and within its width: covered, though another place be nearer. */
export function isSwept({ strips }: OffsetStrips, x: Pt): boolean {
  return strips.some((s) => {
    const within = Math.abs(s.width) - 2 * CHECK_SAGITTA;
    if (boxDistance(s.box, x) >= within) return false;
    for (let k = 0; k + 1 < s.points.length; k += 1) {
      const [a, b] = [s.points[k]!, s.points[k + 1]!];
      const [along, p] = [subtract(b, a), subtract(x, a)];
      const [forward, side, l] = [dot(p, along), cross(along, p), Math.hypot(along[0], along[1])];
      if (forward < 0 || forward > l * l) continue;
      if (side * s.width <= 0 && Math.abs(side) < within * l) return true;
    }
    return false;
  });
}

function depthInside(s: Strip, x: Pt, away: number): number {
  const depth = depthBetweenEnds(s, x, away);
  return depth > 0 ? Math.min(depth, distanceToEvolute(s, x)) : depth;
}

/** Width that counts past the end of a strip: the narrower one of it and its neighbour there; none where strips close in. */
function widthPastEnd(s: Strip, end: 'start' | 'end'): number {
  const turns = end === 'start' ? s.turnAtStart : s.turnAtEnd;
  if (turns * s.width < -STRAIGHT_ON * Math.abs(s.width)) return 0;
  const neighbour = end === 'start' ? s.before : s.after;
  return Math.min(Math.abs(s.width), neighbour * s.width < 0 ? 0 : Math.abs(neighbour));
}

/** Whether the corner itself is the nearest place of both curves that meet there, seen from the side the width points to. */
function isBeyondCorner(s: Strip, x: Pt, end: 'start' | 'end'): boolean {
  const p = subtract(x, end === 'start' ? s.points[0]! : s.points.at(-1)!);
  const [d1, d2] = end === 'start' ? [s.arriving, s.startDirection] : [s.endDirection, s.leaving];
  const turns = end === 'start' ? s.turnAtStart : s.turnAtEnd;
  return turns * s.width >= 0 && dot(p, d1) >= 0 && dot(p, d2) <= 0;
}

/** How far inside a strip x lies: from its border, or from an end face where a narrower neighbour leaves that bare. */
function depthBetweenEnds(s: Strip, x: Pt, away: number): number {
  const { points } = s;
  const fromStart = dot(subtract(x, points[0]!), s.startDirection);
  const fromEnd = dot(subtract(points.at(-1)!, x), s.endDirection);
  return Math.min(
    Math.abs(s.width) - away,
    Math.max(widthPastEnd(s, 'start') - away, Math.abs(fromStart)),
    Math.max(widthPastEnd(s, 'end') - away, Math.abs(fromEnd)),
  );
}

/**
 * Where a curve bends tighter than the width and a neighbour is narrower, the strip may end at the evolute (the centres of
 * curvature): distance from there, mm; Infinity where the evolute lies beyond the width all along.
 */
function distanceToEvolute(s: Strip, x: Pt): number {
  if (Math.min(widthPastEnd(s, 'start'), widthPastEnd(s, 'end')) >= Math.abs(s.width)) return Infinity;
  let least = Infinity;
  let before: Pt | null = null;
  for (let i = 0; i <= EVOLUTE_LOOKS; i += 1) {
    const t = i / EVOLUTE_LOOKS;
    const bend = -Math.sign(s.width) * curvatureAt(s.curve, t);
    if (bend * Math.abs(s.width) < NEARLY_TURNED) {
      before = null;
      continue;
    }
    const [p, d, w] = [pointAt(s.curve, t), directionAt(s.curve, t), Math.sign(s.width) / bend];
    const centre: Pt = [p[0] + d[1] * w, p[1] - d[0] * w];
    least = Math.min(least, before ? distanceToSegment(x, before, centre).distance : distance(x, centre));
    before = centre;
  }
  return least;
}

/** How far x lies from everything that may be covered: strips and mitres, mm. 0 or less inside one of them. */
export function distanceFromStrips({ strips, corners }: OffsetStrips, x: Pt): number {
  let least = Infinity;
  for (const s of strips) {
    if (boxDistance(s.box, x) - Math.abs(s.width) >= least) continue;
    const foot = footOn(s, x);
    const width = foot.isOnSide || foot.at !== 'inside' ? Math.abs(s.width) : 0;
    least = Math.min(least, foot.distance - width);
  }
  for (const c of corners) if (c.opens) least = Math.min(least, distanceFromMitre(c, x));
  return least;
}

/** How far x lies beyond the lines that bound a mitre; 0 or less within it. */
export function distanceFromMitre({ at, d1, d2, w1, w2, reach, towards }: MitreCorner, x: Pt): number {
  const p = subtract(x, at);
  const sign = Math.sign(w1 + w2);
  return Math.max(
    sign * (p[0] * d1[1] - p[1] * d1[0] - w1),
    sign * (p[0] * d2[1] - p[1] * d2[0] - w2),
    dot(p, towards) - reach,
    -dot(p, d1),
    dot(p, d2),
  );
}
