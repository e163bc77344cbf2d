import { expect, test } from 'vitest';
import { boxOfPoints } from '../../src/geometry';
import type { Pt } from '../../src/geometry';
import type { RemnantId } from '../../src/pattern';
import { checkLay, placedOutline, planLay, startLay, WORK_PER_SECOND } from '../../src/fabric';
import type { ClothPiece, LayJob, LayPlan } from '../../src/fabric';
import { LaySpace } from '../../src/fabric/search/laySpace';
import { rowPlan } from '../../src/fabric/search/rowPlan';
import { garmentPieces, jobOf, pieceOf, rectangle } from './madeUpPieces';

const outlines = (job: LayJob, plan: LayPlan): Pt[][] =>
  plan.placed.map((at, i) => placedOutline(job.pieces[i]!, at));

const rowLength = (job: LayJob): number => {
  const space = new LaySpace(job);
  return space.lengthOf(rowPlan(space));
};

const pairOf = (number: number, cutting: readonly Pt[], more: Partial<ClothPiece> = {}): ClothPiece[] => [
  pieceOf(number, cutting, more),
  pieceOf(number, cutting, { ...more, copy: 2, flipped: true }),
];

/** Where a piece's anchor lies on the cloth. */
function anchorAt(job: LayJob, plan: LayPlan, i: number): Pt {
  const piece = job.pieces[i]!;
  return placedOutline({ ...piece, cutting: [piece.anchor!] }, plan.placed[i]!)[0]!;
}

const offLattice = (v: number, step: number): number => Math.abs(v - Math.round(v / step) * step);

test('the margin is kept at both selvedges and costs nothing along the cloth', () => {
  const job = jobOf(
    [1, 2, 3].map((i) => pieceOf(i, rectangle(200, 290))),
    { width: 900, margin: 15, seconds: 0.05 },
  );
  const plan = planLay(job);
  expect(plan.length).toBeCloseTo(200, 6);
  const ys = outlines(job, plan).flatMap((o) => o.map(([, y]) => y));
  expect(Math.min(...ys)).toBeGreaterThanOrEqual(15 - 1e-9);
  expect(Math.max(...ys)).toBeLessThanOrEqual(885 + 1e-9);
  expect(planLay({ ...job, margin: 15.5 }).length).toBeCloseTo(400, 6);
});

test('a panel that fits the cloth only without its margins is too wide', () => {
  const job = jobOf([pieceOf(1, rectangle(100, 890))], { width: 900, margin: 6 });
  expect(planLay(job).problems).toMatchObject([
    { code: 'panel-wider-than-cloth', facts: { across: 890, width: 888 } },
  ]);
});

test('pieces with an anchor lie on the repeat along the cloth, others anywhere', () => {
  const square = rectangle(300, 300);
  const job = jobOf(
    [1, 2].map((i) => pieceOf(i, square, { anchor: [0, 0] })),
    { width: 300, repeat: { along: 400, across: 0 }, nap: true, seconds: 0.05 },
  );
  expect(planLay(job).length).toBeCloseTo(700, 6);
  const third = pieceOf(3, rectangle(100, 300));
  const plan = planLay({ ...job, pieces: [...job.pieces, third] });
  expect(plan.length).toBeCloseTo(700, 6);
  // turned by 180° its anchor is at the other end, so two squares meet over one line of the repeat
  const both = planLay({ ...job, nap: false, seconds: 0.2 });
  expect(both.length).toBeCloseTo(700, 6);
});

test('pieces with an anchor lie on the repeat across the cloth, counted from the middle of the width', () => {
  const job = jobOf(
    [1, 2, 3].map((i) => pieceOf(i, rectangle(200, 240), { anchor: [0, 120] })),
    { width: 900, repeat: { along: 0, across: 250 }, seconds: 0.05 },
  );
  const plan = planLay(job);
  expect(plan.length).toBeCloseTo(200, 6);
  job.pieces.forEach((_, i) => expect(offLattice(anchorAt(job, plan, i)[1] - 450, 250)).toBeLessThan(1e-6));
  // at 310 only the middle one of three lines leaves room on 860
  expect(planLay({ ...job, width: 860, repeat: { along: 0, across: 311 } }).length).toBeCloseTo(600, 6);
});

test('a panel whose repeat leaves it no place across the cloth needs wider cloth', () => {
  const job = jobOf([pieceOf(1, rectangle(100, 500), { anchor: [0, 0] })], {
    width: 900,
    repeat: { along: 0, across: 2000 },
    nap: true,
  });
  expect(planLay(job).problems).toMatchObject([
    { code: 'panel-wider-than-cloth', facts: { across: 500, needs: 1000, width: 900 } },
  ]);
});

test('random jobs on cloth with a repeat along and across keep it, and are not longer than in rows', () => {
  for (let seed = 1; seed <= 8; seed += 1) {
    const pieces = garmentPieces(seed, 4 + seed).map((p, i) =>
      i % 3 === 2 ? p : { ...p, anchor: p.cutting[0]! },
    );
    const repeat = [
      { along: 90, across: 70 },
      { along: 320, across: 0 },
      { along: 0, across: 120 },
      { along: 12, across: 9 },
    ][seed % 4]!;
    const job = jobOf(pieces, { gap: 2, margin: 10, width: 1100, repeat, seconds: 0.15, seed });
    const plan = planLay(job);
    expect(plan.placed).toHaveLength(pieces.length);
    expect(checkLay(job, plan.placed)).toEqual([]);
    expect(plan.length).toBeLessThanOrEqual(rowLength(job) + 1e-9);
    pieces.forEach((p, i) => {
      if (!p.anchor) return;
      const [x, y] = anchorAt(job, plan, i);
      if (repeat.along > 0) expect(offLattice(x, repeat.along)).toBeLessThan(1e-6);
      if (repeat.across > 0) expect(offLattice(y - 550, repeat.across)).toBeLessThan(1e-6);
    });
  }
}, 30_000);

const LEAF: Pt[] = [
  [0, 0],
  [300, 20],
  [260, 180],
  [0, 400],
];

test('on folded cloth the copies of a pair lie mirrored over the fold', () => {
  const job = jobOf(pairOf(1, LEAF), { width: 900, layering: 'folded', gap: 4, margin: 10, seconds: 0.1 });
  const plan = planLay(job);
  expect(checkLay(job, plan.placed)).toEqual([]);
  expect(plan.length).toBeCloseTo(300, 6);
  const [a, b] = outlines(job, plan);
  a!.forEach(([x, y], i) => {
    expect(b![i]![0]).toBeCloseTo(x, 9);
    expect(b![i]![1]).toBeCloseTo(900 - y, 9);
  });
});

test('what does not lie on the fold keeps half the gap off it, and single pieces leave the lower layer empty', () => {
  const job = jobOf([...pairOf(1, rectangle(200, 448)), ...pairOf(2, rectangle(200, 448))], {
    width: 900,
    layering: 'folded',
    gap: 4,
    seconds: 0.05,
  });
  expect(planLay(job).length).toBeCloseTo(404, 6);
  expect(planLay({ ...job, gap: 5 }).problems).toHaveLength(2);
  const alone = planLay({ ...job, pieces: [1, 2].map((i) => pieceOf(i, rectangle(200, 300))) });
  expect(alone.length).toBeCloseTo(404, 6);
});

test('a piece with a middle lies with it on the fold where that is shorter, else in one layer', () => {
  const back = rectangle(500, 800, 30, 70);
  const middle: [Pt, Pt] = [
    [30, 470],
    [530, 470],
  ];
  const job = jobOf([pieceOf(1, back, { middle })], {
    width: 900,
    layering: 'folded',
    gap: 2,
    seconds: 0.05,
  });
  const plan = planLay(job);
  expect(plan.length).toBeCloseTo(500, 6);
  expect(boxOfPoints(outlines(job, plan)[0]!)).toMatchObject({ minY: 50, maxY: 850 });
  // the small pair fits beside the first
  const small = pairOf(2, rectangle(500, 47));
  const two = { ...job, pieces: [...job.pieces, ...small] };
  expect(planLay(two).length).toBeCloseTo(500, 6);
  const collar = jobOf(
    [
      pieceOf(1, rectangle(500, 100), {
        middle: [
          [0, 50],
          [500, 50],
        ],
      }),
      ...pairOf(2, rectangle(500, 448)),
    ],
    { width: 1000, layering: 'folded', gap: 2, seconds: 0.05 },
  );
  expect(planLay(collar).length).toBeCloseTo(500, 6);
});

test('folded plans of random garments pass the check, are mirrored, and are not longer than in rows', () => {
  for (let seed = 21; seed <= 26; seed += 1) {
    const job = jobOf(garmentPieces(seed, 4 + (seed % 7)), {
      gap: 3,
      margin: 8,
      width: 1500,
      layering: 'folded',
      seconds: 0.1,
    });
    const plan = planLay(job);
    if (plan.problems.length > 0) continue;
    expect(checkLay(job, plan.placed)).toEqual([]);
    expect(plan.length).toBeLessThanOrEqual(rowLength(job) + 1e-9);
    expect(plan.layering).toBe('folded');
  }
}, 30_000);

const EL: Pt[] = [
  [0, 0],
  [700, 0],
  [700, 300],
  [300, 300],
  [300, 900],
  [0, 900],
];
const within = { remnant: 'r1' as RemnantId, copy: 1, outline: EL };

test('two rectangles fill a remnant in the shape of an L; a third has no place, and then there is no plan', () => {
  const job = jobOf([pieceOf(1, rectangle(400, 300)), pieceOf(2, rectangle(300, 900))], {
    width: 900,
    within,
    seconds: 0.2,
  });
  const plan = planLay(job);
  expect(plan.placed).toHaveLength(2);
  expect(plan.length).toBeCloseTo(700, 6);
  expect(checkLay(job, plan.placed)).toEqual([]);
  const three = planLay({ ...job, pieces: [...job.pieces, pieceOf(3, rectangle(20, 20))] });
  expect(three).toMatchObject({ length: 0, placed: [], problems: [] });
  expect(planLay({ ...job, pieces: [pieceOf(3, rectangle(800, 20))] }).problems).toEqual([]);
});

test('pieces laid on a remnant with slanting ends stay within its outline', () => {
  const triangle: Pt[] = [
    [0, 0],
    [400, 0],
    [0, 890],
  ];
  const outline: Pt[] = [
    [40, 0],
    [500, 0],
    [460, 900],
    [0, 900],
  ];
  const job = jobOf([pieceOf(1, triangle), pieceOf(2, triangle)], {
    width: 900,
    within: { ...within, outline },
    gap: 2,
    seconds: 1,
  });
  const plan = planLay(job);
  expect(checkLay(job, plan.placed)).toEqual([]);
  for (const ring of outlines(job, plan))
    for (const [x, y] of ring) {
      expect(x - 40 + (40 * y) / 900).toBeGreaterThanOrEqual(-1e-6);
      expect(500 - (40 * y) / 900 - x).toBeGreaterThanOrEqual(-1e-6);
    }
});

test('in every mode the same job gives the same plan, in whatever slices it is run', () => {
  const pieces = garmentPieces(5, 7).map((p) => ({ ...p, anchor: p.cutting[3]! }));
  const modes: Partial<LayJob>[] = [
    { margin: 12 },
    { repeat: { along: 70, across: 45 } },
    { layering: 'folded', width: 1600 },
    { within: { ...within, outline: rectangle(3000, 1400) } },
  ];
  for (const mode of modes) {
    const job = jobOf(pieces, { gap: 2, seconds: 0.06, ...mode });
    const search = startLay(job);
    while (!search.done) search.step(WORK_PER_SECOND / 700);
    expect(search.best).toEqual(planLay(job));
    expect(search.best.placed).toHaveLength(7);
  }
}, 30_000);
