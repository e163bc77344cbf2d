import type { Polyline, Pt } from '../../geometry';
import { distanceToSegment, signedAreaOfPoints } from '../../geometry';
import { convexHull, turnAt } from './convexParts';

/** A corner of a ring that is being simplified; `slack` bounds how far the original lies inside the edge that starts here, mm. */
interface Corner {
  at: Pt;
  before: Corner;
  after: Corner;
  slack: number;
  gone: boolean;
}

/** A change that only adds area: a hollow corner dropped, or an edge replaced by the point where its neighbours meet. */
interface Change {
  readonly added: number;
  readonly slack: number;
  /** null: drop the corner. */
  readonly peak: Pt | null;
}

/** How far a simplified outline may leave the true one, mm: over its hollows, and elsewhere. */
export interface Slack {
  readonly hollow: number;
  readonly outer: number;
}

const triangleArea = (a: Pt, b: Pt, c: Pt): number =>
  Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;

/** Where the lines a→b and d→c meet beyond b and c; null if they part. */
function meetBeyond(a: Pt, b: Pt, c: Pt, d: Pt): Pt | null {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const [vx, vy] = [c[0] - d[0], c[1] - d[1]];
  const turn = ux * vy - uy * vx;
  if (turn >= 0) return null; // v points against the ring's run, so edges that close in have a negative turn
  const t = ((d[0] - a[0]) * vy - (d[1] - a[1]) * vx) / turn;
  return t > 1 ? [a[0] + t * ux, a[1] + t * uy] : null;
}

function hollowChange(b: Corner): Change | null {
  const [p, q, r] = [b.before.at, b.at, b.after.at];
  if (turnAt(p, q, r) > 0) return null;
  const slack = Math.max(b.before.slack, b.slack) + distanceToSegment(q, p, r).distance;
  return { added: triangleArea(p, q, r), slack, peak: null };
}

function edgeChange(b: Corner): Change | null {
  const [p, q, r, s] = [b.before.at, b.at, b.after.at, b.after.after.at];
  if (turnAt(p, q, r) <= 0 || turnAt(q, r, s) <= 0) return null;
  const peak = meetBeyond(p, q, r, s);
  if (!peak) return null;
  return { added: triangleArea(q, peak, r), slack: b.slack + distanceToSegment(peak, q, r).distance, peak };
}

/** Whether any other corner lies in the triangle that a change would add. */
function isBlocked(b: Corner, peak: Pt | null): boolean {
  const [first, last] = peak ? [b, b.after] : [b.before, b.after];
  const tri = peak ? ([b.at, peak, b.after.at] as const) : ([b.before.at, b.after.at, b.at] as const);
  for (let k = last.after; k !== first; k = k.after) {
    if (k === b) continue;
    const [u, v, w] = [
      turnAt(tri[0], tri[1], k.at),
      turnAt(tri[1], tri[2], k.at),
      turnAt(tri[2], tri[0], k.at),
    ];
    if ((u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0)) return true;
  }
  return false;
}

function cheapest(b: Corner, slack: Slack): Change | null {
  const [hollow, edge] = [hollowChange(b), edgeChange(b)];
  if (hollow && hollow.slack <= slack.hollow) return hollow;
  return edge && edge.slack <= slack.outer ? edge : null;
}

/** Make the change at b; returns a corner still in the ring whose neighbourhood (two each way) must be looked at again. */
function apply(b: Corner, change: Change): Corner {
  const gone = change.peak ? b.after : b;
  if (change.peak) {
    b.at = change.peak;
    b.before.slack = Math.max(b.before.slack, change.slack);
    b.slack = Math.max(gone.slack, change.slack);
  } else {
    b.before.slack = change.slack;
  }
  gone.gone = true;
  gone.before.after = gone.after;
  gone.after.before = gone.before;
  return change.peak ? b : b.before;
}

function linked(points: Polyline): Corner[] {
  const corners = points.map((at) => ({ at, slack: 0, gone: false }) as Corner);
  corners.forEach((c, i) => {
    c.before = corners.at(i - 1)!;
    c.after = corners[(i + 1) % corners.length]!;
  });
  return corners;
}

/**
 * A polygon with fewer corners that contains the given one and leaves it by no more than `slack`: only ever outwards.
 * @param points simple, positive area
 */
export function simplifyOutwards(points: Polyline, slack: Slack): Pt[] {
  const corners = linked(points);
  const changes = corners.map((c) => cheapest(c, slack));
  const numberOf = new Map(corners.map((c, i) => [c, i]));
  const renew = (c: Corner): unknown => (changes[numberOf.get(c)!] = cheapest(c, slack));
  let left = corners.length;
  while (left > 3) {
    let best = -1;
    changes.forEach((c, i) => {
      if (c && !corners[i]!.gone && (best < 0 || c.added < changes[best]!.added)) best = i;
    });
    if (best < 0) break;
    const [corner, change] = [corners[best]!, changes[best]!];
    changes[best] = null;
    if (isBlocked(corner, change.peak)) continue;
    const near = apply(corner, change);
    left -= 1;
    [near.before.before, near.before, near, near.after, near.after.after].forEach(renew);
  }
  return corners.filter((c) => !c.gone).map((c) => c.at);
}

/** Whether two stretches of a closed polygon cross, or touch elsewhere than at the corner they share. Exact. */
export function crossesItself(points: Polyline): boolean {
  const n = points.length;
  for (let i = 0; i < n; i += 1) {
    const [a, b] = [points[i]!, points[(i + 1) % n]!];
    for (let j = i + 2; j < n; j += 1) {
      if (i === 0 && j === n - 1) continue;
      const [c, d] = [points[j]!, points[(j + 1) % n]!];
      if (Math.max(a[0], b[0]) < Math.min(c[0], d[0]) || Math.max(c[0], d[0]) < Math.min(a[0], b[0]))
        continue;
      if (Math.max(a[1], b[1]) < Math.min(c[1], d[1]) || Math.max(c[1], d[1]) < Math.min(a[1], b[1]))
        continue;
      if (turnAt(a, b, c) * turnAt(a, b, d) <= 0 && turnAt(c, d, a) * turnAt(c, d, b) <= 0) return true;
    }
  }
  return false;
}

/** A mitre reaching farther than this many times the distance is cut off square: it then still clears the corner. */
const MITRE = 2;

/** The corner b pushed out by `by`: one mitred point, or two where the mitre would be too long. */
function pushedCorner(a: Pt, b: Pt, c: Pt, by: number): Pt[] {
  const out = (p: Pt, q: Pt): Pt => {
    const l = Math.sqrt((q[0] - p[0]) ** 2 + (q[1] - p[1]) ** 2);
    return [(q[1] - p[1]) / l, (p[0] - q[0]) / l];
  };
  const [m, n] = [out(a, b), out(b, c)];
  const k = 1 + m[0] * n[0] + m[1] * n[1]; // 1 + cos of the turn; the mitre is by·√(2/k) long
  const isOuter = turnAt(a, b, c) > 0;
  if (!isOuter || 2 <= MITRE * MITRE * k)
    return [[b[0] + ((m[0] + n[0]) * by) / k, b[1] + ((m[1] + n[1]) * by) / k]];
  // cut square to the bisector at MITRE·by: along each edge by the same amount t past the corner
  const half = Math.sqrt(k / 2); // cosine of half the turn
  const t = (by * (MITRE - half)) / Math.sqrt(1 - half * half);
  return [
    [b[0] + m[0] * by - m[1] * t, b[1] + m[1] * by + m[0] * t],
    [b[0] + n[0] * by + n[1] * t, b[1] + n[1] * by - n[0] * t],
  ];
}

/**
 * A polygon every edge of which is `by` mm farther out, corners mitred (sharp ones cut square beyond twice the distance).
 * @returns null where it would cross itself (a slit narrower than twice the distance)
 */
export function grownOutline(points: Polyline, by: number): Pt[] | null {
  if (by === 0) return [...points];
  const n = points.length;
  const grown = points.flatMap((p, i) => pushedCorner(points[(i + n - 1) % n]!, p, points[(i + 1) % n]!, by));
  return signedAreaOfPoints(grown) > 0 && !crossesItself(grown) ? grown : null;
}

/** Without repeated and straight-through points, positive area; the convex hull if the line crosses itself. */
export function cleanOutline(points: Polyline): Pt[] {
  const ring = signedAreaOfPoints(points) < 0 ? [...points].reverse() : [...points];
  const distinct = ring.filter((p, i) => {
    const q = ring.at(i - 1)!;
    return p[0] !== q[0] || p[1] !== q[1];
  });
  const bent = distinct.filter(
    (p, i) => turnAt(distinct.at(i - 1)!, p, distinct[(i + 1) % distinct.length]!) !== 0,
  );
  return bent.length >= 3 && !crossesItself(bent) ? bent : convexHull(points);
}
