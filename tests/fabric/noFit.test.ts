import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Polyline, Pt } from '../../src/geometry';
import { signedAreaOfPoints } from '../../src/geometry';
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
      const depth = noFitOf(shapeOf(a), shapeOf(b)).depth(at[0], at[1]);
      expect(depth > 1e-6).toBe(doOverlap(a, moved(b, at)));
    }),
    { numRuns: 1500, seed: 6 },
  );
});

test('the push frees the moving shape, and no shorter push in any direction does', () => {
  fc.assert(
    fc.property(star, star, offset, (a, b, at) => {
      const region = noFitOf(shapeOf(a), shapeOf(b));
      const depth = region.depth(at[0], at[1]);
      fc.pre(depth > 0.01);
      const [x, y] = [at[0] + region.pushX, at[1] + region.pushY];
      expect(Math.hypot(region.pushX, region.pushY)).toBeCloseTo(depth, 9);
      expect(region.depth(x, y)).toBeLessThan(1e-6);
      for (let k = 0; k < 32; k += 1) {
        const w = (k * Math.PI) / 16;
        const less = depth * 0.999;
        expect(doOverlap(a, moved(b, [at[0] + less * Math.cos(w), at[1] + less * Math.sin(w)]))).toBe(true);
      }
    }),
    { numRuns: 300, seed: 7 },
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
