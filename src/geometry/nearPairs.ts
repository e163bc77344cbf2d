/**
 * Which segments of many polylines come near each other. Polylines are cut into runs that go one way in x and in y: the box of any part of such a run
 * is the box of its two ends, and a run never meets itself; so runs need no stored tree (after the monotone chains of
 * JTS, index/chain). Boxes of runs are compared in a sweep along the less crowded axis.
 */

/** Polylines laid end to end: segment k goes from point ids[k] to ids[k + 1]; polyline p owns ids[first[p]] to ids[first[p + 1] - 1]. */
export interface SegmentList {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly ids: readonly number[];
  readonly first: readonly number[];
}

interface Runs {
  readonly from: number[];
  readonly to: number[];
  readonly minX: number[];
  readonly maxX: number[];
  readonly minY: number[];
  readonly maxY: number[];
  readonly fresh: boolean[];
}

function runsOf(s: SegmentList, isFresh: (segment: number) => boolean): Runs {
  const runs: Runs = { from: [], to: [], minX: [], maxX: [], minY: [], maxY: [], fresh: [] };
  const add = (from: number, to: number, fresh: boolean): void => {
    const [a, b] = [s.ids[from]!, s.ids[to]!];
    const [ax, ay, bx, by] = [s.xs[a]!, s.ys[a]!, s.xs[b]!, s.ys[b]!];
    runs.from.push(from);
    runs.to.push(to);
    runs.minX.push(ax < bx ? ax : bx);
    runs.maxX.push(ax < bx ? bx : ax);
    runs.minY.push(ay < by ? ay : by);
    runs.maxY.push(ay < by ? by : ay);
    runs.fresh.push(fresh);
  };
  for (let p = 0; p + 1 < s.first.length; p += 1) {
    const last = s.first[p + 1]! - 1;
    let start = s.first[p]!;
    let [wayX, wayY, fresh] = [0, 0, false];
    for (let k = start; k < last; k += 1) {
      const dx = Math.sign(s.xs[s.ids[k + 1]!]! - s.xs[s.ids[k]!]!);
      const dy = Math.sign(s.ys[s.ids[k + 1]!]! - s.ys[s.ids[k]!]!);
      if (dx * wayX < 0 || dy * wayY < 0) {
        add(start, k, fresh);
        [start, wayX, wayY, fresh] = [k, dx, dy, false];
      } else {
        wayX = wayX || dx;
        wayY = wayY || dy;
      }
      fresh = fresh || isFresh(k);
    }
    if (start < last) add(start, last, fresh);
  }
  return runs;
}

/** Whether the parts a0..a1 and b0..b1 of two runs may come within reach. No arrays are made here: it is called most of all. */
function boxesMeet(s: SegmentList, a0: number, a1: number, b0: number, b1: number, reach: number): boolean {
  const { ids } = s;
  const p = ids[a0]!;
  const q = ids[a1]!;
  const u = ids[b0]!;
  const v = ids[b1]!;
  return (
    spansMeet(s.xs[p]!, s.xs[q]!, s.xs[u]!, s.xs[v]!, reach) &&
    spansMeet(s.ys[p]!, s.ys[q]!, s.ys[u]!, s.ys[v]!, reach)
  );
}

const spansMeet = (p: number, q: number, u: number, v: number, reach: number): boolean =>
  (p > q ? p : q) + reach >= (u < v ? u : v) && (u > v ? u : v) + reach >= (p < q ? p : q);

/**
 * Visit every pair of segments whose boxes come within `reach` mm, each pair once, leaving out pairs inside one run
 * (these cannot meet) and pairs of which neither segment is fresh. Deterministic order.
 */
export function forEachNearPair(
  s: SegmentList,
  reach: number,
  visit: (segment: number, other: number) => void,
  isFresh: (segment: number) => boolean = () => true,
): void {
  const runs = runsOf(s, isFresh);
  const compare = (a0: number, a1: number, b0: number, b1: number): void => {
    if (!boxesMeet(s, a0, a1, b0, b1, reach)) return;
    const na = a1 - a0;
    const nb = b1 - b0;
    if (na === 1 && nb === 1) {
      if (isFresh(a0) || isFresh(b0)) visit(a0, b0);
    } else if (na >= nb) {
      const middle = (a0 + a1) >> 1;
      compare(a0, middle, b0, b1);
      compare(middle, a1, b0, b1);
    } else {
      const middle = (b0 + b1) >> 1;
      compare(a0, a1, b0, middle);
      compare(a0, a1, middle, b1);
    }
  };
  sweep(runs, reach, (i, j) => compare(runs.from[i]!, runs.to[i]!, runs.from[j]!, runs.to[j]!));
}

/** Visit pairs of runs, of which at least one is fresh, whose boxes come within reach. */
function sweep(runs: Runs, reach: number, visit: (i: number, j: number) => void): void {
  const n = runs.from.length;
  const alongX = crowding(runs.minX, runs.maxX) <= crowding(runs.minY, runs.maxY);
  const [low, high] = alongX ? [runs.minX, runs.maxX] : [runs.minY, runs.maxY];
  const [low2, high2] = alongX ? [runs.minY, runs.maxY] : [runs.minX, runs.maxX];
  const order = Array.from({ length: n }, (_, i) => i).sort((i, j) => low[i]! - low[j]! || i - j);
  for (let a = 0; a < n; a += 1) {
    const i = order[a]!;
    const end = high[i]! + reach;
    const min2 = low2[i]! - reach;
    const max2 = high2[i]! + reach;
    const fresh = runs.fresh[i]!;
    for (let b = a + 1; b < n; b += 1) {
      const j = order[b]!;
      if (low[j]! > end) break;
      if ((fresh || runs.fresh[j]!) && low2[j]! <= max2 && high2[j]! >= min2)
        visit(i < j ? i : j, i < j ? j : i);
    }
  }
}

/** How many runs lie over a place on this axis on average. */
function crowding(low: readonly number[], high: readonly number[]): number {
  let [sum, min, max] = [0, Infinity, -Infinity];
  for (let i = 0; i < low.length; i += 1) {
    sum += high[i]! - low[i]!;
    min = Math.min(min, low[i]!);
    max = Math.max(max, high[i]!);
  }
  return max > min ? sum / (max - min) : Infinity;
}
