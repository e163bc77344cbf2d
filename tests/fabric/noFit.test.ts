import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Polyline, Pt } from '../../src/geometry';
import { distanceToSegment, signedAreaOfPoints } from '../../src/geometry';
import { convexParts } from '../../src/fabric/noFit/convexParts';
import { noFitOf } from '../../src/fabric/noFit/noFit';
import type { PartedShape } from '../../src/fabric/noFit/noFit';
import { outlineOf, overlapOf } from '../../src/fabric/check/outlineOverlap';

const shapeOf = (points: Polyline): PartedShape => ({
  outlines: [Float64Array.from(points.flat())],
  parts: convexParts(points),
});

/** Star-shaped polygons: 3 to 12 corners, radii 10 to 100 mm, often with deep hollows. */
const star = fc.array(fc.integer({ min: 10, max: 100 }), { minLength: 3, maxLength: 12 }).map((radii): Pt[] =>
  radii.map((r, i) => {
    const a = (2 * Math.PI * i) / radii.length;
    return [Math.round(r * Math.cos(a) * 8) / 8, Math.round(r * Math.sin(a) * 8) / 8];
  }),
);
const offset = fc.tuple(fc.integer({ min: -180, max: 180 }), fc.integer({ min: -180, max: 180 }));
const moved = (points: Polyline, [x, y]: readonly [number, number]): Pt[] =>
  points.map((p) => [p[0] + x, p[1] + y]);
const doOverlap = (a: Polyline, b: Polyline): boolean =>
  (overlapOf(outlineOf(a), outlineOf(b))?.depth ?? 0) > 1e-6;

test('convex parts add up to the polygon and every part is convex', () => {
  fc.assert(
    fc.property(star, (points) => {
      const parts = convexParts(points).map((part) =>
        Array.from({ length: part.length / 2 }, (_, i): Pt => [part[2 * i]!, part[2 * i + 1]!]),
      );
      const sum = parts.reduce((area, part) => area + signedAreaOfPoints(part), 0);
      expect(sum).toBeCloseTo(signedAreaOfPoints(points), 6);
      for (const part of parts) {
        part.forEach((b, i) => {
          const [a, c] = [part.at(i - 1)!, part[(i + 1) % part.length]!];
          expect((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])).toBeGreaterThanOrEqual(-1e-9);
        });
      }
    }),
    { numRuns: 300, seed: 5 },
  );
});

test('a depth is found exactly where the insides of two shapes meet', () => {
  fc.assert(
    fc.property(star, star, offset, (a, b, at) => {
      const region = noFitOf(shapeOf(a), shapeOf(b));
      const before = region.isInside(at[0], at[1]);
      const depth = region.depth(at[0], at[1]);
      expect(depth > 1e-6).toBe(doOverlap(a, moved(b, at)));
      expect(before).toBe(depth > 0);
      expect(region.isInside(at[0], at[1])).toBe(before);
    }),
    { numRuns: 1500, seed: 6 },
  );
});

/** Distance from an offset to a region's boundary, mm. */
function toBoundary(edges: Float64Array, at: Pt): number {
  let least = Infinity;
  for (let k = 0; k < edges.length; k += 4) {
    const [a, b]: [Pt, Pt] = [
      [edges[k]!, edges[k + 1]!],
      [edges[k + 2]!, edges[k + 3]!],
    ];
    least = Math.min(least, distanceToSegment(at, a, b).distance);
  }
  return least;
}

test('the distance to the boundary is the shortest push that frees the moving shape', () => {
  fc.assert(
    fc.property(star, star, offset, (a, b, at) => {
      const region = noFitOf(shapeOf(a), shapeOf(b));
      fc.pre(region.depth(at[0], at[1]) > 0.01);
      const exact = toBoundary(region.edges, at);
      for (let k = 0; k < 32; k += 1) {
        const w = (k * Math.PI) / 16;
        const less = exact * 0.999;
        expect(doOverlap(a, moved(b, [at[0] + less * Math.cos(w), at[1] + less * Math.sin(w)]))).toBe(true);
      }
    }),
    { numRuns: 300, seed: 7 },
  );
});

test('a depth is that distance to within a cell of the grid, exactly so next to the boundary', () => {
  fc.assert(
    fc.property(star, star, offset, (a, b, at) => {
      const region = noFitOf(shapeOf(a), shapeOf(b));
      const depth = region.depth(at[0], at[1]);
      fc.pre(depth > 0);
      const { minX, minY, maxX, maxY } = region.box;
      const cell = Math.hypot(maxX - minX, maxY - minY) / 48;
      const exact = toBoundary(region.edges, at);
      expect(Math.abs(depth - exact)).toBeLessThan(cell);
      expect(Math.hypot(region.downX, region.downY)).toBeLessThanOrEqual(1.5);
      if (exact < 0.01 * cell) expect(Math.abs(depth - exact)).toBeLessThan(0.05 * cell);
      // downhill it comes out
      let [x, y, left] = [at[0], at[1], depth];
      for (let k = 0; k < 400 && left > 0; k += 1) {
        const l = Math.hypot(region.downX, region.downY);
        if (l === 0) return;
        [x, y] = [x + (region.downX / l) * cell, y + (region.downY / l) * cell];
        left = region.depth(x, y);
      }
      expect(left).toBe(0);
    }),
    { numRuns: 500, seed: 8 },
  );
});

test('a shape that fits into the hollow of another finds its place there', () => {
  const u: Pt[] = [
    [0, 0],
    [100, 0],
    [100, 80],
    [70, 80],
    [70, 30],
    [30, 30],
    [30, 80],
    [0, 80],
  ];
  const tongue: Pt[] = [
    [0, 0],
    [38, 0],
    [38, 40],
    [0, 40],
  ];
  const region = noFitOf(shapeOf(u), shapeOf(tongue));
  expect(region.depth(31, 30)).toBe(0);
  expect(region.depth(31, 29)).toBeCloseTo(1, 9);
  expect(region.depth(29.5, 40)).toBeCloseTo(0.5, 9);
});
