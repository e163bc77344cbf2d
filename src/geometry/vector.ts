import type { Matrix, Pt } from './types';

export const add = (a: Pt, b: Pt): Pt => [a[0] + b[0], a[1] + b[1]];
export const subtract = (a: Pt, b: Pt): Pt => [a[0] - b[0], a[1] - b[1]];
export const scale = (a: Pt, k: number): Pt => [a[0] * k, a[1] * k];
export const dot = (a: Pt, b: Pt): number => a[0] * b[0] + a[1] * b[1];
/** z of the cross product: positive when turning from a to b goes from +x towards +y. */
export const cross = (a: Pt, b: Pt): number => a[0] * b[1] - a[1] * b[0];
/** Square roots are the same on every machine, which Math.hypot need not be (and they are faster). */
export const length = (a: Pt): number => Math.sqrt(a[0] * a[0] + a[1] * a[1]);
export function distance(a: Pt, b: Pt): number {
  const [x, y] = [b[0] - a[0], b[1] - a[1]];
  return Math.sqrt(x * x + y * y);
}

/** Length of an open polyline. */
export function lengthOfPoints(points: readonly Pt[]): number {
  let sum = 0;
  for (let i = 1; i < points.length; i += 1) sum += distance(points[i - 1]!, points[i]!);
  return sum;
}

export const mix = (a: Pt, b: Pt, t: number): Pt => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
export const samePoint = (a: Pt, b: Pt): boolean => a[0] === b[0] && a[1] === b[1];

/** Unit vector of a; [0, 0] for a vector without length. */
export function unit(a: Pt): Pt {
  const l = length(a);
  return l > 0 ? [a[0] / l, a[1] / l] : [0, 0];
}

/** a turned by +90° in the y-down frame: +x becomes +y. For a ring with positive signedArea it points inwards. */
export const perpendicular = (a: Pt): Pt => [-a[1], a[0]];

/** Distance from p to the segment a b, and the parameter 0..1 of the nearest point. */
export function distanceToSegment(p: Pt, a: Pt, b: Pt): { distance: number; t: number } {
  const d = subtract(b, a);
  const l2 = dot(d, d);
  const t = l2 > 0 ? Math.min(1, Math.max(0, dot(subtract(p, a), d) / l2)) : 0;
  return { distance: distance(p, mix(a, b, t)), t };
}

export const applyMatrix = (m: Matrix, p: Pt): Pt => [
  m[0] * p[0] + m[2] * p[1] + m[4],
  m[1] * p[0] + m[3] * p[1] + m[5],
];

/** First `second`, then `first`: applyMatrix(multiply(a, b), p) = applyMatrix(a, applyMatrix(b, p)). */
export const multiply = (a: Matrix, b: Matrix): Matrix => [
  a[0] * b[0] + a[2] * b[1],
  a[1] * b[0] + a[3] * b[1],
  a[0] * b[2] + a[2] * b[3],
  a[1] * b[2] + a[3] * b[3],
  a[0] * b[4] + a[2] * b[5] + a[4],
  a[1] * b[4] + a[3] * b[5] + a[5],
];

/** The map that leaves everything where it is. */
export const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

/** Turn about a point by so many radians, positive from +x towards +y. */
export function turnAbout([x, y]: Pt, angle: number): Matrix {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c, s, -s, c, x - c * x + s * y, y - s * x - c * y];
}

/** Mirror across the straight line through a and b. @throws RangeError if a equals b */
export function mirrorAcross([a, b]: readonly [Pt, Pt]): Matrix {
  const [ux, uy] = unit(subtract(b, a));
  if (ux === 0 && uy === 0) throw new RangeError('a mirror line needs two different points');
  const c = ux * ux - uy * uy;
  const s = 2 * ux * uy;
  return [c, s, s, -c, a[0] - c * a[0] - s * a[1], a[1] - s * a[0] + c * a[1]];
}
