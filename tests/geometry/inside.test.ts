import fc from 'fast-check';
import { expect, test } from 'vitest';
import { whereInPolygon, whereInRing, type Pt } from '../../src/geometry';

const square: Pt[] = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];

test('a point is inside, on the boundary or outside a ring', () => {
  expect(whereInRing([5, 5], square)).toBe('inside');
  expect(whereInRing([10, 5], square)).toBe('boundary');
  expect(whereInRing([5, 0], square)).toBe('boundary');
  expect(whereInRing([0, 0], square)).toBe('boundary');
  expect(whereInRing([-5, 0], square)).toBe('outside');
  expect(whereInRing([15, 10], square)).toBe('outside');
  expect(whereInRing([5, -1], square)).toBe('outside');
  expect(whereInRing([1, 1], [])).toBe('outside');
});

test('a point in a hole is outside, on its border it is boundary', () => {
  const hole: Pt[] = [
    [4, 4],
    [4, 6],
    [6, 6],
    [6, 4],
  ];
  expect(whereInPolygon([5, 5], square, [hole])).toBe('outside');
  expect(whereInPolygon([4, 5], square, [hole])).toBe('boundary');
  expect(whereInPolygon([3, 5], square, [hole])).toBe('inside');
});

test('the answer does not depend on where the ring starts, which way it runs or how it is turned', () => {
  const point = fc.tuple(fc.integer({ min: -5, max: 5 }), fc.integer({ min: -5, max: 5 }));
  fc.assert(
    fc.property(fc.array(point, { minLength: 3, maxLength: 9 }), point, fc.nat(8), (ring, p, shift) => {
      const where = whereInRing(p, ring);
      const s = shift % ring.length;
      expect(whereInRing(p, [...ring.slice(s), ...ring.slice(0, s)])).toBe(where);
      expect(whereInRing(p, ring.toReversed())).toBe(where);
      const turned = ([x, y]: readonly [number, number]): Pt => [-y, x];
      expect(whereInRing(turned(p), ring.map(turned))).toBe(where);
    }),
    { numRuns: 2000, seed: 5 },
  );
});

test('a point is told from a boundary one rounding step away', () => {
  const triangle: Pt[] = [
    [0, 0],
    [3, 1],
    [0, 5],
  ];
  expect(whereInRing([1.5, 0.5], triangle)).toBe('boundary');
  expect(whereInRing([1.5, 0.5 - Number.EPSILON / 2], triangle)).toBe('outside');
  expect(whereInRing([1.5, 0.5 + Number.EPSILON], triangle)).toBe('inside');
});
