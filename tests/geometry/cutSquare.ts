import { expect } from 'vitest';
import {
  pathThrough,
  subdivide,
  type Curve,
  type Path,
  type Pt,
  type Ring,
  type SubdivideOptions,
  type Subdivision,
} from '../../src/geometry';
import { brokenPromises } from './checkSubdivision';

/** A square of 100 mm at the origin. */
export const square: Ring = pathThrough(
  [
    [0, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  ],
  true,
);
export const line = (...points: Pt[]): Path => pathThrough(points, false);
export const ring = (...points: Pt[]): Path => pathThrough(points, true);

/** A circle of four cubics; its area is within 3e-4 of the true circle's, so areas are compared with signedArea of it. */
export function circle(x: number, y: number, r: number): Ring {
  const k = (r * 4 * (Math.SQRT2 - 1)) / 3;
  const quarter = ([ux, uy]: Pt, [vx, vy]: Pt): Curve => [
    [x + r * ux, y + r * uy],
    [x + r * ux + k * vx, y + r * uy + k * vy],
    [x + r * vx + k * ux, y + r * vy + k * uy],
    [x + r * vx, y + r * vy],
  ];
  const axes: Pt[] = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ];
  return axes.map((u, i) => quarter(u, axes[(i + 1) % 4]!));
}

/** Subdivide, check every general promise, and hand back the result. */
export function cut(outline: Ring, lines: readonly Path[], options: SubdivideOptions = {}): Subdivision {
  const sub = subdivide(outline, lines, options);
  expect(brokenPromises(outline, lines, sub)).toEqual([]);
  return sub;
}

export const areas = (sub: Subdivision): number[] => sub.faces.map((f) => f.area).sort((a, b) => b - a);

export function expectAreas(sub: Subdivision, expected: readonly number[], within = 1e-9): void {
  const found = areas(sub);
  expect(found.length).toBe(expected.length);
  found.forEach((a, i) => expect(Math.abs(a - expected[i]!)).toBeLessThan(within * 10000));
}

/** Blossom of a cubic: the control points of its part from a to b (independent of the code under test). */
export function middlePart(c: Curve, a: number, b: number): Curve {
  const blossom = (r: number, s: number, t: number): Pt => {
    const lerp = (p: Pt, q: Pt, u: number): Pt => [p[0] + (q[0] - p[0]) * u, p[1] + (q[1] - p[1]) * u];
    const [p, q, v, w] = c as readonly [Pt, Pt, Pt, Pt];
    const [x, y, z] = [lerp(p, q, r), lerp(q, v, r), lerp(v, w, r)];
    return lerp(lerp(x, y, s), lerp(y, z, s), t);
  };
  return [blossom(a, a, a), blossom(a, a, b), blossom(a, b, b), blossom(b, b, b)];
}
export const bezierPoint = (c: Curve, t: number): Pt => middlePart(c, t, t)[0];
