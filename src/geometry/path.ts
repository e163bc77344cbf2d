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

/** No point of the curve is nearer to p than this, mm. */
function leastDistance(c: Curve, [x, y]: Pt): number {
  const { minX, minY, maxX, maxY } = controlBox(c);
  const [dx, dy] = [Math.max(minX - x, 0, x - maxX), Math.max(minY - y, 0, y - maxY)];
  return Math.sqrt(dx * dx + dy * dy);
}

/** Nearest place of the path to p; the earliest where several are as near. @throws RangeError for an empty path */
export function nearestOnPath(path: Path, p: Pt): CurveRef & { point: Pt; distance: number } {
  if (path.length === 0) throw new RangeError('an empty path has no nearest point');
  const least = path.map((c) => leastDistance(c, p));
  // the likeliest curve first: most others are then too far to be looked at
  let index = 0;
  for (let i = 1; i < path.length; i += 1) if (least[i]! < least[index]!) index = i;
  const first = index;
  let best = nearestOnCurve(path[first]!, p);
  for (let i = 0; i < path.length; i += 1) {
    if (i === first || least[i]! > best.distance + ROUNDING) continue;
    const near = nearestOnCurve(path[i]!, p);
    if (near.distance < best.distance || (near.distance === best.distance && i < index))
      [index, best] = [i, near];
  }
  return { index, ...best };
}

/** What rounding may make of a distance, mm. */
const ROUNDING = 1e-9;

/** Whether a path passes a point at this distance or nearer, mm. Never for an empty path. */
export const passesNear = (path: Path, p: Pt, reach: number): boolean =>
  path.some((c) => leastDistance(c, p) <= reach + ROUNDING && nearestOnCurve(c, p).distance <= reach);

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
