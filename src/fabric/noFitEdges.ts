import type { ConvexPart } from './convexParts';

/** Straight stretches x0, y0, x1, y1 after one another; in no order. */
export type EdgeSoup = Float64Array;

/** Every corner negated: turned by 180° about the origin, so it still has positive area. */
export const turnedHalf = (part: ConvexPart): ConvexPart => part.map((c) => -c);

const lowest = (p: ConvexPart): number => {
  let best = 0;
  for (let i = 2; i < p.length; i += 2) {
    if (p[i + 1]! < p[best + 1]! || (p[i + 1] === p[best + 1] && p[i]! < p[best]!)) best = i;
  }
  return best;
};

/** Minkowski sum of two convex parts: their edges merged by direction. Parallel edges give one. */
export function convexSum(p: ConvexPart, q: ConvexPart): ConvexPart {
  const [n, m] = [p.length, q.length];
  let [i, j] = [lowest(p), lowest(q)];
  let [done, doneQ] = [0, 0];
  const out: number[] = [];
  while (done < n || doneQ < m) {
    out.push(p[i]! + q[j]!, p[i + 1]! + q[j + 1]!);
    const [i2, j2] = [(i + 2) % n, (j + 2) % m];
    const turn =
      (p[i2]! - p[i]!) * (q[j2 + 1]! - q[j + 1]!) - (p[i2 + 1]! - p[i + 1]!) * (q[j2]! - q[j]!);
    const takeP = doneQ >= m || (done < n && turn >= 0);
    const takeQ = done >= n || (doneQ < m && turn <= 0);
    if (takeP) [i, done] = [i2, done + 2];
    if (takeQ) [j, doneQ] = [j2, doneQ + 2];
  }
  return Float64Array.from(out);
}

/** Sides of a convex part as half planes nx, ny, c: inside where nx·x + ny·y < c; unit normals. */
export function halfPlanes(part: ConvexPart): Float64Array {
  const out: number[] = [];
  for (let i = 0; i < part.length; i += 2) {
    const j = (i + 2) % part.length;
    const [dx, dy] = [part[j]! - part[i]!, part[j + 1]! - part[i + 1]!];
    const l = Math.sqrt(dx * dx + dy * dy);
    if (l === 0) continue;
    out.push(dy / l, -dx / l, (dy / l) * part[i]! - (dx / l) * part[i + 1]!);
  }
  return Float64Array.from(out);
}

export interface PartBox {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

export function boxOfPart(part: ConvexPart): PartBox {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < part.length; i += 2) {
    minX = Math.min(minX, part[i]!);
    maxX = Math.max(maxX, part[i]!);
    minY = Math.min(minY, part[i + 1]!);
    maxY = Math.max(maxY, part[i + 1]!);
  }
  return { minX, minY, maxX, maxY };
}

/** Reused result of `insideStretch`: parameters from and to. */
const stretch = { from: 0, to: 0 };

/** The stretch of x0,y0 + t·d (0..1) farther than `depth` inside all half planes, into `stretch`; false if there is none. */
function insideStretch(planes: Float64Array, x: number, y: number, dx: number, dy: number, depth: number): boolean {
  let [from, to] = [0, 1];
  for (let k = 0; k < planes.length; k += 3) {
    const room = planes[k + 2]! - depth - planes[k]! * x - planes[k + 1]! * y;
    const speed = planes[k]! * dx + planes[k + 1]! * dy;
    if (speed > 0) {
      if (room < to * speed) to = room / speed;
    } else if (speed < 0) {
      if (room < from * speed) from = room / speed;
    } else if (room <= 0) return false;
    if (from >= to) return false;
  }
  stretch.from = from;
  stretch.to = to;
  return true;
}

/** Append what is left of an edge after taking out the covered stretches (pairs from, to). */
function pushUncovered(out: number[], edge: readonly number[], covered: [number, number][], least: number): void {
  const [x, y, dx, dy] = edge as [number, number, number, number];
  covered.sort((a, b) => a[0] - b[0]);
  let at = 0;
  const push = (from: number, to: number): void => {
    if (to - from > least) out.push(x + from * dx, y + from * dy, x + to * dx, y + to * dy);
  };
  for (const [from, to] of covered) {
    push(at, from);
    at = Math.max(at, to);
  }
  push(at, 1);
}

/** Append edges a → b moved by each corner of q at which they can touch: corners whose two sides enclose the edge's direction. */
function pushContacts(out: number[], p: ConvexPart, q: ConvexPart): void {
  for (let i = 0; i < p.length; i += 2) {
    const i2 = (i + 2) % p.length;
    const [dx, dy] = [p[i2]! - p[i]!, p[i2 + 1]! - p[i + 1]!];
    for (let j = 0; j < q.length; j += 2) {
      const [before, after] = [(j + q.length - 2) % q.length, (j + 2) % q.length];
      const [ux, uy] = [q[j]! - q[before]!, q[j + 1]! - q[before + 1]!];
      if (ux * dy - uy * dx < 0) continue;
      const [wx, wy] = [q[after]! - q[j]!, q[after + 1]! - q[j + 1]!];
      if (dx * wy - dy * wx < 0 || ux * wy - uy * wx <= 0) continue;
      out.push(p[i]! + q[j]!, p[i + 1]! + q[j + 1]!, dx, dy);
    }
  }
}

/**
 * Every stretch that can lie on the boundary of the Minkowski sum of two simple polygons (positive area, not necessarily
 * convex): an edge of one moved by a corner of the other ("reduced convolution"; the boundary is part of it).
 * @returns x, y, dx, dy after one another
 */
export function contactEdges(p: Float64Array, q: Float64Array): number[] {
  const out: number[] = [];
  pushContacts(out, p, q);
  pushContacts(out, q, p);
  return out;
}

/** How far inside a part (mm) an edge must lie to count as covered; and the least leftover kept. Rounding of doubles at cloth size. */
const COVERED = 1e-9;
const LEFTOVER = 1e-7;

/**
 * Boundary of the union of convex parts: of every candidate stretch, what lies strictly inside no part.
 * Stretches that lie on each other are all kept. No topology is built, so nothing can merge wrongly.
 * @param candidates x, y, dx, dy after one another; the boundary is among them
 */
export function unionBoundary(candidates: readonly number[], parts: readonly ConvexPart[]): EdgeSoup {
  const boxes = parts.map(boxOfPart);
  const size = boxes.map((b) => (b.maxX - b.minX) * (b.maxY - b.minY));
  const largestFirst = parts.map((_, k) => k).sort((k, m) => size[m]! - size[k]! || k - m);
  const sorted = largestFirst.map((k) => ({ planes: halfPlanes(parts[k]!), box: boxes[k]! }));
  const out: number[] = [];
  for (let i = 0; i < candidates.length; i += 4) {
    const [x, y, dx, dy] = [candidates[i]!, candidates[i + 1]!, candidates[i + 2]!, candidates[i + 3]!];
    const l = Math.sqrt(dx * dx + dy * dy);
    if (l < LEFTOVER) continue;
    const covered: [number, number][] = [];
    const [x1, x2, y1, y2] = [Math.min(x, x + dx), Math.max(x, x + dx), Math.min(y, y + dy), Math.max(y, y + dy)];
    for (const { planes, box: b } of sorted) {
      if (x2 <= b.minX || x1 >= b.maxX || y2 <= b.minY || y1 >= b.maxY) continue;
      if (!insideStretch(planes, x, y, dx, dy, COVERED)) continue;
      covered.push([stretch.from, stretch.to]);
      if (stretch.from <= 0 && stretch.to >= 1) break;
    }
    pushUncovered(out, [x, y, dx, dy], covered, LEFTOVER / l);
  }
  return Float64Array.from(out);
}
