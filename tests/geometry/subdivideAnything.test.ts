import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  pathThrough,
  reversePath,
  signedArea,
  subdivide,
  transformPath,
  type Curve,
  type Matrix,
  type Path,
  type Pt,
  type Subdivision,
} from '../../src/geometry';
import { brokenPromises } from './checkSubdivision';
import { areas, cut, square } from './cutSquare';
import { randomDrawing, randomFrom, smoothRing } from './randomDrawings';

describe('any drawing', { timeout: 60_000 }, () => {
  test('the same input gives the same answer to the last bit', () => {
    for (let seed = 0; seed < 40; seed += 1) {
      const { outline, lines } = randomDrawing(seed, true);
      expect(JSON.stringify(subdivide(outline, lines))).toBe(JSON.stringify(subdivide(outline, lines)));
    }
  });

  test('mirrored, turned, moved and scaled drawings have the same faces, and so has one started from another corner', () => {
    const matrices: Matrix[] = [
      [0, 1, -1, 0, 0, 0],
      [1, 0, 0, 1, 1234.5, -987.6],
      [Math.cos(0.3), Math.sin(0.3), -Math.sin(0.3), Math.cos(0.3), 10, 20],
    ];
    for (let seed = 0; seed < 60; seed += 1) {
      const { outline, lines } = randomDrawing(seed, seed % 2 === 0);
      const plain = areas(subdivide(outline, lines));
      const close = (other: Subdivision): void => {
        const found = areas(other);
        expect(found.length).toBe(plain.length);
        found.forEach((a, i) => expect(Math.abs(a - plain[i]!)).toBeLessThan(5e-5 * signedArea(outline)));
      };
      for (const m of matrices)
        close(
          subdivide(
            transformPath(outline, m),
            lines.map((l) => transformPath(l, m)),
          ),
        );
      const mirror: Matrix = [-1, 0, 0, 1, 0, 0];
      close(
        subdivide(
          reversePath(transformPath(outline, mirror)),
          lines.map((l) => transformPath(l, mirror)),
        ),
      );
      close(subdivide([...outline.slice(2), ...outline.slice(0, 2)], lines));
      close(subdivide(outline, lines.map(reversePath)));
    }
  });

  test('drawings on a coarse grid, full of coincidences, keep every promise', () => {
    const point = fc
      .tuple(fc.integer({ min: -1, max: 9 }), fc.integer({ min: -1, max: 9 }))
      .map(([x, y]): Pt => [x * 12.5, y * 12.5]);
    const drawn = fc
      .array(point, { minLength: 1, maxLength: 6 })
      .chain((points) => fc.boolean().map((closed) => pathThrough(points, closed)));
    fc.assert(
      fc.property(fc.array(drawn, { maxLength: 6 }), (lines) => {
        expect(brokenPromises(square, lines, subdivide(square, lines))).toEqual([]);
      }),
      { numRuns: 700, seed: 21 },
    );
  });

  test('drawings with every point a little off keep every promise', () => {
    const near = fc.integer({ min: -4, max: 4 }).map((v) => v * 0.004);
    const coordinate = fc.tuple(fc.integer({ min: 0, max: 4 }), near).map(([v, d]) => v * 25 + d);
    const point = fc.tuple(coordinate, coordinate).map(([x, y]): Pt => [x, y]);
    const curve = fc.tuple(point, point, point, point).map((c): Path => [c]);
    const drawn = fc.oneof(
      curve,
      fc.array(point, { minLength: 2, maxLength: 4 }).map((p) => pathThrough(p, false)),
    );
    fc.assert(
      fc.property(fc.array(drawn, { maxLength: 6 }), (lines) => {
        expect(brokenPromises(square, lines, subdivide(square, lines))).toEqual([]);
      }),
      { numRuns: 700, seed: 22 },
    );
  });

  test('any finite numbers are survived, however large', () => {
    const number = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.integer({ min: -50, max: 50 }),
    );
    const point = fc.tuple(number, number);
    const curve = fc.oneof(
      fc.tuple(point, point),
      fc.tuple(point, point, point, point),
    ) as fc.Arbitrary<Curve>;
    fc.assert(
      fc.property(
        fc.array(curve, { maxLength: 4 }),
        fc.array(fc.array(curve, { maxLength: 3 }), { maxLength: 3 }),
        (outline, lines) => {
          expect(subdivide(outline, lines).faces).toBeDefined();
        },
      ),
      { numRuns: 400, seed: 23 },
    );
  });

  test('two hundred curved lines make two hundred and one faces', () => {
    const random = randomFrom(7);
    const comb = Array.from({ length: 200 }, (_, i): Path => {
      const x = (i + 1) * (100 / 201);
      const bend = 0.2 * random();
      return [
        [
          [x, 0],
          [x + bend, 30],
          [x - bend, 70],
          [x, 100],
        ],
      ];
    });
    const sub = cut(square, comb);
    expect(sub.faces.length).toBe(201);
    expect(sub.looseEnds).toEqual([]);
  });

  test('a grid of curves on a smooth outline has the faces Euler’s formula asks for', () => {
    const outline = smoothRing([
      [0, 0],
      [100, -10],
      [110, 100],
      [-5, 105],
    ]);
    const lines = [20, 40, 60, 80].flatMap((v): Path[] => [
      [
        [
          [-40, v],
          [30, v + 15],
          [60, v - 15],
          [150, v],
        ],
      ],
      [
        [
          [v, -40],
          [v + 15, 30],
          [v - 15, 60],
          [v, 150],
        ],
      ],
    ]);
    expect(cut(outline, lines).faces.length).toBe(25);
  });
});
