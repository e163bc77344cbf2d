import type { Box, Cubic, Curve, Matrix, Pt } from './types';
import { add, applyMatrix, cross, distance, dot, mix, scale, subtract } from './vector';

export const isCubic = (c: Curve): c is Cubic => c.length === 4;
export const startOfCurve = (c: Curve): Pt => c[0];
export const endOfCurve = (c: Curve): Pt => c[c.length - 1]!;

/** Point at parameter t in 0..1, mm. */
export function pointAt(c: Curve, t: number): Pt {
  if (!isCubic(c)) return mix(c[0], c[1], t);
  const u = 1 - t;
  const [a, b, d, e] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return [
    a * c[0][0] + b * c[1][0] + d * c[2][0] + e * c[3][0],
    a * c[0][1] + b * c[1][1] + d * c[2][1] + e * c[3][1],
  ];
}

/** First derivative by t, mm per unit of t; may be [0, 0] where a handle lies on its end. */
export function derivativeAt(c: Curve, t: number): Pt {
  if (!isCubic(c)) return subtract(c[1], c[0]);
  const u = 1 - t;
  return add(
    add(scale(subtract(c[1], c[0]), 3 * u * u), scale(subtract(c[2], c[1]), 6 * u * t)),
    scale(subtract(c[3], c[2]), 3 * t * t),
  );
}

/** Second derivative by t, mm per unit of t squared. */
export function secondDerivativeAt(c: Curve, t: number): Pt {
  if (!isCubic(c)) return [0, 0];
  const p = add(subtract(c[2], scale(c[1], 2)), c[0]);
  const q = add(subtract(c[3], scale(c[2], 2)), c[1]);
  return add(scale(p, 6 * (1 - t)), scale(q, 6 * t));
}

/** Unit direction of travel at t. Falls back to the handles, then the chord, where the derivative vanishes. */
export function directionAt(c: Curve, t: number): Pt {
  const size = boxSize(c);
  const ok = (v: Pt): boolean => Math.hypot(v[0], v[1]) > size * 1e-9;
  const unitOf = (v: Pt): Pt => scale(v, 1 / Math.hypot(v[0], v[1]));
  const d = derivativeAt(c, t);
  if (ok(d)) return unitOf(d);
  const d2 = secondDerivativeAt(c, t);
  if (ok(d2)) return unitOf(t > 0.5 ? scale(d2, -1) : d2);
  const chord = subtract(endOfCurve(c), startOfCurve(c));
  return ok(chord) ? unitOf(chord) : [1, 0];
}

function boxSize(c: Curve): number {
  const b = controlBox(c);
  return Math.max(b.maxX - b.minX, b.maxY - b.minY);
}

/** Signed curvature 1/mm at t; positive where the curve turns from +x towards +y. 0 where the derivative vanishes. */
export function curvatureAt(c: Curve, t: number): number {
  const d = derivativeAt(c, t);
  const speed = Math.hypot(d[0], d[1]);
  return speed > 1e-12 ? cross(d, secondDerivativeAt(c, t)) / speed ** 3 : 0;
}

/** Both parts of a curve at t (de Casteljau). The shared point is the same array in both. */
export function splitCurve(c: Curve, t: number): [Curve, Curve] {
  if (!isCubic(c)) {
    const m = mix(c[0], c[1], t);
    return [
      [c[0], m],
      [m, c[1]],
    ];
  }
  const ab = mix(c[0], c[1], t);
  const bc = mix(c[1], c[2], t);
  const cd = mix(c[2], c[3], t);
  const abc = mix(ab, bc, t);
  const bcd = mix(bc, cd, t);
  const m = mix(abc, bcd, t);
  return [
    [c[0], ab, abc, m],
    [m, bcd, cd, c[3]],
  ];
}

/** The stretch of c from t0 to t1; runs backwards when t0 > t1. Exact at t = 0 and 1. */
export function subCurve(c: Curve, t0: number, t1: number): Curve {
  if (t0 > t1) return reverseCurve(subCurve(c, t1, t0));
  const tail = t0 <= 0 ? c : splitCurve(c, t0)[1];
  if (t1 >= 1) return tail;
  return splitCurve(tail, t0 >= 1 ? 1 : (t1 - Math.max(0, t0)) / (1 - Math.max(0, t0)))[0];
}

export const reverseCurve = (c: Curve): Curve => (isCubic(c) ? [c[3], c[2], c[1], c[0]] : [c[1], c[0]]);

export const transformCurve = (c: Curve, m: Matrix): Curve =>
  isCubic(c)
    ? [applyMatrix(m, c[0]), applyMatrix(m, c[1]), applyMatrix(m, c[2]), applyMatrix(m, c[3])]
    : [applyMatrix(m, c[0]), applyMatrix(m, c[1])];

/** The same curve with its ends moved to a and b; handles move along, so the shape changes by no more than the ends do. */
export function withEnds(c: Curve, a: Pt, b: Pt): Curve {
  if (!isCubic(c)) return [a, b];
  return [a, add(c[1], subtract(a, c[0])), add(c[2], subtract(b, c[3])), b];
}

/** Box of the control points: contains the curve, may be larger. */
export function controlBox(c: Curve): Box {
  let [minX, minY] = c[0];
  let [maxX, maxY] = c[0];
  for (let i = 1; i < c.length; i += 1) {
    const p = c[i]!;
    if (p[0] < minX) minX = p[0];
    else if (p[0] > maxX) maxX = p[0];
    if (p[1] < minY) minY = p[1];
    else if (p[1] > maxY) maxY = p[1];
  }
  return { minX, minY, maxX, maxY };
}

// Gauss–Legendre nodes and weights for 5 points on -1..1 (Abramowitz & Stegun, table 25.4; from memory, checked by tests).
const GAUSS: readonly (readonly [number, number])[] = [
  [0, 128 / 225],
  [0.5384693101056831, 0.47862867049936647],
  [-0.5384693101056831, 0.47862867049936647],
  [0.906179845938664, 0.23692688505618908],
  [-0.906179845938664, 0.23692688505618908],
];

/** Plain numbers instead of points: lengths are measured all the time while a line is dragged. */
function gaussLength([p, q, r, s]: Cubic, t0: number, t1: number): number {
  const half = (t1 - t0) / 2;
  const middle = (t0 + t1) / 2;
  const [ax, ay, bx, by] = [q[0] - p[0], q[1] - p[1], r[0] - q[0], r[1] - q[1]];
  const [cx, cy] = [s[0] - r[0], s[1] - r[1]];
  let sum = 0;
  for (let i = 0; i < GAUSS.length; i += 1) {
    const t = middle + half * GAUSS[i]![0];
    const u = 1 - t;
    const k0 = 3 * u * u;
    const k1 = 6 * u * t;
    const k2 = 3 * t * t;
    const dx = ax * k0 + bx * k1 + cx * k2;
    const dy = ay * k0 + by * k1 + cy * k2;
    sum += GAUSS[i]![1] * Math.sqrt(dx * dx + dy * dy);
  }
  return sum * half;
}

function adaptiveLength(c: Cubic, t0: number, t1: number, whole: number, depth: number): number {
  const m = (t0 + t1) / 2;
  const left = gaussLength(c, t0, m);
  const right = gaussLength(c, m, t1);
  if (depth <= 0 || Math.abs(left + right - whole) < 1e-7) return left + right;
  return adaptiveLength(c, t0, m, left, depth - 1) + adaptiveLength(c, m, t1, right, depth - 1);
}

/** Arc length of c between two parameters, mm, to about 1e-6 mm. */
export function curveLength(c: Curve, t0 = 0, t1 = 1): number {
  if (!isCubic(c)) return distance(c[0], c[1]) * (t1 - t0);
  return adaptiveLength(c, t0, t1, gaussLength(c, t0, t1), 16);
}

/** Parameter at arc length s from the start of c; clamped to 0..1. Newton with a bisection guard. */
export function parameterAtLength(c: Curve, s: number): number {
  const total = curveLength(c);
  if (s <= 0 || total === 0) return 0;
  if (s >= total) return 1;
  if (!isCubic(c)) return s / total;
  let [low, high] = [0, 1];
  let t = s / total;
  for (let i = 0; i < 40; i += 1) {
    const excess = curveLength(c, 0, t) - s;
    if (Math.abs(excess) < 1e-7) break;
    if (excess > 0) high = t;
    else low = t;
    const d = derivativeAt(c, t);
    const next = t - excess / Math.hypot(d[0], d[1]);
    t = next > low && next < high ? next : (low + high) / 2;
  }
  return t;
}

/** One step of nearestOnCurve: Newton on (p − c)·c' = 0 from a guess, kept in 0..1. Plain numbers: it is the innermost loop of many. */
function nearestFromGuess([c0, c1, c2, c3]: Cubic, [px, py]: Pt, guess: number): number {
  const [ax, ay, bx, by] = [c1[0] - c0[0], c1[1] - c0[1], c2[0] - c1[0], c2[1] - c1[1]];
  const [cx, cy] = [c3[0] - c2[0], c3[1] - c2[1]];
  const [mx, my] = [c2[0] - c1[0] * 2 + c0[0], c2[1] - c1[1] * 2 + c0[1]];
  const [nx, ny] = [c3[0] - c2[0] * 2 + c1[0], c3[1] - c2[1] * 2 + c1[1]];
  let t = guess;
  for (let i = 0; i < 12; i += 1) {
    const u = 1 - t;
    const w0 = u * u * u;
    const w1 = 3 * u * u * t;
    const w2 = 3 * u * t * t;
    const w3 = t * t * t;
    const x = w0 * c0[0] + w1 * c1[0] + w2 * c2[0] + w3 * c3[0] - px;
    const y = w0 * c0[1] + w1 * c1[1] + w2 * c2[1] + w3 * c3[1] - py;
    const k0 = 3 * u * u;
    const k1 = 6 * u * t;
    const k2 = 3 * t * t;
    const dx = ax * k0 + bx * k1 + cx * k2;
    const dy = ay * k0 + by * k1 + cy * k2;
    const l0 = 6 * u;
    const l1 = 6 * t;
    const slope = dx * dx + dy * dy + (x * (mx * l0 + nx * l1) + y * (my * l0 + ny * l1));
    if (slope <= 0) break;
    const next = Math.min(1, Math.max(0, t - (x * dx + y * dy) / slope));
    const moved = Math.abs(next - t);
    t = next;
    if (moved < 1e-12) break;
  }
  return t;
}

const SAMPLES = 24;
const SHIFTS = [-0.5, 0, 0.5] as const;

/** How far p is from so many places on a cubic; filled anew each time. */
const away = new Float64Array(SAMPLES + 1);

/** Nearest point of c to p: coarse samples, then Newton from each sample nearer than both its neighbours (a curve may pass p twice). */
export function nearestOnCurve(c: Curve, p: Pt): { t: number; point: Pt; distance: number } {
  let best = { t: 0, point: c[0], distance: distance(p, c[0]) };
  const offer = (t: number): void => {
    const point = pointAt(c, t);
    const d = distance(p, point);
    if (d < best.distance) best = { t, point, distance: d };
  };
  if (!isCubic(c)) {
    const d = subtract(c[1], c[0]);
    const l2 = dot(d, d);
    offer(1);
    if (l2 > 0) offer(Math.min(1, Math.max(0, dot(subtract(p, c[0]), d) / l2)));
    return best;
  }
  for (let i = 0; i <= SAMPLES; i += 1) away[i] = distance(p, pointAt(c, i / SAMPLES));
  for (let i = 0; i <= SAMPLES; i += 1) {
    const d = away[i]!;
    if ((i > 0 && d > away[i - 1]!) || (i < SAMPLES && d > away[i + 1]!)) continue;
    offer(i / SAMPLES);
    for (const shift of SHIFTS) {
      offer(nearestFromGuess(c, p, Math.min(1, Math.max(0, (i + shift) / SAMPLES))));
    }
  }
  return best;
}

/** A straight stretch as a cubic with the same points, for places that need handles. */
export const asCubic = (c: Curve): Cubic =>
  isCubic(c) ? c : [c[0], mix(c[0], c[1], 1 / 3), mix(c[0], c[1], 2 / 3), c[1]];
