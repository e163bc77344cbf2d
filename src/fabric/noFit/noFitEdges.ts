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
  const n = p.length;
  const m = q.length;
  const out = new Float64Array(n + m);
  let i = lowest(p);
  let j = lowest(q);
  let size = 0;
  for (let done = 0, doneQ = 0; done < n || doneQ < m;) {
    const x = p[i]! + q[j]!;
    const y = p[i + 1]! + q[j + 1]!;
    out[size] = x;
    out[size + 1] = y;
    size += 2;
    const i2 = i + 2 === n ? 0 : i + 2;
    const j2 = j + 2 === m ? 0 : j + 2;
    const turn = (p[i2]! - p[i]!) * (q[j2 + 1]! - q[j + 1]!) - (p[i2 + 1]! - p[i + 1]!) * (q[j2]! - q[j]!);
    const takeP = doneQ >= m || (done < n && turn >= 0);
    const takeQ = done >= n || (doneQ < m && turn <= 0);
    if (takeP) {
      i = i2;
      done += 2;
    }
    if (takeQ) {
      j = j2;
      doneQ += 2;
    }
  }
  return out.subarray(0, size);
}

/** Sides of a convex part as half planes nx, ny, c: inside where nx·x + ny·y < c; unit normals. */
function halfPlanes(part: ConvexPart): Float64Array {
  const out = new Float64Array((part.length / 2) * 3);
  let size = 0;
  for (let i = 0; i < part.length; i += 2) {
    const j = i + 2 === part.length ? 0 : i + 2;
    const dx = part[j]! - part[i]!;
    const dy = part[j + 1]! - part[i + 1]!;
    const l = Math.sqrt(dx * dx + dy * dy);
    if (l === 0) continue;
    out[size] = dy / l;
    out[size + 1] = -dx / l;
    out[size + 2] = (dy * part[i]! - dx * part[i + 1]!) / l;
    size += 3;
  }
  return out.subarray(0, size);
}

export interface PartBox {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

function boxOfPart(part: ConvexPart): PartBox {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (let i = 0; i < part.length; i += 2) {
    const x = part[i]!;
    const y = part[i + 1]!;
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

/** Reused result of `insideStretch`: parameters from and to. */
const stretch = { from: 0, to: 0 };

/** The stretch of x0,y0 + t·d (0..1) farther than `depth` inside all half planes, into `stretch`; false if there is none. */
function insideStretch(
  planes: Float64Array,
  x: number,
  y: number,
  dx: number,
  dy: number,
  depth: number,
): boolean {
  let from = 0;
  let to = 1;
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
function pushUncovered(
  out: number[],
  edge: readonly number[],
  covered: [number, number][],
  least: number,
): void {
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

/** Append edges of p moved by each corner of q at which they can touch: corners whose two sides enclose the edge's direction. */
function pushContacts(out: number[], p: ConvexPart, q: ConvexPart): void {
  for (let j = 0; j < q.length; j += 2) {
    const before = j === 0 ? q.length - 2 : j - 2;
    const after = j + 2 === q.length ? 0 : j + 2;
    const ux = q[j]! - q[before]!;
    const uy = q[j + 1]! - q[before + 1]!;
    const wx = q[after]! - q[j]!;
    const wy = q[after + 1]! - q[j + 1]!;
    if (ux * wy - uy * wx <= 0) continue; // a hollow corner never touches
    for (let i = 0; i < p.length; i += 2) {
      const i2 = i + 2 === p.length ? 0 : i + 2;
      const dx = p[i2]! - p[i]!;
      const dy = p[i2 + 1]! - p[i + 1]!;
      if (ux * dy - uy * dx >= 0 && dx * wy - dy * wx >= 0)
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

/** A convex part with what is asked of it: half planes and box. */
export interface PartSides {
  readonly planes: Float64Array;
  readonly box: PartBox;
}

/** Parts with their half planes and boxes, those with the largest box first: they settle most questions. */
export function sidesOf(parts: readonly ConvexPart[]): PartSides[] {
  const sides = parts.map((part) => ({ planes: halfPlanes(part), box: boxOfPart(part) }));
  const size = ({ box: b }: PartSides): number => (b.maxX - b.minX) * (b.maxY - b.minY);
  return sides.sort((a, b) => size(b) - size(a));
}

/**
 * Boundary of the union of convex parts: of every candidate stretch, what lies strictly inside no part.
 * Stretches that lie on each other are all kept. No topology is built, so nothing can merge wrongly.
 * @param candidates x, y, dx, dy after one another; the boundary is among them
 */
export function unionBoundary(candidates: readonly number[], parts: readonly PartSides[]): EdgeSoup {
  const out: number[] = [];
  const covered: [number, number][] = [];
  for (let i = 0; i < candidates.length; i += 4) {
    const x = candidates[i]!;
    const y = candidates[i + 1]!;
    const dx = candidates[i + 2]!;
    const dy = candidates[i + 3]!;
    const l = Math.sqrt(dx * dx + dy * dy);
    if (l < LEFTOVER) continue;
    covered.length = 0;
    let isCovered = false;
    for (let k = 0; k < parts.length && !isCovered; k += 1) {
      const { planes, box: b } = parts[k]!;
      if ((x <= b.minX && x + dx <= b.minX) || (x >= b.maxX && x + dx >= b.maxX)) continue;
      if ((y <= b.minY && y + dy <= b.minY) || (y >= b.maxY && y + dy >= b.maxY)) continue;
      if (!insideStretch(planes, x, y, dx, dy, COVERED)) continue;
      isCovered = stretch.from <= 0 && stretch.to >= 1;
      covered.push([stretch.from, stretch.to]);
    }
    if (!isCovered) pushUncovered(out, [x, y, dx, dy], covered, LEFTOVER / l);
  }
  return Float64Array.from(out);
}
