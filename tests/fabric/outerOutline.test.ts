import { expect, test } from 'vitest';
import { areaD, differenceD, FillRule } from 'clipper2-ts';
import type { Polyline, Pt } from '../../src/geometry';
import { distanceToSegment, signedAreaOfPoints } from '../../src/geometry';
import {
  cleanOutline,
  crossesItself,
  grownOutline,
  simplifyOutwards,
} from '../../src/fabric/noFit/outerOutline';
import { seededRandom } from '../../src/fabric/search/random';
import { panelOutline, rectangle } from './madeUpPieces';

const path = (points: Polyline): { x: number; y: number }[] => points.map(([x, y]) => ({ x, y }));
/** Area of a outside b, mm², by an independent library on a grid of 1e-6 mm. */
const areaOutside = (a: Polyline, b: Polyline): number =>
  differenceD([path(a)], [path(b)], FillRule.NonZero, 6).reduce(
    (sum, ring) => sum + Math.abs(areaD(ring)),
    0,
  );
const farthest = (from: Polyline, to: Polyline): number =>
  Math.max(
    ...from.map((p) =>
      Math.min(...to.map((a, i) => distanceToSegment(p, a, to[(i + 1) % to.length]!).distance)),
    ),
  );

test('a simplified outline contains the true one, has far fewer corners and stays within its slack', () => {
  const random = seededRandom(11);
  for (let run = 0; run < 200; run += 1) {
    const outline = cleanOutline(panelOutline(random));
    if (crossesItself(outline)) continue;
    const few = simplifyOutwards(outline, { hollow: 1.5, outer: 0.5 });
    expect(areaOutside(outline, few)).toBeLessThan(5e-3);
    expect(crossesItself(few)).toBe(false);
    expect(farthest(few, outline)).toBeLessThanOrEqual(1.5);
    expect(few.length).toBeLessThan(Math.max(12, outline.length * 0.45));
  }
});

test('a grown outline keeps its distance from the shape all round', () => {
  const random = seededRandom(12);
  let grew = 0;
  for (let run = 0; run < 200; run += 1) {
    const outline = cleanOutline(panelOutline(random));
    const grown = grownOutline(outline, 3);
    if (!grown) continue;
    grew += 1;
    const nearest = Math.min(
      ...grown.flatMap((a, i) =>
        [0, 0.25, 0.5, 0.75].map((t) => {
          const b = grown[(i + 1) % grown.length]!;
          const p: Pt = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
          return Math.min(
            ...outline.map((q, k) => distanceToSegment(p, q, outline[(k + 1) % outline.length]!).distance),
          );
        }),
      ),
    );
    expect(nearest).toBeGreaterThan(3 - 1e-9);
    expect(areaOutside(outline, grown)).toBeLessThan(5e-3);
  }
  expect(grew).toBeGreaterThan(150);
});

test('a rectangle grows to a rectangle and a sharp point is cut square', () => {
  expect(grownOutline(rectangle(10, 20), 1)).toEqual([
    [-1, -1],
    [11, -1],
    [11, 21],
    [-1, 21],
  ]);
  const spike = grownOutline(
    [
      [0, -1],
      [100, 0],
      [0, 1],
    ],
    2,
  )!;
  expect(Math.max(...spike.map((p) => p[0]))).toBeCloseTo(104, 9);
});

test('a slit narrower than the growth is reported, not grown over itself', () => {
  const slit: Pt[] = [
    [0, 0],
    [40, 0],
    [40, 40],
    [21, 40],
    [21, 5],
    [20, 5],
    [20, 40],
    [0, 40],
  ];
  expect(grownOutline(slit, 2)).toBeNull();
});

test('repeated and straight-through corners go, and either run of the ring gives the same shape', () => {
  const messy: Pt[] = [
    [0, 0],
    [5, 0],
    [10, 0],
    [10, 0],
    [10, 20],
    [0, 20],
  ];
  expect(cleanOutline(messy)).toEqual([
    [0, 0],
    [10, 0],
    [10, 20],
    [0, 20],
  ]);
  expect(signedAreaOfPoints(cleanOutline([...messy].reverse()))).toBe(200);
});
