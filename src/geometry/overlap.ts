import type { Polyline, Pt } from './types';

/** Stretches of one horizontal line that lie inside, as x0, x1, x0, x1 … in rising order. */
type Intervals = readonly number[];

/** Even-odd inside of the rings along the line y; no corner may lie exactly on it (a corner there counts as above). */
function insideAlong(rings: readonly Polyline[], y: number): Intervals {
  const xs: number[] = [];
  for (const ring of rings) {
    let p = ring[ring.length - 1];
    for (const q of ring) {
      if (p && p[1] > y !== q[1] > y) xs.push(p[0] + ((y - p[1]) / (q[1] - p[1])) * (q[0] - p[0]));
      p = q;
    }
  }
  return xs.sort((a, b) => a - b);
}

/** Total length that two sets of intervals share. */
function sharedLength(a: Intervals, b: Intervals): number {
  let [i, j, sum] = [0, 0, 0];
  while (i + 1 < a.length && j + 1 < b.length) {
    sum += Math.max(0, Math.min(a[i + 1]!, b[j + 1]!) - Math.max(a[i]!, b[j]!));
    if (a[i + 1]! < b[j + 1]!) i += 2;
    else j += 2;
  }
  return sum;
}

function heights(points: Polyline): [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (const [, y] of points) {
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  return [low, high];
}

/**
 * Area that two flattened rings have in common, mm². Exact along each of `scanlines` horizontal lines, the middle rule
 * between them: good to about one part in `scanlines`, enough to say which shape is which. The same answer every time.
 * @param a, b corner points, mm; either direction; even-odd inside
 */
export function overlapArea(a: Polyline, b: Polyline, scanlines = 64): number {
  const [lowA, highA] = heights(a);
  const [lowB, highB] = heights(b);
  const [low, high] = [Math.max(lowA, lowB), Math.min(highA, highB)];
  if (!(high > low)) return 0;
  const step = (high - low) / scanlines;
  let sum = 0;
  for (let i = 0; i < scanlines; i += 1) {
    const y = low + (i + 0.5) * step;
    sum += sharedLength(insideAlong([a], y), insideAlong([b], y));
  }
  return sum * step;
}

/** Heights halfway between neighbouring corner heights: lines there pass through no corner. Widest gaps first. */
function clearHeights(points: Polyline, holes: readonly Polyline[]): number[] {
  const ys = [...new Set([points, ...holes].flatMap((ring) => ring.map((p) => p[1])))].sort((p, q) => p - q);
  const gaps = ys.slice(1).map((y, i) => ({ gap: y - ys[i]!, y: (y + ys[i]!) / 2 }));
  return gaps
    .sort((p, q) => q.gap - p.gap || p.y - q.y)
    .slice(0, 32)
    .map((g) => g.y);
}

/**
 * A point well inside a flattened ring and outside its holes: the middle of the longest inside stretch of up to 32
 * horizontal lines, tall bands without corners preferred. Null for a ring without area.
 */
export function interiorPoint(points: Polyline, holes: readonly Polyline[] = []): Pt | null {
  let best: { at: Pt; room: number } | null = null;
  for (const y of clearHeights(points, holes)) {
    const xs = insideAlong([points, ...holes], y);
    for (let i = 0; i + 1 < xs.length; i += 2) {
      const room = xs[i + 1]! - xs[i]!;
      if (room > 0 && (!best || room > best.room)) best = { at: [(xs[i]! + xs[i + 1]!) / 2, y], room };
    }
  }
  return best?.at ?? null;
}
