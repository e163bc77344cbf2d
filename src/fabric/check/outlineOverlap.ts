import type { Box, Polyline, Pt } from '../../geometry';
import { boxOfPoints, distance, distanceToSegment, mix } from '../../geometry';
import { turnAt } from '../noFit/convexParts';

/** A closed polygon and its box. */
export interface Outline {
  readonly points: Polyline;
  readonly box: Box;
}

export const outlineOf = (points: Polyline): Outline => ({ points, box: boxOfPoints(points) });

export const boxesWithin = (a: Box, b: Box, gap: number): boolean =>
  a.minX - gap <= b.maxX && b.minX - gap <= a.maxX && a.minY - gap <= b.maxY && b.minY - gap <= a.maxY;

type Stretch = readonly [Pt, Pt];

const boxOfStretch = ([a, b]: Stretch): Box => ({
  minX: Math.min(a[0], b[0]),
  minY: Math.min(a[1], b[1]),
  maxX: Math.max(a[0], b[0]),
  maxY: Math.max(a[1], b[1]),
});

/** The polygon's stretches that come within `gap` of a box. */
function stretchesNear({ points }: Outline, box: Box, gap: number): Stretch[] {
  const near: Stretch[] = [];
  points.forEach((a, i) => {
    const stretch: Stretch = [a, points[(i + 1) % points.length]!];
    if (boxesWithin(boxOfStretch(stretch), box, gap)) near.push(stretch);
  });
  return near;
}

/** Whether two stretches share a point. Exact; the boxes decide for stretches on one straight line. */
function doMeet([a, b]: Stretch, [c, d]: Stretch): boolean {
  if (!boxesWithin(boxOfStretch([a, b]), boxOfStretch([c, d]), 0)) return false;
  return turnAt(a, b, c) * turnAt(a, b, d) <= 0 && turnAt(c, d, a) * turnAt(c, d, b) <= 0;
}

/** Least distance between two outlines' lines and a place where it is; Infinity where they are farther apart than `within`. */
export function leastDistance(a: Outline, b: Outline, within: number): { distance: number; at: Pt } {
  let best = { distance: Infinity, at: a.points[0]! };
  const near = stretchesNear(b, a.box, within).map((s) => ({ s, box: boxOfStretch(s) }));
  for (const s of stretchesNear(a, b.box, within)) {
    const box = boxOfStretch(s);
    for (const { s: t, box: other } of near) {
      if (!boxesWithin(box, other, within)) continue;
      if (doMeet(s, t)) return { distance: 0, at: s[0] };
      for (const [p, [q, r]] of [
        [s[0], t],
        [s[1], t],
        [t[0], s],
        [t[1], s],
      ] as const) {
        const d = distanceToSegment(p, q, r).distance;
        if (d < best.distance) best = { distance: d, at: p };
      }
    }
  }
  return best.distance <= within ? best : { distance: Infinity, at: best.at };
}

/** 1 inside, 0 on the line, −1 outside. Exact (a ray towards +x, counted by exact turns). */
export function sideOf({ points, box }: Outline, p: Pt): 1 | 0 | -1 {
  if (p[0] < box.minX || p[0] > box.maxX || p[1] < box.minY || p[1] > box.maxY) return -1;
  let isIn = false;
  for (let i = 0; i < points.length; i += 1) {
    const [a, b] = [points[i]!, points[(i + 1) % points.length]!];
    const turn = turnAt(a, b, p);
    if (turn === 0 && boxesWithin(boxOfStretch([a, b]), boxOfStretch([p, p]), 0)) return 0;
    if (a[1] > p[1] !== b[1] > p[1] && (b[1] > a[1] ? turn > 0 : turn < 0)) isIn = !isIn;
  }
  return isIn ? 1 : -1;
}

/** Distance from p to a closed polygon's line, mm. */
function distanceToLine({ points }: Outline, p: Pt): number {
  let least = Infinity;
  points.forEach((a, i) => {
    least = Math.min(least, distanceToSegment(p, a, points[(i + 1) % points.length]!).distance);
  });
  return least;
}

/** Parameters 0..1 on a stretch where others meet it, its ends included, in order. */
function contactsOn([a, b]: Stretch, others: readonly Stretch[]): number[] {
  const l = distance(a, b);
  const out = [0, 1];
  const along = (p: Pt): number => ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / (l * l);
  for (const other of others) {
    if (!doMeet([a, b], other)) continue;
    const [c, d] = other;
    const [tc, td] = [turnAt(a, b, c), turnAt(a, b, d)];
    if (tc === 0) out.push(along(c));
    if (td === 0) out.push(along(d));
    if (tc !== td) out.push(along(mix(c, d, tc / (tc - td))));
  }
  return out.filter((t) => t >= 0 && t <= 1).sort((s, t) => s - t);
}

/**
 * Point found of a's line deepest inside b, or farthest outside it: between two contacts a's line is wholly inside or wholly outside.
 * For the inside only what lies in b's box is looked at.
 */
function deepestOfLine(a: Outline, b: Outline, side: 1 | -1 = 1): { depth: number; at: Pt } | null {
  const others = stretchesNear(b, a.box, 0);
  const within = side === 1 ? b.box : a.box;
  let best: { depth: number; at: Pt } | null = null;
  const offer = (at: Pt): void => {
    if (sideOf(b, at) !== side) return;
    const depth = distanceToLine(b, at);
    if (!best || depth > best.depth) best = { depth, at };
  };
  for (const [p, q] of stretchesNear(a, within, 0)) {
    offer(p);
    const ts = contactsOn([p, q], others);
    for (let k = 0; k + 1 < ts.length; k += 1) {
      for (const part of [0.25, 0.5, 0.75]) offer(mix(p, q, ts[k]! + (ts[k + 1]! - ts[k]!) * part));
    }
  }
  return best;
}

/** A point strictly inside a simple polygon with area: just beside the middle of an edge, on its inner side. */
function innerPoint(a: Outline): Pt | null {
  const { points } = a;
  const size = Math.max(a.box.maxX - a.box.minX, a.box.maxY - a.box.minY);
  for (let part = 0.01; part > 1e-7; part /= 10) {
    for (let i = 0; i < points.length; i += 1) {
      const [p, q] = [points[i]!, points[(i + 1) % points.length]!];
      const l = distance(p, q);
      const [nx, ny] = [(-(q[1] - p[1]) / l) * size * part, ((q[0] - p[0]) / l) * size * part];
      const m = mix(p, q, 0.5);
      for (const at of [
        [m[0] + nx, m[1] + ny],
        [m[0] - nx, m[1] - ny],
      ] as const)
        if (sideOf(a, at) === 1) return at;
    }
  }
  return null;
}

/**
 * Whether the insides of two outlines meet, with the deepest place found (distance to the other's line there, mm).
 * Contacts and sides are decided by exact predicates; null where the outlines are apart or only touch.
 */
export function overlapOf(a: Outline, b: Outline): { depth: number; at: Pt } | null {
  if (!boxesWithin(a.box, b.box, 0)) return null;
  const found = [deepestOfLine(a, b), deepestOfLine(b, a)].filter((f) => f !== null);
  const inner = innerPoint(a);
  if (inner && sideOf(b, inner) === 1)
    found.push({ depth: Math.min(distanceToLine(a, inner), distanceToLine(b, inner)), at: inner });
  return found.sort((x, y) => y.depth - x.depth)[0] ?? null;
}

/**
 * How far an outline reaches out of another, closed one, with the farthest place found (distance to the other's line there, mm). Null
 * where all of it lies inside or on that line. Its inside then lies inside too: a simple outline has no holes.
 */
export const reachOutside = (a: Outline, within: Outline): { depth: number; at: Pt } | null =>
  deepestOfLine(a, within, -1);
