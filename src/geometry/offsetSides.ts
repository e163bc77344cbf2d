import { endOfCurve, isCubic, pointAt, reverseCurve, splitCurve, subCurve } from './curve';
import { alongDirection, bendTerms, cubicTerms, frameAt, newFrame } from './curveFrame';
import type { Corner } from './offsetJoins';
import { SHORTEST_HANDLE } from './tolerances';
import type { Cubic, Curve, Pt } from './types';
import { cross, distance, dot, subtract, unit } from './vector';

/** A source curve made fit for moving: not of zero length, without cusps inside, handles either real or none. */
export interface Side {
  readonly curve: Curve;
  readonly origin: number;
  readonly width: number;
  readonly startDirection: Pt;
  readonly endDirection: Pt;
}

const frame = newFrame();

/** @returns none for a curve of no length, several for one with cusps inside */
export function sidesOf(source: Curve, origin: number, width: number): Side[] {
  const curve = isCubic(source) ? withoutStubs(source) : source;
  if (isPoint(curve)) return [];
  return splitAtCusps(curve).map((c): Side => {
    if (!isCubic(c)) {
      const direction = unit(subtract(c[1], c[0]));
      return { curve: c, origin, width, startDirection: direction, endDirection: direction };
    }
    const terms = cubicTerms(c);
    frameAt(terms, 0, frame);
    const startDirection: Pt = [frame.tx, frame.ty];
    frameAt(terms, 1, frame);
    return { curve: c, origin, width, startDirection, endDirection: [frame.tx, frame.ty] };
  });
}

const isPoint = (c: Curve): boolean => c.every((p) => distance(p, c[0]) < 1e-9);

/** Handles too short to have a direction become none. */
export function withoutStubs(c: Cubic): Cubic {
  const [p, q, r, s] = c;
  const stubStart = distance(p, q) < SHORTEST_HANDLE;
  const stubEnd = distance(r, s) < SHORTEST_HANDLE;
  return stubStart || stubEnd ? [p, stubStart ? p : q, stubEnd ? s : r, s] : c;
}

/** At a cusp the direction jumps: it is a corner. A straight cubic with overshooting handles has two. */
export function splitAtCusps(c: Curve): Curve[] {
  if (!isCubic(c)) return [c];
  const terms = cubicTerms(c);
  const [q0, q1, q2] = bendTerms(terms);
  const isStraight = Math.max(Math.abs(q0), Math.abs(q1), Math.abs(q2)) < 1e-12 * terms.size ** 2;
  let places: number[];
  if (isStraight) {
    const along = straightDirection(c);
    places = alongDirection(terms, -along[1], along[0], 1e-6, 1 - 1e-6);
  } else {
    places = q2 === 0 ? [] : [-q1 / (2 * q2)];
  }
  const cusps = places.filter((t) => {
    if (!(t > 1e-6 && t < 1 - 1e-6)) return false;
    frameAt(terms, t, frame);
    return frame.speed < 1e-7 * terms.size;
  });
  if (cusps.length === 0) return [c];
  if (cusps.length === 1) return splitCurve(c, cusps[0]!);
  const [s, t] = [cusps[0]!, cusps[1]!];
  return [subCurve(c, 0, s), subCurve(c, s, t), subCurve(c, t, 1)];
}

function straightDirection(c: Cubic): Pt {
  const reach = [c[1], c[2], c[3]].map((p) => subtract(p, c[0]));
  return unit(reach.reduce((a, b) => (dot(b, b) > dot(a, a) ? b : a)));
}

export function cornerBetween(before: Side, after: Side): Corner {
  const [d1, d2] = [before.endDirection, after.startDirection];
  const sin = cross(d1, d2);
  const doublesBack = dot(d1, d2) < DOUBLES_BACK;
  return {
    at: after.curve[0],
    before: { direction: d1, width: before.width },
    after: { direction: d2, width: after.width },
    turn: (doublesBack ? turnNearby(before.curve, after.curve) : sin) < 0 ? -1 : 1,
  };
}

/** Cosine of the turn beyond which a corner doubles back so sharply that its tangents do not tell a point from a slit. */
export const DOUBLES_BACK = -0.95;
/** How far from such a corner its two sides are compared, mm: beyond the wobble of a hand tracing. */
const LOOK_BACK = 1;

/** Which way a ring turns where it doubles back: compares both sides at the same distance from the corner, ever farther off. */
export function turnNearby(before: Curve, after: Curve): number {
  const v = after[0];
  const near = Math.min(LOOK_BACK, distance(before[0], v) / 4, distance(endOfCurve(after), v) / 4);
  for (const reach of [near, 2 * near, 4 * near]) {
    const p = pointAt(before, 1 - parameterAtDistance(reverseCurve(before), reach));
    const q = pointAt(after, parameterAtDistance(after, reach));
    const sin = cross(unit(subtract(v, p)), unit(subtract(q, v)));
    if (Math.abs(sin) > 1e-9) return sin;
  }
  return 1;
}

/** First parameter at which a curve is about `reach` mm from its start, by steps and halving; 1 if it never is. */
function parameterAtDistance(c: Curve, reach: number): number {
  const steps = 64;
  const isBeyond = (t: number): boolean => distance(pointAt(c, t), c[0]) >= reach;
  let k = 1;
  while (k < steps && !isBeyond(k / steps)) k += 1;
  let [low, high] = [(k - 1) / steps, k / steps];
  for (let i = 0; i < 20; i += 1) {
    const middle = (low + high) / 2;
    if (isBeyond(middle)) high = middle;
    else low = middle;
  }
  return high;
}
