import { Clipper, ClipType, FillRule, type Paths64 } from 'clipper2-ts';
import type { Point, Rings } from './referenceOffsets';

/** How the allowance ends at the corner where an edge begins: a mitre, or a strip (of the edge before or after) cut square to itself. */
export type PartStyle = 'mitre' | 'before' | 'after';

const along = ([x, y]: Point, [dx, dy]: Point, by: number): Point => [x + dx * by, y + dy * by];
const outOf = ([dx, dy]: Point): Point => [dy, -dx];

/**
 * The same region put together from its parts, without offsetting anything: the polygon, a rectangle beside each edge, and at each convex
 * corner what is filled in there, from the drawing of a mitre or of an end cut square where the stitching line, drawn on, meets the other
 * cutting line. Joined by Clipper 2 (clipper2-ts 2.0.1) on a grid of 1e-4 mm.
 * @param points corners, signedArea > 0
 * @param styles by corner; none at inner corners
 * @param mostReach a square end stops at this many widths
 */
export function unionOfParts(
  points: readonly Point[],
  width: number,
  styles: readonly PartStyle[],
  mostReach: number,
): Rings {
  const n = points.length;
  const direction = (i: number): Point => {
    const [a, b] = [points[(i + n) % n]!, points[(i + 1) % n]!];
    const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
    return [(b[0] - a[0]) / l, (b[1] - a[1]) / l];
  };
  const parts: (readonly Point[])[] = [points];
  points.forEach((v, i) => {
    const [d1, d2] = [direction(i - 1), direction(i)];
    const [n1, n2] = [outOf(d1), outOf(d2)];
    const end = points[(i + 1) % n]!;
    parts.push([v, end, along(end, n2, width), along(v, n2, width)]);
    const sin = d1[0] * d2[1] - d1[1] * d2[0];
    const cos = d1[0] * d2[0] + d1[1] * d2[1];
    if (sin <= 0) return;
    const [a1, a2] = [along(v, n1, width), along(v, n2, width)];
    if (styles[i] === 'mitre') {
      const far = width * Math.tan(Math.atan2(sin, cos) / 2);
      parts.push([v, a1, along(a1, d1, far), a2]);
      return;
    }
    const reach = Math.min(width / sin, mostReach * width);
    const [on, out, other, back]: [Point, Point, Point, Point] =
      styles[i] === 'before' ? [d1, n1, a2, d2] : [[-d2[0], -d2[1]], n2, a1, [-d1[0], -d1[1]]];
    const foot = along(v, on, reach);
    parts.push([v, along(v, out, width), along(foot, out, width), foot]);
    if (cos >= 0) return;
    // a sharp corner: up to where the square end, drawn on, meets the other cutting line
    const met = along(other, back, (reach - (other[0] - v[0]) * on[0] - (other[1] - v[1]) * on[1]) / cos);
    parts.push([v, along(v, out, width), along(foot, out, width), met, other]);
  });
  return united(parts);
}

const GRID = 1e4;
const signed = (p: readonly Point[]): number =>
  p.reduce((s, [x, y], i) => s + x * p[(i + 1) % p.length]![1] - y * p[(i + 1) % p.length]![0], 0);

function united(parts: readonly (readonly Point[])[]): Rings {
  const paths: Paths64 = parts.map((p) =>
    (signed(p) < 0 ? [...p].reverse() : p).map(([x, y]) => ({
      x: Math.round(x * GRID),
      y: Math.round(y * GRID),
    })),
  );
  return Clipper.booleanOp(ClipType.Union, paths, [], FillRule.NonZero).map((path) =>
    path.map((p): Point => [p.x / GRID, p.y / GRID]),
  );
}
