import { expect, test } from 'vitest';
import {
  flattenRing,
  isInPolygon,
  labelSpot,
  overlapArea,
  interiorPoint,
  signedArea,
  type Polyline,
} from '../../src/geometry';
import { randomFrom } from './randomDrawings';
import { combRing, curvedRing, simpleRing, starRing } from './randomRings';

const square: Polyline = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
];
const hole: Polyline = [
  [30, 30],
  [30, 70],
  [70, 70],
  [70, 30],
];

test('the roomiest spot of a square is its middle', () => {
  const { at, radius } = labelSpot(square);
  expect(Math.hypot(at[0] - 50, at[1] - 50)).toBeLessThan(1);
  expect(radius).toBeGreaterThan(49);
  expect(radius).toBeLessThanOrEqual(50);
});

test('a hole pushes the label aside', () => {
  const { at, radius } = labelSpot(square, [hole]);
  expect(isInPolygon(at, square, [hole])).toBe(true);
  // Touches two sides and the corner of the hole: r(1 + √2/2) = 30·√2/2 … solved for the corner square, r = 30·2 − 30·√2.
  expect(radius).toBeGreaterThan(30 * (2 - Math.SQRT2) - 0.6);
  expect(radius).toBeLessThan(30 * (2 - Math.SQRT2) + 0.01);
});

test('a strip far longer than wide still has its label inside, quickly', () => {
  const strip: Polyline = [
    [0, 0],
    [3000, 0.4],
    [3000, 0.9],
    [0, 0.5],
  ];
  const { at, radius } = labelSpot(strip);
  expect(isInPolygon(at, strip)).toBe(true);
  expect(radius).toBeGreaterThan(0.2);
});

test("shapes without area give a point and no room; a ring without points is a caller's mistake", () => {
  expect(
    labelSpot([
      [3, 4],
      [10, 4],
    ]),
  ).toEqual({ at: [3, 4], radius: 0 });
  expect(labelSpot([[3, 4]])).toEqual({ at: [3, 4], radius: 0 });
  expect(() => labelSpot([])).toThrow(RangeError);
});

test('labels and interior points of random shapes lie inside', () => {
  const random = randomFrom(9);
  for (let i = 0; i < 150; i += 1) {
    const points = flattenRing(simpleRing([starRing, combRing, curvedRing][i % 3]!, random));
    const { at, radius } = labelSpot(points);
    expect(isInPolygon(at, points)).toBe(true);
    expect(radius).toBeGreaterThan(0);
    expect(isInPolygon(interiorPoint(points)!, points)).toBe(true);
  }
});

test('an interior point keeps out of holes and is null without area', () => {
  const p = interiorPoint(square, [hole]);
  expect(p && isInPolygon(p, square, [hole])).toBe(true);
  expect(
    interiorPoint([
      [0, 0],
      [10, 0],
    ]),
  ).toBeNull();
  expect(interiorPoint([])).toBeNull();
});

test('shared area of squares, whichever way round and in either order', () => {
  const moved = square.map(([x, y]) => [x + 25, y + 40] as const);
  expect(overlapArea(square, moved)).toBeCloseTo(75 * 60, 6);
  expect(overlapArea(moved, square.toReversed())).toBeCloseTo(75 * 60, 6);
  expect(overlapArea(square, square)).toBeCloseTo(10_000, 6);
  expect(
    overlapArea(
      square,
      square.map(([x, y]) => [x + 100, y] as const),
    ),
  ).toBe(0);
  expect(
    overlapArea(
      square,
      square.map(([x, y]) => [x, y + 101] as const),
    ),
  ).toBe(0);
});

test('a shape shares its own area with itself to about one part in a hundred', () => {
  const random = randomFrom(10);
  for (let i = 0; i < 60; i += 1) {
    const ring = simpleRing([starRing, curvedRing][i % 2]!, random);
    const points = flattenRing(ring);
    expect(Math.abs(overlapArea(points, points) / signedArea(ring) - 1)).toBeLessThan(0.01);
  }
});
