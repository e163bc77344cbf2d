import Flatbush from 'flatbush';
import { orient2d } from 'robust-predicates';
import {
  cross,
  flattenRing,
  isClosed,
  mix,
  pathLength,
  SAME_POINT,
  signedArea,
  subtract,
  type Polyline,
  type Pt,
  type Ring,
} from '../geometry';

/** Why a ring cannot be an outline, and where. */
export interface RingFault {
  readonly kind: 'open' | 'crosses' | 'no area';
  readonly at: Pt;
}

const side = (a: Pt, b: Pt, p: Pt): number => Math.sign(orient2d(a[0], a[1], b[0], b[1], p[0], p[1]));
const same = (a: Pt, b: Pt): boolean => a[0] === b[0] && a[1] === b[1];

/** Whether p, known to lie on the line through a and b, lies between them. */
const between = (a: Pt, b: Pt, p: Pt): boolean =>
  Math.min(a[0], b[0]) <= p[0] &&
  p[0] <= Math.max(a[0], b[0]) &&
  Math.min(a[1], b[1]) <= p[1] &&
  p[1] <= Math.max(a[1], b[1]);

type Contact = 'crosses' | 'touches' | null;

/** How two segments meet; exact (signs by adaptive-precision predicates). */
function contactOf(a: Pt, b: Pt, c: Pt, d: Pt): Contact {
  const [c1, d1, a1, b1] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
  if (c1 * d1 < 0 && a1 * b1 < 0) return 'crosses';
  const touches =
    (c1 === 0 && between(a, b, c)) ||
    (d1 === 0 && between(a, b, d)) ||
    (a1 === 0 && between(c, d, a)) ||
    (b1 === 0 && between(c, d, b));
  return touches ? 'touches' : null;
}

/** Neighbours share a corner; they meet elsewhere only where the second doubles back along the first. */
const doublesBack = (a: Pt, corner: Pt, d: Pt): boolean =>
  side(a, corner, d) === 0 &&
  (corner[0] - a[0]) * (d[0] - corner[0]) + (corner[1] - a[1]) * (d[1] - corner[1]) < 0;

/** Where two segments that cross meet. */
function crossingOf(a: Pt, b: Pt, c: Pt, d: Pt): Pt {
  const [ab, cd] = [subtract(b, a), subtract(d, c)];
  return mix(a, b, cross(subtract(c, a), cd) / cross(ab, cd));
}

/** First place where a closed polyline meets itself, crossings before mere touches; null for a simple one. */
function selfContact(points: Polyline): { contact: Contact; at: Pt } | null {
  const n = points.length;
  const index = new Flatbush(n);
  const corner = (i: number): Pt => points[i % n]!;
  for (let i = 0; i < n; i += 1) {
    const [a, b] = [corner(i), corner(i + 1)];
    index.add(Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1]));
  }
  index.finish();
  let touch: Pt | null = null;
  for (let i = 0; i < n; i += 1) {
    const [a, b] = [corner(i), corner(i + 1)];
    if (doublesBack(a, b, corner(i + 2))) touch ??= b;
    const near = index.search(
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
      (j) => j > i + 1 && !(i === 0 && j === n - 1),
    );
    for (const j of near.sort((p, q) => p - q)) {
      const contact = contactOf(a, b, corner(j), corner(j + 1));
      if (contact === 'crosses') return { contact, at: crossingOf(a, b, corner(j), corner(j + 1)) };
      if (contact === 'touches') touch ??= corner(j);
    }
  }
  return touch && { contact: 'touches', at: touch };
}

/**
 * What keeps a ring from being an outline: not closed, crossing or touching itself (its curves flattened to the chord
 * sagitta), or no area to speak of. Null for a sound one.
 */
export function ringFault(ring: Ring): RingFault | null {
  const first = ring[0]?.[0];
  if (!first || !isClosed(ring)) return { kind: 'open', at: first ?? [0, 0] };
  const flat = flattenRing(ring);
  const points = flat.filter((p, i) => !same(p, flat[(i + 1) % flat.length]!));
  const isThin = Math.abs(signedArea(ring)) <= SAME_POINT * pathLength(ring);
  if (points.length < 3) return { kind: 'no area', at: first };
  const met = selfContact(points);
  if (met?.contact === 'crosses') return { kind: 'crosses', at: met.at };
  if (isThin) return { kind: 'no area', at: first };
  return met && { kind: 'crosses', at: met.at };
}
