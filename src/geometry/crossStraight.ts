import { isCubic, pointAt } from './curve';
import type { Curve, CurveRef, Path, Pt } from './types';
import { cross, dot, subtract } from './vector';

/** Where a straight line meets a path: the place on the path, the point, and how far along the straight line it is, mm. */
export interface StraightCrossing extends CurveRef {
  readonly point: Pt;
  /** Signed distance from the straight line's origin along its direction, mm. */
  readonly along: number;
}

/** How near a curve's turning point must come to a straight line to count as touching it, mm. */
const TOUCH = 1e-6;

/** Parameters in 0..1 where the Bernstein cubic with these coefficients turns round (its derivative is zero). */
function turningPoints([a, b, c, d]: readonly [number, number, number, number]): number[] {
  const [q0, q1, q2] = [b - a, c - b, d - c];
  const [A, B, C] = [q0 - 2 * q1 + q2, 2 * (q1 - q0), q0];
  const roots: number[] = [];
  if (Math.abs(A) < 1e-12 * (Math.abs(q0) + Math.abs(q1) + Math.abs(q2) + 1e-300)) {
    if (B !== 0) roots.push(-C / B);
  } else {
    const disc = B * B - 4 * A * C;
    if (disc >= 0) {
      const q = -0.5 * (B + Math.sign(B || 1) * Math.sqrt(disc));
      roots.push(q / A);
      if (q !== 0) roots.push(C / q);
    }
  }
  return roots.filter((t) => t > 0 && t < 1).sort((x, y) => x - y);
}

/** The one zero of f between two parameters of opposite sign, by bisection to the last bits. */
function bisect(f: (t: number) => number, from: number, to: number): number {
  let [low, high] = f(from) < 0 ? [from, to] : [to, from];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Parameters where one curve lies on the straight line through `origin`, ends included. */
function parametersOn(curve: Curve, origin: Pt, direction: Pt): number[] {
  const side = (p: Pt): number => cross(direction, subtract(p, origin));
  if (!isCubic(curve)) {
    const [a, b] = [side(curve[0]), side(curve[1])];
    if (a === b) return [];
    const t = a / (a - b);
    return t >= 0 && t <= 1 ? [t] : [];
  }
  const f = (t: number): number => side(pointAt(curve, t));
  const stops = [0, ...turningPoints([side(curve[0]), side(curve[1]), side(curve[2]), side(curve[3])]), 1];
  const found: number[] = [];
  stops.forEach((t, i) => {
    if (Math.abs(f(t)) <= TOUCH) found.push(t);
    const next = stops[i + 1];
    if (
      next !== undefined &&
      Math.abs(f(next)) > TOUCH &&
      Math.abs(f(t)) > TOUCH &&
      f(t) < 0 !== f(next) < 0
    ) {
      found.push(bisect(f, t, next));
    }
  });
  return found;
}

/**
 * Every place where an endless straight line meets a path, in order along the straight line.
 * Between a cubic's turning points its signed distance is monotone, so each sign change holds exactly one crossing.
 * A stretch lying along the straight line gives its ends only where a neighbouring curve crosses there.
 * @param direction unit vector
 */
export function crossStraight(path: Path, origin: Pt, direction: Pt): StraightCrossing[] {
  return path
    .flatMap((curve, index) =>
      parametersOn(curve, origin, direction).map((t): StraightCrossing => {
        const point = pointAt(curve, t);
        return { index, t, point, along: dot(subtract(point, origin), direction) };
      }),
    )
    .sort((a, b) => a.along - b.along || a.index - b.index);
}
