import { expect, test } from 'vitest';
import {
  COUNTER_STEP,
  USUAL_WIDTHS,
  type WidthRow,
  biasFromSquare,
  counterLength,
  planLay,
  squareForBias,
  widthTable,
} from '../../src/fabric';
import { garmentPieces, jobOf, pieceOf, rectangle } from '../fabric/madeUpPieces';

const INCH = 25.4; // international yard agreement, 1959 (from memory): 1 yd = 0.9144 m exactly
const YARD = 36 * INCH;

test('squares per yard of 42 in cloth agree with the quilters’ chart', () => {
  // quilterscache.com, 2002: squares per yard worked on 42 × 36 in; = floor(42/s) × floor(36/s)
  for (const [side, count] of [
    [5, 56],
    [6, 42],
    [7, 30],
    [8, 20],
    [10, 12],
    [12, 9],
  ] as const) {
    const squares = Array.from({ length: count }, (_, i) =>
      pieceOf(i + 1, rectangle(side * INCH, side * INCH)),
    );
    const job = jobOf(squares, { width: 42 * INCH });
    expect(planLay(job).length).toBeLessThanOrEqual(YARD + 1e-6);
    expect(
      planLay({ ...job, pieces: [...squares, pieceOf(count + 1, rectangle(side * INCH, side * INCH))] })
        .length,
    ).toBeGreaterThan(YARD);
  }
}, 120_000);

test('2.00 m at 3 % shrinkage needs 2.062 m, sold as 2.10 m', () => {
  // need / (1 − s): 2.00 m at 3 % = 2.062 m, computed from the formula; cotton shrinks 2–5 %, wikisum.wiki (n.d.)
  expect(2000 / 0.97).toBeCloseTo(2062, 0);
  expect(counterLength(2000, 3, 'cm')).toBe(2100);
  expect(counterLength(2000, 0, 'cm')).toBe(2000);
});

test('shops sell by 10 cm or by the eighth of a yard, always rounded up', () => {
  // 1/8 yd = 4.5 in = 114.3 mm: hookedonsewing.com yard table (n.d.) prints 11.4 cm; 10 cm steps: common practice, no source
  expect(COUNTER_STEP.in).toBeCloseTo(114.3, 9);
  expect(COUNTER_STEP.in * 8).toBeCloseTo(YARD, 9);
  expect(counterLength(YARD, 0, 'in')).toBeCloseTo(YARD, 9);
  expect(counterLength(YARD + 0.01, 0, 'in')).toBeCloseTo(YARD * 1.125, 9);
  expect(counterLength(0.1, 0, 'cm')).toBe(100);
  expect(counterLength(1000.0000000001, 0, 'cm')).toBe(1000);
  // the same table, rounded: 1/4 yd = 23 cm, 1/2 = 45.75, 3/4 = 68.5, 1 yd = 91.5
  for (const [yards, cm] of [
    [0.125, 11.4],
    [0.25, 23],
    [0.5, 45.75],
    [0.75, 68.5],
    [1, 91.5],
  ] as const)
    expect(Math.abs(counterLength(yards * YARD, 0, 'in') / 10 - cm)).toBeLessThan(0.15);
  // envelope sheet no. 212 (n.d.): 1 3/8 yd = 1.26 m, 1 3/4 = 1.60, 2 = 1.83, 2 1/2 = 2.29; rounding, so ±0.01 m
  for (const [yards, metres] of [
    [1.375, 1.26],
    [1.75, 1.6],
    [2, 1.83],
    [2.5, 2.29],
  ] as const) {
    expect(Math.abs(counterLength(yards * YARD, 0, 'in') / 1000 - metres)).toBeLessThan(0.01);
  }
});

test('150 cm cloth is computed as 1500 mm, not as 60 in', () => {
  // envelope pairs (printed envelope sheets nos. 148, 212, n.d.) say 60 in = 150 cm; exact is 152.4
  expect(USUAL_WIDTHS.cm).toEqual([900, 1150, 1400, 1500]);
  USUAL_WIDTHS.in.forEach((width, i) => expect(width).toBeCloseTo([914.4, 1143, 1371.6, 1524][i]!, 9));
});

test('folded cloth is half as wide: 60 in gives 30, 45 gives 22 1/2, 54 gives 27', () => {
  // Threads no. 151 (2010) for 60 and 45; 54 is computed, the page prints 26. A pair as wide as the folded cloth fits, one a
  // hundredth of an inch wider does not lie beside its image.
  for (const [width, half] of [
    [60, 30],
    [45, 22.5],
    [54, 27],
  ] as const) {
    const pair = (wide: number): ReturnType<typeof jobOf> =>
      jobOf(
        [false, true].map((flipped, i) => pieceOf(1, rectangle(500, wide * INCH), { copy: i + 1, flipped })),
        { width: width * INCH, layering: 'folded' },
      );
    expect(planLay(pair(half)).length).toBeCloseTo(500, 6);
    expect(planLay(pair(half + 0.01)).length).not.toBeCloseTo(500, 6);
  }
});

test('a piece wider than the cloth gets a problem instead of a length', () => {
  // About.com sewing (n.d.): where a piece is wider than the cloth the chart's length is useless
  const job = jobOf([pieceOf(1, rectangle(600, 1200))]);
  const { rows } = widthTable(job, planLay(job));
  for (const { entries } of rows) {
    expect(entries.map((e) => e.width)).toEqual([900, 1150, 1400, 1500]);
    expect(entries.map((e) => e.plan!.buy)).toEqual([0, 0, 600, 600]);
    expect(entries.map((e) => e.plan!.problems.length)).toEqual([1, 1, 0, 0]);
  }
});

/**
 * sewwithsarah.com "Fabric conversion chart" (n.d.), whole table seen: yards at 35–36, 44–45, 52–54 and 58–60 in, one project to a row.
 */
const CHART: readonly (readonly [number, number, number, number])[] = [
  [1.75, 1.375, 1.125, 1],
  [2, 1.625, 1.375, 1.25],
  [2.25, 1.75, 1.5, 1.375],
  [2.5, 2.125, 1.75, 1.625],
  [2.875, 2.25, 1.875, 1.75],
  [3.125, 2.5, 2, 1.875],
  [3.375, 2.75, 2.25, 2],
  [3.75, 2.875, 2.375, 2.25],
  [4.25, 3.125, 2.625, 2.375],
  [4.5, 3.375, 2.75, 2.625],
  [4.75, 3.625, 2.875, 2.75],
  [5, 3.875, 3.125, 2.875],
];
/** The chart's heads at their middle, in. */
const CHART_WIDTHS = [35.5, 44.5, 53, 59] as const;
const WIDTHS = [36, 45, 54, 60] as const;

/** Length × width over that of 45 in cloth, per width. */
const shares = (lengths: readonly number[], widths: readonly number[]): readonly number[] =>
  lengths.map((length, i) => (length * widths[i]!) / (lengths[1]! * widths[1]!));

/** The chart's own rows stay within −7.5 … +10 % of their 44–45 in cell: computed from it. A band, not an equality. */
const isInBand = (share: number): boolean => share >= 1 - 0.075 && share <= 1.1;

const lengthsOf = ({ entries }: WidthRow): readonly number[] => entries.map((e) => e.plan!.length);

test('the band is that of the published chart itself', () => {
  for (const row of CHART) {
    expect(shares(row, CHART_WIDTHS).every(isInBand)).toBe(true);
    expect(row.toSorted((a, b) => b - a)).toEqual(row);
  }
});

test('lengths for other widths stay within the band of the published chart for most made-up garments', () => {
  // Single jobs jump by a piece where the chart is smooth, so: on the average at every width, and in nine of ten entries. With the table's
  // usual search of 0.4 s all 60 entries of ten such jobs lay in the band (averages 1.006, 1.002 and 1.005).
  const jobs = Array.from({ length: 2 }, (_, i) =>
    jobOf(garmentPieces(201 + i, 12), { gap: 2, seconds: 0.15, units: 'in', width: 45 * INCH }),
  );
  const all = jobs.flatMap((job) => {
    const { rows } = widthTable(job, planLay(job), { seconds: 0.15 });
    return rows.map((row) => {
      expect(row.entries.map((e) => e.width / INCH)).toEqual(WIDTHS);
      return shares(lengthsOf(row), WIDTHS);
    });
  });
  for (const i of WIDTHS.keys()) {
    const mean = all.reduce((sum, row) => sum + row[i]!, 0) / all.length;
    expect(isInBand(mean)).toBe(true);
  }
  const entries = all.flatMap((row) => row.filter((_, i) => i !== 1));
  const outside = entries.filter((share) => !isInBand(share)).length;
  expect(outside / entries.length).toBeLessThan(0.1);
}, 120_000);

test('rows never increase to the right, and both ways never take more than one way', () => {
  // the chart's rows never increase to the right
  for (const more of [{}, { nap: true }, { layering: 'folded' }] as const) {
    const job = jobOf(garmentPieces(31, 6), { gap: 2, seconds: 0.01, width: 1300, ...more });
    // too narrow for a piece: no length would do
    const [oneWay, bothWays] = widthTable(job, planLay(job), { seconds: 0.01 }).rows.map((row) =>
      lengthsOf(row).map((length) => (length === 0 ? Infinity : length)),
    );
    for (const lengths of [oneWay!, bothWays!]) expect(lengths.toSorted((a, b) => b - a)).toEqual(lengths);
    oneWay!.forEach((length, i) => expect(bothWays![i]).toBeLessThanOrEqual(length));
  }
}, 120_000);

test('a square gives its area over the strip’s width, as a ceiling', () => {
  // mydecozo.co.uk forum (n.d.): 20 in, 2 in wide → 200 in. sewaquilt.com (n.d.): 12 in, 2 in wide → 72 in
  expect(biasFromSquare(20, 2, 0)).toBe(200);
  expect(biasFromSquare(12, 2, 0)).toBe(72);
  // a bias tutorial (n.d.): a 22 in square loses 1/4 in to its seams: 21.75² / 3 = 157.7 in
  expect(biasFromSquare(22 * INCH, 3 * INCH) / INCH).toBeCloseTo(157.7, 1);
});

test('the square for a length is rounded up to whole inches', () => {
  // mydecozo.co.uk: 250 × 2 → 22.36 → 23; quiltersquestiontime.com 2021: 100 × 3.5 → 18.71 → 19; getasquiltingstudio.com 2018: 55 × 2.5 → 12
  for (const [length, strip, side] of [
    [250, 2, 23],
    [100, 3.5, 19],
    [55, 2.5, 12],
  ] as const)
    expect(squareForBias(length * INCH, strip * INCH, 'in', 0) / INCH).toBeCloseTo(side, 9);
});
