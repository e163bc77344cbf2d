import { expect, test } from 'vitest';
import { signedAreaOfPoints } from '../../src/geometry';
import type { Pt } from '../../src/geometry';
import { sayProblem } from '../../src/pattern';
import { checkLay, placedOutline, planLay, startLay, WORK_PER_SECOND } from '../../src/fabric';
import type { LayPlan } from '../../src/fabric';
import { LaySpace } from '../../src/fabric/search/laySpace';
import { rowPlan } from '../../src/fabric/search/rowPlan';
import { seededRandom } from '../../src/fabric/search/random';
import { garmentPieces, jobOf, panelOutline, pieceOf, rectangle } from './madeUpPieces';

const rowLength = (job: ReturnType<typeof jobOf>): number => {
  const space = new LaySpace(job);
  return space.lengthOf(rowPlan(space));
};

test.each([
  ['squares that fill the cloth', Array.from({ length: 6 }, () => [300, 300]), 900, 600],
  [
    'two halves of the width',
    [
      [500, 450],
      [500, 450],
    ],
    900,
    500,
  ],
  [
    'a strip beside two blocks',
    [
      [1000, 100],
      [500, 800],
      [500, 800],
    ],
    900,
    1000,
  ],
  ['one piece', [[700, 300]], 900, 700],
  [
    'bricks in two courses',
    [
      [600, 300],
      [400, 300],
      [500, 300],
      [500, 300],
    ],
    600,
    1000,
  ],
] as const)('%s reach the shortest length there is', (_, sizes, width, best) => {
  const pieces = sizes.map(([l, w], i) => pieceOf(i + 1, rectangle(l!, w!)));
  const plan = planLay(jobOf(pieces, { width, seconds: 0.5 }));
  expect(plan.length).toBeCloseTo(best, 6);
  expect(plan.density).toBeCloseTo(
    pieces.reduce((a, p) => a + signedAreaOfPoints(p.cutting), 0) / (width * best),
    6,
  );
  expect(plan.placed).toHaveLength(sizes.length);
});

test('two right triangles lie as one rectangle, one of them turned by 180°', () => {
  const triangle: Pt[] = [
    [0, 0],
    [400, 0],
    [0, 900],
  ];
  const job = jobOf([pieceOf(1, triangle), pieceOf(2, triangle)], { width: 900, seconds: 0.2 });
  const plan = planLay(job);
  expect(plan.length).toBeCloseTo(400, 6);
  expect(plan.placed.map((p) => p.rotation).sort((a, b) => a - b)).toEqual([0, 180]);
  // with nap they may not be turned, so they cannot nest
  const nap = planLay({ ...job, nap: true });
  expect(nap.length).toBeCloseTo(800, 6);
  expect(nap.placed.every((p) => p.rotation === 0)).toBe(true);
});

test('the gap is kept between pieces and not lost at the selvedges', () => {
  const plan = planLay(
    jobOf(
      [1, 2, 3].map((i) => pieceOf(i, rectangle(200, 298))),
      { width: 898, gap: 2 },
    ),
  );
  expect(plan.length).toBeCloseTo(200, 6);
  const row = planLay(
    jobOf(
      [1, 2].map((i) => pieceOf(i, rectangle(200, 500))),
      { width: 900, gap: 5 },
    ),
  );
  expect(row.length).toBeCloseTo(405, 6);
});

test('the grain lies along the cloth and a mirrored copy is mirrored in its own x before it is turned', () => {
  const leaf: Pt[] = [
    [10, 20],
    [110, 60],
    [40, 220],
  ];
  const pieces = [
    pieceOf(1, leaf, { grainAngle: 70 }),
    pieceOf(1, leaf, { grainAngle: 70, copy: 2, flipped: true }),
  ];
  const job = jobOf(pieces, { nap: true });
  for (const [i, placed] of planLay(job).placed.entries()) {
    const grain = placedOutline(
      {
        ...pieces[i]!,
        cutting: [
          [0, 0],
          [Math.cos((70 * Math.PI) / 180), Math.sin((70 * Math.PI) / 180)],
        ],
      },
      placed,
    );
    expect(grain[1]![0] - grain[0]![0]).toBeCloseTo(1, 12);
    expect(grain[1]![1] - grain[0]![1]).toBeCloseTo(0, 12);
    const area = signedAreaOfPoints(placedOutline(pieces[i]!, placed));
    expect(area).toBeCloseTo((i === 0 ? 1 : -1) * signedAreaOfPoints(leaf), 6);
  }
});

test('turns of its own are kept for a piece that has them', () => {
  const job = jobOf([pieceOf(1, rectangle(800, 100), { turns: [90] })], { width: 900 });
  const plan = planLay(job);
  expect(plan.length).toBeCloseTo(100, 9);
  expect(plan.placed[0]!.rotation).toBe(90);
  expect(checkLay(job, plan.placed)).toEqual([]);
});

test('a panel wider than the cloth gives a problem and never a length', () => {
  const pieces = [
    pieceOf(1, rectangle(300, 200)),
    pieceOf(4, rectangle(300, 950)),
    pieceOf(4, rectangle(300, 950), { copy: 2 }),
  ];
  const plan = planLay(jobOf(pieces, { width: 900, seconds: 1 }));
  expect(plan).toMatchObject({ length: 0, buy: 0, density: 0, placed: [], width: 900 });
  expect(plan.problems).toHaveLength(1);
  expect(plan.problems[0]).toMatchObject({
    code: 'panel-wider-than-cloth',
    facts: { panel: 4, across: 950, width: 900 },
  });
  expect(sayProblem(plan.problems[0]!, 'cm')).toContain('Panel 4 is 95 cm across');
});

test('no pieces need no cloth', () => {
  expect(planLay(jobOf([], { seconds: 1 }))).toMatchObject({
    length: 0,
    buy: 0,
    density: 0,
    placed: [],
    problems: [],
  });
});

test('what to buy adds shrinkage and rounds up', () => {
  const job = jobOf([pieceOf(1, rectangle(970, 300))], { shrinkage: 3 });
  expect(planLay(job).buy).toBe(1000);
  expect(planLay({ ...job, shrinkage: 4 }).buy).toBe(1100);
  expect(planLay({ ...job, units: 'in' }).buy).toBeCloseTo(9 * 114.3, 9);
});

test('the same job gives the same plan to the last bit, in whatever slices it is run', () => {
  const job = jobOf(garmentPieces(3, 9), { gap: 2, seconds: 0.15, seed: 5 });
  const whole = planLay(job);
  expect(planLay(job)).toEqual(whole);
  for (const slice of [0.003, 0.11]) {
    const search = startLay(job);
    while (!search.done) search.step(WORK_PER_SECOND * slice);
    expect(search.best).toEqual(whole);
    expect(search.progress).toBe(1);
  }
}, 30_000);

test('plans only get shorter while the search runs, the first is there at once, and step says when there is a new one', () => {
  const job = jobOf(garmentPieces(8, 12), { gap: 2, seconds: 0.4 });
  const search = startLay(job);
  let best: LayPlan = search.best;
  expect(checkLay(job, best.placed)).toEqual([]);
  let changes = 0;
  let progress = 0;
  while (!search.done) {
    const changed = search.step(WORK_PER_SECOND / 50);
    expect(changed).toBe(search.best !== best);
    if (changed) {
      changes += 1;
      expect(search.best.length).toBeLessThan(best.length);
      expect(checkLay(job, search.best.placed)).toEqual([]);
    }
    best = search.best;
    expect(search.progress).toBeGreaterThanOrEqual(progress);
    progress = search.progress;
  }
  expect(changes).toBeGreaterThan(2);
}, 30_000);

test('no plan is longer than the row-by-row lay, nor shorter than its area allows', () => {
  for (let seed = 1; seed <= 12; seed += 1) {
    const job = jobOf(garmentPieces(seed, 2 + (seed % 9)), {
      gap: 2,
      width: 1100,
      seconds: seed % 3 === 0 ? 0.1 : 0,
    });
    const plan = planLay(job);
    expect(plan.length).toBeLessThanOrEqual(rowLength(job) + 1e-9);
    expect(plan.density).toBeGreaterThan(0);
    expect(plan.density).toBeLessThanOrEqual(1);
  }
}, 30_000);

test('very many different pieces are laid soundly and better than in rows', () => {
  const job = jobOf(garmentPieces(40, 70), { gap: 2, seconds: 0.5 });
  const plan = planLay(job);
  expect(checkLay(job, plan.placed)).toEqual([]);
  expect(plan.length).toBeLessThan(rowLength(job));
}, 30_000);

test('pieces with slits, needles and cutting lines that cross themselves are still laid soundly', () => {
  const slit: Pt[] = [
    [0, 0],
    [200, 0],
    [200, 300],
    [101, 300],
    [101, 20],
    [100, 20],
    [100, 300],
    [0, 300],
  ];
  const needle: Pt[] = [
    [0, 0],
    [600, 0.2],
    [0, 0.4],
  ];
  const bowTie: Pt[] = [
    [0, 0],
    [200, 200],
    [200, 0],
    [0, 200],
  ];
  const job = jobOf([pieceOf(1, slit), pieceOf(2, needle), pieceOf(3, bowTie), pieceOf(4, slit)], {
    gap: 4,
    seconds: 0.3,
    width: 450,
  });
  const plan = planLay(job);
  expect(plan.placed).toHaveLength(4);
  expect(checkLay(job, plan.placed)).toEqual([]);
});

test.each([
  ['no width', { width: 0 }],
  ['a width that is not a number', { width: NaN }],
  ['a negative gap', { gap: -1 }],
  ['an endless budget', { seconds: Infinity }],
])('a job with %s is refused', (_, more) => {
  expect(() => planLay(jobOf([pieceOf(1, rectangle(10, 10))], more))).toThrow(RangeError);
});

test('a cutting line with broken numbers or without area is refused', () => {
  expect(() =>
    planLay(
      jobOf([
        pieceOf(1, [
          [0, 0],
          [NaN, 0],
          [5, 5],
        ]),
      ]),
    ),
  ).toThrow(RangeError);
  expect(() =>
    planLay(
      jobOf([
        pieceOf(1, [
          [0, 0],
          [1, 0],
        ]),
      ]),
    ),
  ).toThrow(RangeError);
  expect(() =>
    planLay(
      jobOf([
        pieceOf(1, [
          [0, 0],
          [1, 0],
          [2, 0],
        ]),
      ]),
    ),
  ).toThrow(RangeError);
});

test('the same seed gives the same row of random numbers, spread over 0 to 1', () => {
  const [a, b, c] = [seededRandom(9), seededRandom(9), seededRandom(10)];
  const row = Array.from({ length: 2000 }, () => a());
  expect(Array.from({ length: 2000 }, () => b())).toEqual(row);
  expect(c()).not.toBe(row[0]);
  expect(row.every((r) => r >= 0 && r < 1)).toBe(true);
  expect(row.reduce((s, r) => s + r, 0) / row.length).toBeCloseTo(0.5, 1);
  expect(panelOutline(seededRandom(2))).toEqual(panelOutline(seededRandom(2)));
});
