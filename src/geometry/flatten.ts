import { isCubic, pointAt } from './curve';
import { CHORD_SAGITTA } from './tolerances';
import type { Cubic, Curve, CurveRef, Path, Polyline, Pt } from './types';

/** Points on a path and, for each, the place it came from. refs[i] belongs to points[i]. */
export interface FlatPath {
  readonly points: Polyline;
  readonly refs: readonly CurveRef[];
}

/** No curve gets more chords than this, however large: a bound for hostile numbers, far above any garment's. */
const MOST_CHORDS = 4096;

/**
 * Number of equal parameter steps after which no chord leaves the curve by more than the sagitta.
 * Bound: |c''| <= 6·max(|P0−2P1+P2|, |P1−2P2+P3|), chord error <= h²·|c''|/8 (Wang's formula).
 */
export function chordCount(c: Curve, sagitta: number): number {
  if (!isCubic(c)) return 1;
  const bend = (a: Pt, b: Pt, d: Pt): number => Math.hypot(a[0] - 2 * b[0] + d[0], a[1] - 2 * b[1] + d[1]);
  const most = Math.max(bend(c[0], c[1], c[2]), bend(c[1], c[2], c[3]));
  const count = Math.ceil(Math.sqrt((0.75 * most) / sagitta));
  return count > 1 ? Math.min(MOST_CHORDS, count) : 1;
}

/** Inner points of the chords of one cubic, ends left out. */
function innerParameters(c: Cubic, sagitta: number): number[] {
  const n = chordCount(c, sagitta);
  return Array.from({ length: n - 1 }, (_, i) => (i + 1) / n);
}

/**
 * Replace curves by chords that stay within `sagitta` mm of them.
 * An open path keeps both ends; for a ring pass `closed` and the first point is not repeated.
 */
export function flattenPath(path: Path, sagitta = CHORD_SAGITTA, closed = false): FlatPath {
  const points: Pt[] = [];
  const refs: CurveRef[] = [];
  path.forEach((c, index) => {
    points.push(c[0]);
    refs.push({ index, t: 0 });
    if (!isCubic(c)) return;
    for (const t of innerParameters(c, sagitta)) {
      points.push(pointAt(c, t));
      refs.push({ index, t });
    }
  });
  const last = path[path.length - 1];
  if (last && !closed) {
    points.push(last[last.length - 1]!);
    refs.push({ index: path.length - 1, t: 1 });
  }
  return { points, refs };
}

/** Corner points of a ring flattened to `sagitta` mm; the first is not repeated. */
export const flattenRing = (ring: Path, sagitta = CHORD_SAGITTA): Polyline =>
  flattenPath(ring, sagitta, true).points;
