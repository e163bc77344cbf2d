import { expect, test } from 'vitest';
import type { Path, Pt } from '../../src/geometry';
import { pathLength } from '../../src/geometry';
import { bendOf, stripEdges } from '../../src/trim';

/** An arc about the origin in `parts` cubics (handles 4/3·tan(φ/4)): radius exact to 1e-9 for small parts. */
function arc(radius: number, sweep: number, parts = 24): Path {
  const phi = sweep / parts;
  const k = (4 / 3) * Math.tan(phi / 4);
  const at = (a: number): Pt => [radius * Math.cos(a), radius * Math.sin(a)];
  const handle = (a: number, d: number): Pt => [
    radius * (Math.cos(a) - d * k * Math.sin(a)),
    radius * (Math.sin(a) + d * k * Math.cos(a)),
  ];
  return Array.from(
    { length: parts },
    (_, i) => [at(i * phi), handle(i * phi, 1), handle((i + 1) * phi, -1), at((i + 1) * phi)] as const,
  );
}

test('a 25 mm band on a quarter turn of 200 mm radius has edges of 333.794 and 294.524 mm', () => {
  // offset length L ± (w/2)·Δθ: Q&A derivation (math.techqa.club, 2026), parallel curves at MathWorld (Weisstein);
  // worked values computed from it
  const path = arc(200, Math.PI / 2);
  const [outer, inner] = stripEdges(pathLength(path), 25, bendOf(path, false).turning);
  expect(pathLength(path)).toBeCloseTo(314.159, 2);
  expect(outer).toBeCloseTo(333.794, 2);
  expect(inner).toBeCloseTo(294.524, 2);
  expect(outer - inner).toBeCloseTo(39.27, 2);
});

test('the same curve run backwards swaps the edges', () => {
  const path = arc(200, -Math.PI / 2);
  const [left, right] = stripEdges(pathLength(path), 25, bendOf(path, false).turning);
  expect(left).toBeCloseTo(294.524, 2);
  expect(right).toBeCloseTo(333.794, 2);
});

test('edges of a strip are as long as parallel curves measured point by point', () => {
  const path: Path = [
    [
      [0, 0],
      [150, -40],
      [260, 90],
      [300, 240],
    ],
    [
      [300, 240],
      [340, 390],
      [200, 420],
      [120, 400],
    ],
  ];
  const bend = bendOf(path, false);
  const width = 12;
  const along = (offset: number): number => {
    let [sum, last] = [0, null as Pt | null];
    for (const [a, b, c, d] of path as readonly (readonly [Pt, Pt, Pt, Pt])[]) {
      for (let k = 0; k <= 4000; k += 1) {
        const t = k / 4000;
        const u = 1 - t;
        const at = (i: 0 | 1): number =>
          u ** 3 * a[i] + 3 * u * u * t * b[i] + 3 * u * t * t * c[i] + t ** 3 * d[i];
        const slope = (i: 0 | 1): number =>
          3 * u * u * (b[i] - a[i]) + 6 * u * t * (c[i] - b[i]) + 3 * t * t * (d[i] - c[i]);
        const l = Math.hypot(slope(0), slope(1));
        const p: Pt = [at(0) + (slope(1) / l) * offset, at(1) - (slope(0) / l) * offset];
        if (last) sum += Math.hypot(p[0] - last[0], p[1] - last[1]);
        last = p;
      }
    }
    return sum;
  };
  const [left, right] = stripEdges(pathLength(path), width, bend.turning);
  expect(left).toBeCloseTo(along(width / 2), 1);
  expect(right).toBeCloseTo(along(-width / 2), 1);
});

test.each([
  [50, 6, 0.06],
  [50, 15, 0.15],
  [100, 15, 0.075],
  [200, 25, 0.0625],
  [300, 38, 0.063],
])('edge strain on radius %d mm with a %d mm band is %f', (radius, width, strain) => {
  // w/(2R): computed from the formula
  const { tightest } = bendOf(arc(radius, Math.PI / 2), false);
  expect(tightest.radius).toBeCloseTo(radius, 2);
  expect(width / (2 * tightest.radius)).toBeCloseTo(strain, 3);
});

test('a full circle turns by 2π and a straight line not at all', () => {
  expect(bendOf(arc(80, 2 * Math.PI), true).turning).toBeCloseTo(2 * Math.PI, 9);
  expect(
    bendOf(
      [
        [
          [0, 0],
          [100, 30],
        ],
      ],
      false,
    ),
  ).toEqual({ turning: 0, tightest: { radius: Infinity, at: null }, corners: [], turns: [] });
});
