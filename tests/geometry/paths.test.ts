import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asOuterRing,
  centroidOfPoints,
  chordCount,
  curveLength,
  distanceToSegment,
  endOf,
  flattenPath,
  flattenRing,
  isClosed,
  lengthAt,
  nearestOnPath,
  pathBox,
  pathLength,
  pathThrough,
  pointAt,
  pointAtLength,
  pointOn,
  refAtLength,
  reversePath,
  signedArea,
  signedAreaOfPoints,
  startOf,
  subPath,
  sweptArea,
  transformPath,
  type Cubic,
  type Curve,
  type Path,
  type Pt,
} from '../../src/geometry';

const near = (a: number, b: number, within: number): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(within);
const nearPoint = (a: Pt, b: Pt, within: number): void =>
  near(Math.hypot(a[0] - b[0], a[1] - b[1]), 0, within);

const number = fc.integer({ min: -300, max: 300 });
const point = fc.tuple(number, number);
const cubic = fc.tuple(point, point, point, point) as fc.Arbitrary<Cubic>;

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

describe('paths', () => {
  const path: Path = [
    [
      [0, 0],
      [30, 40],
    ],
    quarterFrom([30, 40]),
    [
      [-70, 140],
      [-70, 200],
    ],
  ];
  function quarterFrom([x, y]: Pt): Curve {
    return quarter(100).map(([u, v]): Pt => [x - 100 + u, y + v]) as unknown as Curve;
  }

  test('start, end and closedness', () => {
    expect(startOf(path)).toEqual([0, 0]);
    expect(endOf(path)).toEqual([-70, 200]);
    expect(isClosed(path)).toBe(false);
    expect(
      isClosed(
        pathThrough(
          [
            [0, 0],
            [1, 0],
            [1, 1],
          ],
          true,
        ),
      ),
    ).toBe(true);
    expect(isClosed([])).toBe(false);
    expect(() => startOf([])).toThrow(RangeError);
    expect(() => endOf([])).toThrow(RangeError);
    expect(() => nearestOnPath([], [0, 0])).toThrow(RangeError);
  });

  test('lengths and places undo each other', () => {
    const total = pathLength(path);
    near(total, 50 + curveLength(path[1]!) + 60, 1e-9);
    for (const s of [0, 10, 50, 100, total - 60, total]) near(lengthAt(path, refAtLength(path, s)), s, 1e-5);
    expect(refAtLength(path, -5)).toEqual({ index: 0, t: 0 });
    expect(refAtLength(path, total + 5)).toEqual({ index: 2, t: 1 });
    expect(pointAtLength(path, 25)).toEqual({ point: [15, 20], direction: [0.6, 0.8] });
  });

  test('a part of a path runs from place to place, through the start where it must', () => {
    const ring = pathThrough(
      [
        [0, 0],
        [10, 0],
        [10, 10],
        [0, 10],
      ],
      true,
    );
    expect(subPath(ring, { index: 0, t: 0.5 }, { index: 2, t: 0.5 })).toEqual([
      [
        [5, 0],
        [10, 0],
      ],
      [
        [10, 0],
        [10, 10],
      ],
      [
        [10, 10],
        [5, 10],
      ],
    ]);
    expect(subPath(ring, { index: 3, t: 0.5 }, { index: 0, t: 0.5 })).toEqual([
      [
        [0, 5],
        [0, 0],
      ],
      [
        [0, 0],
        [5, 0],
      ],
    ]);
    expect(subPath(ring, { index: 1, t: 0.5 }, { index: 1, t: 0.5 })).toEqual([]);
  });

  test('the nearest place of a path is on the nearest curve', () => {
    const found = nearestOnPath(path, [-80, 170]);
    expect(found).toMatchObject({ index: 2, t: 0.5, distance: 10 });
    expect(pointOn(path, found)).toEqual([-70, 170]);
  });

  test('a reversed path has the same points the other way', () => {
    expect(reversePath(reversePath(path))).toEqual(path);
    expect(startOf(reversePath(path))).toEqual(endOf(path));
  });

  test('the box of nothing is upside down', () => {
    expect(pathBox([]).minX).toBe(Infinity);
    expect(pathBox(path)).toEqual({ minX: -70, minY: 0, maxX: 30, maxY: 200 });
  });
});

describe('chords', () => {
  test('no chord leaves its curve by more than the sagitta', () => {
    fc.assert(
      fc.property(cubic, (c) => {
        const { points, refs } = flattenPath([c], 0.02);
        points.slice(1).forEach((q, i) => {
          const end = refs[i + 1]!.t;
          for (const k of [0.25, 0.5, 0.75]) {
            const p = pointAt(c, refs[i]!.t + (end - refs[i]!.t) * k);
            expect(distanceToSegment(p, points[i]!, q).distance).toBeLessThanOrEqual(0.02 + 1e-9);
          }
        });
      }),
      { numRuns: 100, seed: 6 },
    );
  });

  test('every point knows its place; corners are kept; a ring does not repeat its first point', () => {
    const path: Path = [
      [
        [0, 0],
        [10, 0],
      ],
      [
        [10, 0],
        [20, 10],
        [20, 20],
        [10, 30],
      ],
      [
        [10, 30],
        [0, 0],
      ],
    ];
    const flat = flattenPath(path, 0.02, true);
    flat.points.forEach((p, i) => nearPoint(p, pointOn(path, flat.refs[i]!), 1e-12));
    expect(flat.points.filter((p) => p[0] === 0 && p[1] === 0).length).toBe(1);
    expect(flattenRing(path)).toEqual(flat.points);
    expect(flattenPath(path, 0.02).points.at(-1)).toEqual([0, 0]);
    expect(flattenPath([])).toEqual({ points: [], refs: [] });
  });

  test('however large a curve, its chords can be counted', () => {
    expect(
      chordCount(
        [
          [0, 0],
          [1e300, 0],
          [0, 1e300],
          [1, 1],
        ],
        0.02,
      ),
    ).toBe(4096);
    expect(
      chordCount(
        [
          [0, 0],
          [1, 0],
          [2, 0],
          [3, 0],
        ],
        0.02,
      ),
    ).toBe(1);
  });
});

describe('areas', () => {
  test('the area of a ring of curves is that of its fine chords', () => {
    fc.assert(
      fc.property(fc.array(cubic, { minLength: 1, maxLength: 4 }), (curves) => {
        const ring = curves.map((c, i): Curve => [c[0], c[1], c[2], curves[(i + 1) % curves.length]![0]]);
        const fine = ring.flatMap((c) => Array.from({ length: 2000 }, (_, i) => pointAt(c, i / 2000)));
        near(signedArea(ring), signedAreaOfPoints(fine), 0.2);
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  test('four quarter circles have nearly the circle’s area, positive from +x to +y, negative run backwards', () => {
    const turn = ([x, y]: Pt): Pt => [-y, x];
    const ring: Path = [0, 1, 2, 3].map((n) => {
      let c: Curve = quarter(100);
      for (let i = 0; i < n; i += 1) c = c.map(turn) as unknown as Curve;
      return c;
    });
    near(signedArea(ring), Math.PI * 1e4, 10);
    near(signedArea(reversePath(ring)), -signedArea(ring), 1e-9);
    expect(asOuterRing(reversePath(ring))).toEqual(ring);
    expect(signedArea([])).toBe(0);
  });

  test('far from the origin no digits are lost', () => {
    const ring = pathThrough(
      [
        [0, 0],
        [1, 0],
        [1, 1],
        [0, 1],
      ],
      true,
    );
    near(signedArea(transformPath(ring, [1, 0, 0, 1, 1e8, 1e8])), 1, 1e-12);
  });

  test('areas swept from any point add up to the ring’s', () => {
    const ring: Path = [
      [
        [0, 0],
        [10, 0],
      ],
      [
        [10, 0],
        [20, 10],
        [20, 20],
        [10, 30],
      ],
      [
        [10, 30],
        [0, 0],
      ],
    ];
    for (const from of [
      [0, 0],
      [50, -70],
    ] as const)
      near(sweptArea(ring, from), signedArea(ring), 1e-9);
  });

  test('the centre of area of a triangle is the mean of its corners', () => {
    nearPoint(
      centroidOfPoints([
        [0, 0],
        [30, 0],
        [0, 60],
      ]),
      [10, 20],
      1e-12,
    );
    expect(
      centroidOfPoints([
        [5, 5],
        [5, 5],
      ]),
    ).toEqual([5, 5]);
    expect(() => centroidOfPoints([])).toThrow(RangeError);
  });
});
