import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  add,
  applyMatrix,
  asCubic,
  controlBox,
  curvatureAt,
  curveLength,
  derivativeAt,
  directionAt,
  distance,
  distanceToSegment,
  lengthOfPoints,
  mirrorAcross,
  multiply,
  nearestOnCurve,
  parameterAtLength,
  perpendicular,
  pointAt,
  scale,
  splitCurve,
  subCurve,
  subtract,
  unit,
  withEnds,
  type Cubic,
  type Pt,
} from '../../src/geometry';

const near = (a: number, b: number, within: number): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(within);
const nearPoint = (a: Pt, b: Pt, within: number): void =>
  near(Math.hypot(a[0] - b[0], a[1] - b[1]), 0, within);

const number = fc.integer({ min: -300, max: 300 });
const point = fc.tuple(number, number);
const cubic = fc.tuple(point, point, point, point) as fc.Arbitrary<Cubic>;
const parameter = fc.integer({ min: 0, max: 1000 }).map((v) => v / 1000);
const runs = { numRuns: 300, seed: 3 };

/** A quarter circle as a cubic with the usual handle length 4/3·(√2 − 1)·r; leaves the circle by 2.7e-4·r at most (Riškus 2006, from memory). */
const quarter = (r: number): Cubic => {
  const k = (r * 4 * (Math.SQRT2 - 1)) / 3;
  return [
    [r, 0],
    [r, k],
    [k, r],
    [0, r],
  ];
};

describe('vectors', () => {
  test('a perpendicular turns +x to +y, and inwards for a ring with positive area', () => {
    expect(perpendicular([1, 0])).toEqual([-0, 1]);
  });

  test('the unit vector of nothing is nothing', () => {
    expect(unit([0, 0])).toEqual([0, 0]);
    expect(unit([3, 4])).toEqual([0.6, 0.8]);
  });

  test('distance to a segment is to its end beyond its ends, to its inside between', () => {
    expect(distanceToSegment([5, 3], [0, 0], [10, 0])).toEqual({ distance: 3, t: 0.5 });
    expect(distanceToSegment([13, 4], [0, 0], [10, 0])).toEqual({ distance: 5, t: 1 });
    expect(distanceToSegment([3, 4], [0, 0], [0, 0])).toEqual({ distance: 5, t: 0 });
  });

  test('matrices chain as they apply', () => {
    const [a, b]: [Parameters<typeof multiply>[0], Parameters<typeof multiply>[1]] = [
      [1, 2, 3, 4, 5, 6],
      [-2, 1, 0, 3, 7, 8],
    ];
    expect(applyMatrix(multiply(a, b), [10, 20])).toEqual(applyMatrix(a, applyMatrix(b, [10, 20])));
  });

  test('a mirror keeps its line, turns areas round and undoes itself', () => {
    const m = mirrorAcross([
      [10, 20],
      [50, 60],
    ]);
    nearPoint(applyMatrix(m, [30, 40]), [30, 40], 1e-12);
    nearPoint(applyMatrix(m, applyMatrix(m, [1, 2])), [1, 2], 1e-12);
    nearPoint(applyMatrix(m, [0, 10]), [0, 10], 1e-12);
    nearPoint(applyMatrix(m, [10, 0]), [-10, 20], 1e-12);
    expect(() =>
      mirrorAcross([
        [1, 1],
        [1, 1],
      ]),
    ).toThrow(RangeError);
  });

  test('the length of a polyline is the sum of its stretches', () => {
    expect(
      lengthOfPoints([
        [0, 0],
        [3, 4],
        [3, 14],
      ]),
    ).toBe(15);
    expect(lengthOfPoints([[1, 1]])).toBe(0);
  });
});

describe('curves', () => {
  test('derivative, direction and curvature agree with small differences', () => {
    fc.assert(
      fc.property(cubic, fc.integer({ min: 1, max: 9 }), (c, tenth) => {
        const t = tenth / 10;
        const h = 1e-5;
        const d = scale(subtract(pointAt(c, t + h), pointAt(c, t - h)), 1 / (2 * h));
        nearPoint(derivativeAt(c, t), d, 1e-4);
        const speed = Math.hypot(d[0], d[1]);
        if (speed < 20) return;
        const [p, q] = [directionAt(c, t - h), directionAt(c, t + h)];
        const turned = Math.atan2(p[0] * q[1] - p[1] * q[0], p[0] * q[0] + p[1] * q[1]);
        near(curvatureAt(c, t), turned / (speed * 2 * h), 1e-3 * Math.max(1, Math.abs(curvatureAt(c, t))));
      }),
      runs,
    );
  });

  test('a handle on its end still has a direction', () => {
    const [p, q]: [Pt, Pt] = [
      [0, 0],
      [10, 10],
    ];
    nearPoint(directionAt([p, p, [10, 0], q], 0), [1, 0], 0);
    nearPoint(directionAt([p, [0, 10], q, q], 1), [1, 0], 1e-12);
    nearPoint(directionAt([p, p, q, q], 0), [Math.SQRT1_2, Math.SQRT1_2], 1e-12);
    expect(directionAt([q, q], 0)).toEqual([1, 0]);
  });

  test('splitting changes no point, and both parts share the very same one', () => {
    fc.assert(
      fc.property(cubic, parameter, parameter, (c, t, u) => {
        const [a, b] = splitCurve(c, t);
        expect(a[a.length - 1]).toBe(b[0]);
        nearPoint(pointAt(a, u), pointAt(c, t * u), 1e-9);
        nearPoint(pointAt(b, u), pointAt(c, t + (1 - t) * u), 1e-9);
      }),
      runs,
    );
  });

  test('a part of a curve is the curve there, either way round', () => {
    fc.assert(
      fc.property(cubic, parameter, parameter, parameter, (c, t0, t1, u) => {
        nearPoint(pointAt(subCurve(c, t0, t1), u), pointAt(c, t0 + (t1 - t0) * u), 1e-9);
      }),
      runs,
    );
  });

  test('moved ends move the curve by no more than the ends', () => {
    fc.assert(
      fc.property(cubic, parameter, (c, t) => {
        const moved = withEnds(c, add(c[0], [0.3, 0.4]), c[3]);
        expect(distance(pointAt(moved, t), pointAt(c, t))).toBeLessThanOrEqual(0.5 + 1e-9);
      }),
      runs,
    );
  });

  test('the length of a quarter circle is a quarter of its round, and of any curve that of fine chords', () => {
    near(curveLength(quarter(100)), 50 * Math.PI, 0.05);
    fc.assert(
      fc.property(cubic, (c) => {
        const points = Array.from({ length: 20001 }, (_, i) => pointAt(c, i / 20000));
        const chords = lengthOfPoints(points);
        near(curveLength(c), chords, 1e-5 * Math.max(1, chords));
      }),
      { numRuns: 40, seed: 4 },
    );
  });

  test('the place at a length has that length before it', () => {
    fc.assert(
      fc.property(cubic, parameter, (c, share) => {
        const total = curveLength(c);
        near(curveLength(c, 0, parameterAtLength(c, share * total)), share * total, 1e-5);
      }),
      runs,
    );
  });

  test('the nearest point is as near as the nearest of ten thousand, loops and all', () => {
    fc.assert(
      fc.property(cubic, point, (c, p) => {
        const best = Math.min(...Array.from({ length: 10001 }, (_, i) => distance(p, pointAt(c, i / 10000))));
        const found = nearestOnCurve(c, p);
        expect(found.distance).toBeLessThanOrEqual(best + 1e-9);
        nearPoint(found.point, pointAt(c, found.t), 1e-12);
      }),
      runs,
    );
  });

  test('the box of the control points holds the curve', () => {
    fc.assert(
      fc.property(cubic, parameter, (c, t) => {
        const b = controlBox(c);
        const [x, y] = pointAt(c, t);
        expect(x >= b.minX - 1e-9 && x <= b.maxX + 1e-9 && y >= b.minY - 1e-9 && y <= b.maxY + 1e-9).toBe(
          true,
        );
      }),
      runs,
    );
  });

  test('a straight stretch as a cubic has the same points at the same parameters', () => {
    nearPoint(
      pointAt(
        asCubic([
          [1, 2],
          [31, 62],
        ]),
        0.3,
      ),
      [10, 20],
      1e-12,
    );
  });
});
