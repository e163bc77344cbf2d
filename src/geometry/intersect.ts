import { derivativeAt, isCubic, pointAt, secondDerivativeAt } from './curve';
import type { Curve, CurveRef, Path, Pt } from './types';
import { cross, dot, subtract } from './vector';

const MOST_STEPS = 24;
/** Newton has arrived when the parameter moves by less than this; at garment size far below a micrometre. */
const ARRIVED = 1e-14;

/** Where two curves cross near a guess. Parameters may lie a little outside 0..1: the caller says what that means. */
export interface CurveCrossing {
  readonly t: number;
  readonly u: number;
  readonly point: Pt;
}

/**
 * The crossing of two curves near parameters t of c and u of d, by Newton's method; in one step for two straight ones.
 * @returns null where they do not cross there, or only touch, so that no point can be told
 */
export function crossingNear(c: Curve, t: number, d: Curve, u: number): CurveCrossing | null {
  let [s, v] = [t, u];
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const [a, b] = [derivativeAt(c, s), derivativeAt(d, v)];
    const turn = cross(a, b);
    if (Math.abs(turn) <= 1e-9 * Math.hypot(a[0], a[1]) * Math.hypot(b[0], b[1])) return null;
    const gap = subtract(pointAt(d, v), pointAt(c, s));
    const [ds, dv] = [cross(gap, b) / turn, cross(gap, a) / turn];
    s += ds;
    v += dv;
    if (Math.abs(s - t) > 1 || Math.abs(v - u) > 1) return null;
    if (Math.abs(ds) < ARRIVED && Math.abs(dv) < ARRIVED) break;
    if (i === MOST_STEPS - 1 && Math.abs(ds) + Math.abs(dv) > 1e-9) return null;
  }
  return { t: s, u: v, point: pointAt(c, s) };
}

/** The point of c nearest to p in the neighbourhood of parameter t, kept in 0..1. */
export function nearestFrom(c: Curve, t: number, p: Pt): number {
  let s = t;
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const away = subtract(pointAt(c, s), p);
    const d = derivativeAt(c, s);
    const slope = dot(d, d) + (isCubic(c) ? dot(away, secondDerivativeAt(c, s)) : 0);
    if (!(slope > 0)) return s;
    const next = Math.min(1, Math.max(0, s - dot(away, d) / slope));
    const moved = Math.abs(next - s);
    s = next;
    if (moved < ARRIVED) break;
  }
  return s;
}

/** The point of a path nearest to p in the neighbourhood of a place; may step over one joint, not over a ring's start. */
export function nearestRefFrom(path: Path, ref: CurveRef, p: Pt): CurveRef {
  let best = { index: ref.index, t: nearestFrom(path[ref.index]!, ref.t, p) };
  const step = best.t >= 1 ? 1 : best.t <= 0 ? -1 : 0;
  const beside = path[best.index + step];
  if (step === 0 || !beside) return best;
  const other = { index: best.index + step, t: nearestFrom(beside, step > 0 ? 0 : 1, p) };
  const far = (r: CurveRef): number => {
    const q = pointAt(path[r.index]!, r.t);
    return (q[0] - p[0]) ** 2 + (q[1] - p[1]) ** 2;
  };
  if (far(other) < far(best)) best = other;
  return best;
}

/** Where the straight line from `origin` along the unit vector `direction` meets a curve near parameter t: how far along, mm. */
export function straightHitNear(
  c: Curve,
  t: number,
  origin: Pt,
  direction: Pt,
): { along: number; t: number; point: Pt } | null {
  let s = t;
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const away = cross(direction, subtract(pointAt(c, s), origin));
    const slope = cross(direction, derivativeAt(c, s));
    if (slope === 0) return null;
    const next = Math.min(1, Math.max(0, s - away / slope));
    const moved = Math.abs(next - s);
    s = next;
    if (moved < ARRIVED) break;
  }
  const point = pointAt(c, s);
  const v = subtract(point, origin);
  return Math.abs(cross(direction, v)) < 1e-6 ? { along: dot(v, direction), t: s, point } : null;
}
