import { orient2d } from 'robust-predicates';
import type { Polyline, Pt } from '../../geometry';

/**
 * Corner coordinates x0, y0, x1, y1 … of a convex polygon with positive area: every edge has the inside on the side
 * towards which +x turns to +y.
 */
export type ConvexPart = Float64Array;

/** Positive where a, b, c turn as a ring of positive area does. Exact sign. */
export const turnAt = (a: Pt, b: Pt, c: Pt): number => -orient2d(a[0], a[1], b[0], b[1], c[0], c[1]);

const partFrom = (points: Polyline): ConvexPart => Float64Array.from(points.flat());

/** Convex hull of points, positive area, no straight corners (monotone chain, exact turns). Empty for fewer than 3 corners. */
export function convexHull(points: Polyline): Pt[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (row: readonly Pt[]): Pt[] => {
    const out: Pt[] = [];
    for (const p of row) {
      while (out.length > 1 && turnAt(out[out.length - 2]!, out[out.length - 1]!, p) <= 0) out.pop();
      out.push(p);
    }
    out.pop();
    return out;
  };
  const hull = [...chain(sorted), ...chain(sorted.reverse())];
  return hull.length < 3 ? [] : hull;
}

const isInTriangle = (p: Pt, a: Pt, b: Pt, c: Pt): boolean =>
  turnAt(a, b, p) >= 0 && turnAt(b, c, p) >= 0 && turnAt(c, a, p) >= 0;

/** Cut a simple polygon into triangles, corners as indices; null if no ear is found (it crosses itself). Shortest cuts first. */
function triangles(points: Polyline): [number, number, number][] | null {
  const left = points.map((_, i) => i);
  const out: [number, number, number][] = [];
  while (left.length > 3) {
    const ear = shortestEar(points, left);
    if (ear < 0) return null;
    const n = left.length;
    out.push([left[(ear + n - 1) % n]!, left[ear]!, left[(ear + 1) % n]!]);
    left.splice(ear, 1);
  }
  if (turnAt(points[left[0]!]!, points[left[1]!]!, points[left[2]!]!) <= 0) return null;
  out.push([left[0]!, left[1]!, left[2]!]);
  return out;
}

/** Index in `left` of the ear whose cut-off diagonal is the shortest; −1 if there is none. */
function shortestEar(points: Polyline, left: readonly number[]): number {
  const n = left.length;
  let best = -1;
  let shortest = Infinity;
  for (let k = 0; k < n; k += 1) {
    const [i, j, l] = [left[(k + n - 1) % n]!, left[k]!, left[(k + 1) % n]!];
    const [a, b, c] = [points[i]!, points[j]!, points[l]!];
    const d = (c[0] - a[0]) ** 2 + (c[1] - a[1]) ** 2;
    if (d >= shortest || turnAt(a, b, c) <= 0) continue;
    if (left.some((m) => m !== i && m !== j && m !== l && isInTriangle(points[m]!, a, b, c))) continue;
    best = k;
    shortest = d;
  }
  return best;
}

/** Two convex index rings that share the edge i→j (in `a`) joined over it; null unless the result is convex. */
function joined(
  points: Polyline,
  a: readonly number[],
  b: readonly number[],
  i: number,
  j: number,
): number[] | null {
  const ia = a.indexOf(i);
  const jb = b.indexOf(j);
  const fromJ = [...a.slice(ia + 1), ...a.slice(0, ia + 1)]; // starts at j, ends at i
  const fromI = [...b.slice(jb + 1), ...b.slice(0, jb + 1)]; // starts at i, ends at j
  const ring = [...fromJ, ...fromI.slice(1, -1)];
  const n = ring.length;
  const at = (k: number): Pt => points[ring[(k + n) % n]!]!;
  const convexAt = (k: number): boolean => turnAt(at(k - 1), at(k), at(k + 1)) >= 0;
  return convexAt(0) && convexAt(fromJ.length - 1) ? ring : null;
}

/** Join triangles over their diagonals, longest first, while the parts stay convex (Hertel and Mehlhorn, 1983; from memory). */
function mergeParts(points: Polyline, start: readonly (readonly number[])[]): (readonly number[])[] {
  const parts = new Set<readonly number[]>(start);
  const owner = new Map<string, readonly number[]>();
  const own = (part: readonly number[]): void =>
    part.forEach((i, k) => owner.set(`${i} ${part[(k + 1) % part.length]!}`, part));
  start.forEach(own);
  const span = (i: number, j: number): number =>
    (points[i]![0] - points[j]![0]) ** 2 + (points[i]![1] - points[j]![1]) ** 2;
  const diagonals = [...owner.keys()]
    .map((key) => key.split(' ').map(Number) as [number, number])
    .filter(([i, j]) => i < j && owner.has(`${j} ${i}`))
    .sort(([i, j], [k, l]) => span(k, l) - span(i, j) || i - k || j - l);
  for (const [i, j] of diagonals) {
    const [a, b] = [owner.get(`${i} ${j}`)!, owner.get(`${j} ${i}`)!];
    const both = a === b ? null : joined(points, a, b, i, j);
    if (!both) continue;
    parts.delete(a);
    parts.delete(b);
    parts.add(both);
    own(both);
  }
  return [...parts];
}

/**
 * Convex parts whose union is a simple polygon.
 * @param points positive area, no repeated points
 * @returns at least one part; the convex hull alone (which contains the shape) if the polygon crosses itself
 * @throws RangeError if the points enclose nothing
 */
export function convexParts(points: Polyline): ConvexPart[] {
  const cut = points.length >= 3 ? triangles(points) : null;
  if (cut) return mergeParts(points, cut).map((ring) => partFrom(ring.map((i) => points[i]!)));
  const hull = convexHull(points);
  if (hull.length === 0) throw new RangeError('a piece without area cannot be laid');
  return [partFrom(hull)];
}
