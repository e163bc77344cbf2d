import { expect, test } from 'vitest';
import {
  asOuterRing,
  centroidOfPoints,
  curveLength,
  parameterAtLength,
  pathLength,
  pathThrough,
  signedArea,
  signedAreaOfPoints,
  type Cubic,
  type Curve,
  type Polyline,
  type Pt,
  type Ring,
} from '../../src/geometry';
import { randomFrom } from '../geometry/randomDrawings';

test('the shoelace area of the published pentagon is 30', () => {
  // Rosetta Code, task "Shoelace formula for polygonal area"; listed clockwise with y up, so positive here with y down.
  const pentagon: Polyline = [
    [3, 4],
    [5, 11],
    [12, 8],
    [9, 5],
    [5, 6],
  ];
  expect(Math.abs(signedAreaOfPoints(pentagon))).toBe(30);
  expect(signedAreaOfPoints(pentagon)).toBe(-signedAreaOfPoints(pentagon.toReversed()));
  expect(signedArea(asOuterRing(pathThrough(pentagon, true)))).toBeCloseTo(30, 12);
});

test('published centroids come out', () => {
  // tooldone.com worked example: triangle of area 6.
  const triangle: Polyline = [
    [0, 0],
    [4, 0],
    [2, 3],
  ];
  expect(Math.abs(signedAreaOfPoints(triangle))).toBe(6);
  expect(centroidOfPoints(triangle)).toEqual([2, 1]);
  // mathix.co worked example, recomputed: area 18, not the mean of the corners.
  const [x, y] = centroidOfPoints([
    [5, 4],
    [8, 2],
    [7, -2],
    [4, -4],
  ]);
  expect(x).toBeCloseTo(158 / 27, 12);
  expect(y).toBeCloseTo(1 / 9, 12);
  // UVa 10002 sample (printed to three decimals); area computed.
  const heptagon: Polyline = [
    [-4, -10],
    [-7, -12],
    [-9, -8],
    [-8, -3],
    [-6, -3],
    [-4, -4],
    [-3, -6],
  ];
  const [hx, hy] = centroidOfPoints(heptagon);
  expect(Math.abs(signedAreaOfPoints(heptagon))).toBe(37.5);
  expect(hx).toBeCloseTo(-6.102, 3);
  expect(hy).toBeCloseTo(-7.089, 3);
});

const k = (4 / 3) * (Math.SQRT2 - 1);
const quarter = (r: number): Cubic => [
  [r, 0],
  [r, k * r],
  [k * r, r],
  [0, r],
];

test('the quarter circle of one cubic has the published length and area', () => {
  // Mortensen, "Approximate a circle with cubic Bézier curves": k = 4/3(√2 − 1); length 1.5710167 R, circle area 3.1424723 R² (computed).
  for (const r of [1, 100, 200]) {
    expect(curveLength(quarter(r)) / r).toBeCloseTo(1.5710167, 6);
    const circle: Ring = [0, 1, 2, 3].map(
      (turns) => quarter(r).map((p) => turned(p, turns)) as unknown as Curve,
    );
    expect(signedArea(circle) / (r * r)).toBeCloseTo(3.1424723, 6);
    expect(pathLength(circle) / r).toBeCloseTo(4 * 1.5710167, 5);
  }
  expect(k).toBeCloseTo(0.5522847498, 10);
});

function turned([x, y]: Pt, quarters: number): Pt {
  return quarters === 0 ? [x, y] : turned([-y, x], quarters - 1);
}

/** Simpson's rule, fine steps: independent of closed forms and of Gauss points. */
function simpson(f: (t: number) => number, steps = 2000): number {
  let sum = f(0) + f(1);
  for (let i = 1; i < steps; i += 1) sum += f(i / steps) * (i % 2 === 1 ? 4 : 2);
  return sum / (3 * steps);
}

const at = (c: Cubic, t: number, axis: 0 | 1): number =>
  (1 - t) ** 3 * c[0][axis] +
  3 * (1 - t) ** 2 * t * c[1][axis] +
  3 * (1 - t) * t * t * c[2][axis] +
  t ** 3 * c[3][axis];
const slope = (c: Cubic, t: number, axis: 0 | 1): number =>
  3 * (1 - t) ** 2 * (c[1][axis] - c[0][axis]) +
  6 * (1 - t) * t * (c[2][axis] - c[1][axis]) +
  3 * t * t * (c[3][axis] - c[2][axis]);

function randomLoop(random: () => number): Ring {
  const point = (): Pt => [500 + random() * 300, -900 + random() * 300];
  const corners = [point(), point(), point(), point()];
  return corners.map((p, i): Cubic => [p, point(), point(), corners[(i + 1) % 4]!]);
}

test('areas of curved rings agree with quadrature of ∮ (x dy − y dx) / 2', () => {
  const random = randomFrom(3);
  for (let i = 0; i < 200; i += 1) {
    const ring = randomLoop(random) as readonly Cubic[];
    const [x0, y0] = ring[0]![0];
    const byRule = ring.reduce(
      (sum, c) =>
        sum + simpson((t) => (at(c, t, 0) - x0) * slope(c, t, 1) - (at(c, t, 1) - y0) * slope(c, t, 0)) / 2,
      0,
    );
    expect(Math.abs(signedArea(ring) - byRule)).toBeLessThan(1e-5);
  }
});

test('curve lengths and points at a length agree with quadrature', () => {
  const random = randomFrom(4);
  for (let i = 0; i < 100; i += 1) {
    const c = randomLoop(random)[0] as Cubic;
    const speed = (t: number): number => Math.hypot(slope(c, t, 0), slope(c, t, 1));
    const whole = simpson(speed, 20_000);
    expect(Math.abs(curveLength(c) - whole)).toBeLessThan(2e-5);
    const t = parameterAtLength(c, whole / 3);
    expect(Math.abs(simpson((u) => t * speed(u * t), 20_000) - whole / 3)).toBeLessThan(2e-5);
  }
});
