import { turnOf } from './orientation';
import type { Polyline, Pt } from './types';
import { distanceToSegment } from './vector';

export type Where = 'inside' | 'boundary' | 'outside';

/**
 * Where a point lies of a closed polyline (first point not repeated); exact, even-odd where it crosses itself.
 * Counts crossings of the ray towards +x with half-open steps, so a ray through a corner counts once.
 */
export function whereInRing(p: Pt, ring: Polyline): Where {
  const [x, y] = p;
  let isInside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
    const [ax, ay] = ring[j]!;
    const [bx, by] = ring[i]!;
    if ((ay < y && by < y) || (ay > y && by > y) || (ax < x && bx < x)) continue;
    if (ay === by) {
      // Level with the point (both ends at y): only lying on it matters.
      if ((ax <= x && x <= bx) || (bx <= x && x <= ax)) return 'boundary';
      continue;
    }
    const side = turnOf(ax, ay, bx, by, x, y);
    if (side === 0) return 'boundary';
    if (ay > y !== by > y && side > 0 === by > ay) isInside = !isInside;
  }
  return isInside ? 'inside' : 'outside';
}

/** Where a point lies of a region with holes; the border of a hole is boundary. */
export function whereInPolygon(p: Pt, ring: Polyline, holes: readonly Polyline[]): Where {
  const outer = whereInRing(p, ring);
  if (outer !== 'inside') return outer;
  for (const hole of holes) {
    const where = whereInRing(p, hole);
    if (where !== 'outside') return where === 'inside' ? 'outside' : 'boundary';
  }
  return 'inside';
}

/** Whether a point lies in a closed polyline or on it; exact. */
export const isInRing = (p: Pt, ring: Polyline): boolean => whereInRing(p, ring) !== 'outside';

/** Whether a point lies in a region with holes or on its border; exact. */
export const isInPolygon = (p: Pt, ring: Polyline, holes: readonly Polyline[] = []): boolean =>
  whereInPolygon(p, ring, holes) !== 'outside';

/** Whether a point lies inside a closed polyline, farther than `margin` from it, mm. */
export const isWellInside = (p: Pt, ring: Polyline, margin: number): boolean =>
  isInRing(p, ring) &&
  ring.every((a, i) => distanceToSegment(p, a, ring[(i + 1) % ring.length]!).distance > margin);
