import {
  curveLength,
  directionAt,
  endOfCurve,
  controlBox,
  nearestOnCurve,
  parameterAtLength,
  pointAt,
  reverseCurve,
  startOfCurve,
  subCurve,
  transformCurve,
} from './curve';
import type { Curve, CurveRef, Matrix, Path, Polyline, Pt } from './types';
import { samePoint } from './vector';

/** @throws RangeError for an empty path */
export function startOf(path: Path): Pt {
  const first = path[0];
  if (!first) throw new RangeError('an empty path has no start');
  return startOfCurve(first);
}

/** @throws RangeError for an empty path */
export function endOf(path: Path): Pt {
  const last = path[path.length - 1];
  if (!last) throw new RangeError('an empty path has no end');
  return endOfCurve(last);
}

export const isClosed = (path: Path): boolean => path.length > 0 && samePoint(startOf(path), endOf(path));
export const reversePath = (path: Path): Path => path.map(reverseCurve).reverse();
export const transformPath = (path: Path, m: Matrix): Path => path.map((c) => transformCurve(c, m));
export const pathLength = (path: Path): number => path.reduce((sum, c) => sum + curveLength(c), 0);

/** Straight stretches through the points; closed adds the one back to the first. */
export function pathThrough(points: Polyline, closed: boolean): Path {
  const stretches: Curve[] = [];
  for (let i = 0; i + 1 < points.length; i += 1) stretches.push([points[i]!, points[i + 1]!]);
  if (closed && points.length > 1) stretches.push([points[points.length - 1]!, points[0]!]);
  return stretches;
}

export const pointOn = (path: Path, ref: CurveRef): Pt => pointAt(path[ref.index]!, ref.t);

/** Place at arc length s (mm) from the start, clamped to the path. */
export function refAtLength(path: Path, s: number): CurveRef {
  let rest = s;
  for (let index = 0; index < path.length; index += 1) {
    const l = curveLength(path[index]!);
    if (rest <= l || index === path.length - 1) return { index, t: parameterAtLength(path[index]!, rest) };
    rest -= l;
  }
  throw new RangeError('an empty path has no places');
}

/** Arc length from the start of the path to a place on it, mm. */
export function lengthAt(path: Path, ref: CurveRef): number {
  let sum = 0;
  for (let i = 0; i < ref.index; i += 1) sum += curveLength(path[i]!);
  return sum + curveLength(path[ref.index]!, 0, ref.t);
}

/** Point and unit direction of travel at arc length s (mm). */
export function pointAtLength(path: Path, s: number): { point: Pt; direction: Pt } {
  const ref = refAtLength(path, s);
  return { point: pointOn(path, ref), direction: directionAt(path[ref.index]!, ref.t) };
}

/** Nearest place of the path to p. @throws RangeError for an empty path */
export function nearestOnPath(path: Path, p: Pt): CurveRef & { point: Pt; distance: number } {
  let best: (CurveRef & { point: Pt; distance: number }) | undefined;
  path.forEach((c, index) => {
    const b = controlBox(c);
    const away = Math.hypot(
      Math.max(b.minX - p[0], 0, p[0] - b.maxX),
      Math.max(b.minY - p[1], 0, p[1] - b.maxY),
    );
    if (best && away >= best.distance) return;
    const near = nearestOnCurve(c, p);
    if (!best || near.distance < best.distance) best = { index, ...near };
  });
  if (!best) throw new RangeError('an empty path has no nearest point');
  return best;
}

/**
 * The stretch of an open path from one place to a later one; for a ring, `from` after `to` runs through the start.
 * Zero-length ends are left out; the result is empty only when both places are the same on an open path.
 */
export function subPath(path: Path, from: CurveRef, to: CurveRef): Path {
  const forward = from.index < to.index || (from.index === to.index && from.t <= to.t);
  if (!forward) {
    const last = path.length - 1;
    return [...subPath(path, from, { index: last, t: 1 }), ...subPath(path, { index: 0, t: 0 }, to)];
  }
  const out: Curve[] = [];
  for (let i = from.index; i <= to.index; i += 1) {
    const t0 = i === from.index ? from.t : 0;
    const t1 = i === to.index ? to.t : 1;
    if (t1 > t0) out.push(subCurve(path[i]!, t0, t1));
  }
  return out;
}

/** Paths one after the other as one; where one does not begin at the end of the one before, straight across. */
export function endToEnd(parts: readonly Path[]): Path {
  return parts.reduce<Path>((whole, part) => {
    const [last, first] = [whole[whole.length - 1], part[0]];
    if (!last || !first) return [...whole, ...part];
    const [end, start] = [endOfCurve(last), startOfCurve(first)];
    return samePoint(end, start) ? [...whole, ...part] : [...whole, [end, start], ...part];
  }, []);
}
