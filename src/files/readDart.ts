import {
  distance,
  distanceToSegment,
  endOf,
  JOIN_GAP,
  nearestOnPath,
  SAME_POINT,
  startOf,
  type Path,
  type Pt,
  type Ring,
} from '../geometry';
import type { DartShape } from '../pattern';
import type { DrawnPath } from './drawnShape';

/** The corners of a traced dart in order; the first is not repeated. Points within SAME_POINT are one. */
function cornersOf(path: Path): Pt[] {
  const corners: Pt[] = [];
  for (const p of [startOf(path), ...path.map((c) => c.at(-1) as Pt)]) {
    if (corners.length === 0 || distance(corners.at(-1)!, p) > SAME_POINT) corners.push(p);
  }
  return corners;
}

/** Corners that lie on the straight line between their neighbours say nothing (an editor's extra nodes). */
function withoutStraight(corners: readonly Pt[], closed: boolean): Pt[] {
  const n = corners.length;
  return corners.filter((p, i) => {
    if (!closed && (i === 0 || i === n - 1)) return true;
    return distanceToSegment(p, corners[(i + n - 1) % n]!, corners[(i + 1) % n]!).distance > SAME_POINT;
  });
}

const away = (outline: Ring, p: Pt): number => nearestOnPath(outline, p).distance;

/** A triangle's point is its corner farthest from the outline; the mouth keeps the order it was traced in. */
function fromTriangle(corners: readonly Pt[], outline: Ring): DartShape {
  const gaps = corners.map((p) => away(outline, p));
  const i = gaps.indexOf(Math.max(...gaps));
  return {
    kind: 'single',
    mouth: [corners[(i + 2) % 3]!, corners[(i + 1) % 3]!],
    point: corners[i]!,
    legs: null,
  };
}

/** A double-pointed dart: its points are the two opposite corners farther apart. */
function fromKite(corners: readonly Pt[]): DartShape {
  const [a, b, c, d] = corners as [Pt, Pt, Pt, Pt];
  return {
    kind: 'double',
    points: distance(a, c) >= distance(b, d) ? [a, b, c, d] : [b, c, d, a],
    legs: null,
  };
}

/**
 * Mouth, point, mouth. The point is the corner between; only where exactly two corners touch the outline and the middle
 * one is among them was another order traced.
 */
function fromOpen(corners: readonly Pt[], outline: Ring): DartShape | null {
  if (corners.length < 3) return null;
  const [a, z] = [corners[0]!, corners.at(-1)!];
  const inner = corners.slice(1, -1);
  const farthest = inner.reduce((best, p) =>
    distanceToSegment(p, a, z).distance > distanceToSegment(best, a, z).distance ? p : best,
  );
  const touching = [a, farthest, z].filter((p) => away(outline, p) <= JOIN_GAP);
  if (touching.length === 2 && touching.includes(farthest)) return fromTriangle([a, farthest, z], outline);
  return { kind: 'single', mouth: [a, z], point: farthest, legs: null };
}

/**
 * A dart from its traced path: open through three points, a closed triangle, or closed with four corners for a
 * double-pointed one. Curved legs keep their end points.
 * @returns null if it is none of these
 */
export function readDart({ path, closed }: DrawnPath, outline: Ring): DartShape | null {
  const isClosed = closed || (path.length > 2 && distance(startOf(path), endOf(path)) < JOIN_GAP);
  const all = cornersOf(path);
  if (isClosed && all.length > 1 && distance(all[0]!, all.at(-1)!) < JOIN_GAP) all.pop();
  const corners = withoutStraight(all, isClosed);
  if (!isClosed) return fromOpen(corners, outline);
  if (corners.length === 3) return fromTriangle(corners, outline);
  return corners.length === 4 ? fromKite(corners) : null;
}
