import { expect, test } from 'vitest';
import type { Path, Pt } from '../../src/geometry';
import { pathLength } from '../../src/geometry';
import { type ColourId, contrast } from '../../src/pattern';
import { bendOf, joinsIn, mitresOf, shownThrough, strainAlong, stripEdges } from '../../src/trim';

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

test('a mitred frame is as long as its outer edge: four corners of 90° take one width each', () => {
  // geometry of the fold: the outer edge of a w wide frame on a square of side a is 4·(a + w)
  const frame: Path = [
    [
      [0, 0],
      [100, 0],
    ],
    [
      [100, 0],
      [100, 100],
    ],
    [
      [100, 100],
      [0, 100],
    ],
    [
      [0, 100],
      [0, 0],
    ],
  ];
  expect(pathLength(frame) + mitresOf(bendOf(frame, true), 12)).toBeCloseTo(4 * (100 + 12), 9);
});

test('square-cut ends joined on the diagonal lose one strip width to a join', () => {
  // pieced on the straight grain: vindyarchives.com (2004-10-23), stitchingrules.com; one width a join follows from the 45° seam
  const sold = { soldIn: 1000, width: 40, shrinkage: 0 };
  for (const [length, joins] of [
    [1000, 0],
    [1000.1, 1],
    [1960, 1],
    [1960.1, 2],
    [2920, 2],
  ] as const) {
    expect(joinsIn(length, sold)).toBe(joins);
    expect((joins + 1) * 1000).toBeGreaterThanOrEqual(length + joins * 40);
  }
});

test.each([
  ['#000000', 21],
  ['#767676', 4.5422],
  ['#777777', 4.4781],
  ['#949494', 3.0335],
  ['#595959', 7.0047],
  ['#ff0000', 3.9985],
  ['#0000ff', 8.5925],
  ['#ffff00', 1.0738],
])('the contrast of %s with white is %f', (fill, ratio) => {
  // WCAG 2 (W3C) formula; pairs from public checkers, recomputed
  expect(contrast(fill, '#ffffff')).toBeCloseTo(ratio, 4);
});

test('white shows what contrasts with it by 3 or more, and a dark trim shows nothing', () => {
  // 3 : 1 is WCAG 2's bound for graphics; that cloth is seen through from there on is common practice, no source
  const under = (fill: string): { id: ColourId; fill: string }[] => [{ id: 'c' as ColourId, fill }];
  expect(shownThrough('#ffffff', under('#949494'))?.how).toBe('darker');
  expect(shownThrough('#ffffff', under('#ffff00'))).toBeNull();
  expect(shownThrough('#000000', under('#ffffff'))).toBeNull();
  expect(shownThrough('#ffffff', [...under('#ffffff'), { id: 'd' as ColourId, fill: '#777777' }])?.how).toBe(
    'two shades',
  );
});

test('strain along an arc is w/(2R) everywhere, and nothing on a straight line', () => {
  for (const s of strainAlong(arc(100, Math.PI / 2), 15, 5)) expect(s.strain).toBeCloseTo(0.075, 4);
  expect(
    strainAlong(
      [
        [
          [0, 0],
          [50, 0],
        ],
      ],
      15,
      5,
    ),
  ).toEqual([]);
});
