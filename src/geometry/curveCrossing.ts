import { derivativeAt, isCubic, pointAt } from './curve';
import { chordCount } from './flatten';
import { CHORD_SAGITTA } from './tolerances';
import type { Curve, CurveRef, Pt } from './types';
import { cross } from './vector';

/** Two curves at the place where they cross. */
export interface Crossing {
  readonly t: number;
  readonly u: number;
  readonly at: Pt;
}

/**
 * The crossing of two true curves near the parameters t and u (Newton on a(t) = b(u)).
 * Null where it does not settle: curves that only touch or run side by side, or a crossing beyond an end.
 */
export function crossingNear(a: Curve, b: Curve, t: number, u: number): Crossing | null {
  for (let i = 0; i < 8; i += 1) {
    const [p, q] = [pointAt(a, t), pointAt(b, u)];
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    if (Math.abs(dx) + Math.abs(dy) < 1e-10) return { t, u, at: p };
    const [da, db] = [derivativeAt(a, t), derivativeAt(b, u)];
    const det = cross(da, db);
    if (Math.abs(det) < 1e-9 * (Math.hypot(...da) * Math.hypot(...db))) return null;
    t += (dx * db[1] - dy * db[0]) / det;
    u += (dx * da[1] - dy * da[0]) / det;
    if (!(t >= -1e-9 && t <= 1 + 1e-9 && u >= -1e-9 && u <= 1 + 1e-9)) return null;
    t = Math.min(1, Math.max(0, t));
    u = Math.min(1, Math.max(0, u));
  }
  const [p, q] = [pointAt(a, t), pointAt(b, u)];
  return Math.abs(p[0] - q[0]) + Math.abs(p[1] - q[1]) < 1e-7 ? { t, u, at: p } : null;
}

/** Chords of several curves as bare numbers: chord k from (xs[k], ys[k]) to (xs[k+1], ys[k+1]) unless breaks[k]. */
interface Chords {
  readonly xs: number[];
  readonly ys: number[];
  readonly refs: CurveRef[];
}

function chordsOf(curves: readonly Curve[]): Chords {
  const chords: Chords = { xs: [], ys: [], refs: [] };
  curves.forEach((c, index) => {
    const n = isCubic(c) ? chordCount(c, CHORD_SAGITTA) : 1;
    for (let i = index === 0 ? 0 : 1; i <= n; i += 1) {
      const p = pointAt(c, i / n);
      chords.xs.push(p[0]);
      chords.ys.push(p[1]);
      chords.refs.push({ index, t: i / n });
    }
  });
  return chords;
}

/** Where two runs of joined curves cross. */
export interface RunCrossing {
  readonly before: CurveRef;
  readonly after: CurveRef;
  readonly at: Pt;
}

/**
 * The one place where two runs of joined curves cross. Null if they cross nowhere, more than once, or if a straight
 * way `gates` (from the end of the first run to the start of the second, by way of a corner) crosses one of them.
 */
export function onlyCrossing(
  before: readonly Curve[],
  after: readonly Curve[],
  gates: readonly [Pt, Pt, Pt],
): RunCrossing | null {
  const [p, q] = [chordsOf(before), chordsOf(after)];
  const found = chordCrossings(p, q, 2);
  if (found.length !== 1) return null;
  const gate = (a: Pt, b: Pt): Chords => ({ xs: [a[0], b[0]], ys: [a[1], b[1]], refs: [] });
  if (chordCrossings(gate(gates[0], gates[1]), q, 1).length > 0) return null;
  if (chordCrossings(p, gate(gates[1], gates[2]), 1).length > 0) return null;
  const [i, j, s, r] = found[0]!;
  return polished(before, after, placeOn(p, i, s), placeOn(q, j, r));
}

/** Where a run of joined curves first crosses another one, in order along the first; null if nowhere. */
export function firstCrossing(before: readonly Curve[], after: readonly Curve[]): RunCrossing | null {
  const [p, q] = [chordsOf(before), chordsOf(after)];
  const [hit] = chordCrossings(p, q, Infinity).sort((x, y) => x[0] - y[0] || x[2] - y[2]);
  return hit ? polished(before, after, placeOn(p, hit[0], hit[2]), placeOn(q, hit[1], hit[3])) : null;
}

function polished(
  before: readonly Curve[],
  after: readonly Curve[],
  a: CurveRef,
  b: CurveRef,
): RunCrossing | null {
  const exact = crossingNear(before[a.index]!, after[b.index]!, a.t, b.t);
  if (!exact) return null;
  return { before: { index: a.index, t: exact.t }, after: { index: b.index, t: exact.u }, at: exact.at };
}

function placeOn({ refs }: Chords, k: number, s: number): CurveRef {
  const [from, to] = [refs[k]!, refs[k + 1]!];
  const start = from.index === to.index ? from.t : 0;
  return { index: to.index, t: start + s * (to.t - start) };
}

/** Crossings of two rows of chords: chord numbers and the share of each chord; stops at `most`. */
function chordCrossings(p: Chords, q: Chords, most: number): [number, number, number, number][] {
  const found: [number, number, number, number][] = [];
  for (let i = 0; i + 1 < p.xs.length; i += 1) {
    const [ax, ay] = [p.xs[i]!, p.ys[i]!];
    const [ux, uy] = [p.xs[i + 1]! - ax, p.ys[i + 1]! - ay];
    const [lowX, highX] = ux < 0 ? [ax + ux, ax] : [ax, ax + ux];
    const [lowY, highY] = uy < 0 ? [ay + uy, ay] : [ay, ay + uy];
    for (let j = 0; j + 1 < q.xs.length; j += 1) {
      const [cx, cy, dx, dy] = [q.xs[j]!, q.ys[j]!, q.xs[j + 1]!, q.ys[j + 1]!];
      if ((cx < lowX && dx < lowX) || (cx > highX && dx > highX)) continue;
      if ((cy < lowY && dy < lowY) || (cy > highY && dy > highY)) continue;
      const [vx, vy] = [dx - cx, dy - cy];
      const det = ux * vy - uy * vx;
      if (det === 0) continue;
      const s = ((cx - ax) * vy - (cy - ay) * vx) / det;
      const r = ((cx - ax) * uy - (cy - ay) * ux) / det;
      if (s >= 0 && s <= 1 && r >= 0 && r <= 1) found.push([i, j, s, r]);
      if (found.length >= most) return found;
    }
  }
  return found;
}
