import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Pt } from '../../src/geometry';
import { checkLay } from '../../src/fabric';
import type { LayFault, LayJob, Placement } from '../../src/fabric';
import { jobOf, pieceOf, rectangle } from './madeUpPieces';

const at = (job: LayJob, i: number, x: number, y: number, more: Partial<Placement> = {}): Placement => {
  const p = job.pieces[i]!;
  return { panel: p.panel, copy: p.copy, x, y, rotation: 0, flipped: p.flipped, ...more };
};
const kinds = (faults: readonly LayFault[]): string[] => faults.map((f) => f.kind);
const two = jobOf([pieceOf(1, rectangle(100, 50)), pieceOf(2, rectangle(100, 50))], { width: 100 });

test('pieces that touch side by side and corner to corner pass', () => {
  expect(checkLay(two, [at(two, 0, 0, 0), at(two, 1, 0, 50)])).toEqual([]);
  expect(checkLay(two, [at(two, 0, 0, 0), at(two, 1, 100, 50)])).toEqual([]);
});

test('an overlap is found with its place and depth', () => {
  const [fault, ...more] = checkLay(two, [at(two, 0, 0, 0), at(two, 1, 90, 20)]);
  expect(more).toEqual([]);
  expect(fault).toMatchObject({ kind: 'overlap', panel: 'p1', other: { panel: 'p2' } });
  expect(fault!.by).toBeGreaterThan(4);
  expect(fault!.by).toBeLessThan(15.01);
  expect(fault!.at[0]).toBeGreaterThan(89.9);
});

test.each([
  ['one exactly on the other', 0, 0],
  ['shifted along a shared side, so that lines only meet in corners', 50, 0],
  ['shifted across a shared side', 0, 25],
])('pieces that lie %s overlap', (_, x, y) => {
  const wide = { ...two, width: 200 };
  expect(kinds(checkLay(wide, [at(wide, 0, 0, 0), at(wide, 1, x, y)]))).toEqual(['overlap']);
});

test('a small piece wholly inside a large one overlaps it, and one in its hollow does not', () => {
  const u: Pt[] = [
    [0, 0],
    [100, 0],
    [100, 80],
    [70, 80],
    [70, 30],
    [30, 30],
    [30, 80],
    [0, 80],
  ];
  const job = jobOf([pieceOf(1, u), pieceOf(2, rectangle(20, 20))]);
  expect(kinds(checkLay(job, [at(job, 0, 0, 0), at(job, 1, 5, 5)]))).toEqual(['overlap']);
  expect(checkLay(job, [at(job, 0, 0, 0), at(job, 1, 40, 30)])).toEqual([]);
  expect(kinds(checkLay(job, [at(job, 0, 0, 0), at(job, 1, 40, 29.9)]))).toEqual(['overlap']);
});

test('crossing bars overlap though no corner lies in the other', () => {
  const job = jobOf([pieceOf(1, rectangle(100, 10)), pieceOf(2, rectangle(10, 100))]);
  const [fault] = checkLay(job, [at(job, 0, 0, 45), at(job, 1, 45, 0)]);
  expect(fault).toMatchObject({ kind: 'overlap' });
  expect(fault!.by).toBeCloseTo(5, 9);
});

test('a gap that is too small is told by how much', () => {
  const job = { ...two, gap: 2, width: 103 };
  expect(checkLay(job, [at(job, 0, 0, 0), at(job, 1, 0, 52)])).toEqual([]);
  const [fault] = checkLay(job, [at(job, 0, 0, 0), at(job, 1, 0, 51.5)]);
  expect(fault).toMatchObject({ kind: 'too-close' });
  expect(fault!.by).toBeCloseTo(0.5, 9);
});

test('a piece over the edge of the cloth is told by how much', () => {
  const faults = checkLay(two, [at(two, 0, 0, -3), at(two, 1, 0, 50.25)]);
  expect(faults).toMatchObject([
    { kind: 'off-the-cloth', panel: 'p1', by: 3 },
    { kind: 'off-the-cloth', panel: 'p2', by: 0.25 },
  ]);
  expect(kinds(checkLay(two, [at(two, 0, -1, 0), at(two, 1, 0, 50)]))).toEqual(['off-the-cloth']);
});

test('turns off the grain, wrong sides, missing, repeated and strange pieces are faults', () => {
  const nap = { ...two, nap: true };
  expect(kinds(checkLay(nap, [at(nap, 0, 100, 50, { rotation: 180 }), at(nap, 1, 0, 50)]))).toEqual([
    'wrong-turn',
  ]);
  expect(checkLay(two, [at(two, 0, 100, 50, { rotation: 180 }), at(two, 1, 0, 50)])).toEqual([]);
  expect(kinds(checkLay(two, [at(two, 0, 100, 0, { rotation: 90 }), at(two, 1, 100, 50)]))).toContain(
    'wrong-turn',
  );
  expect(kinds(checkLay(two, [at(two, 0, 100, 0, { flipped: true }), at(two, 1, 0, 50)]))).toEqual([
    'wrong-side-up',
  ]);
  expect(kinds(checkLay(two, [at(two, 0, 0, 0)]))).toEqual(['missing']);
  const all = [at(two, 0, 0, 0), at(two, 1, 0, 50)];
  expect(kinds(checkLay(two, [...all, at(two, 1, 200, 0)]))).toEqual(['laid-twice']);
  expect(kinds(checkLay(two, [...all, at(two, 1, 200, 0, { copy: 7 })]))).toEqual(['unknown-piece']);
});

test('numbers that are not finite never pass', () => {
  expect(checkLay(two, [at(two, 0, NaN, 0), at(two, 1, 0, 50)]).length).toBeGreaterThan(0);
  expect(checkLay(two, [at(two, 0, 0, 0), at(two, 1, 0, 50, { rotation: NaN })]).length).toBeGreaterThan(0);
});

test('two turned squares overlap exactly when their sides are nearer than they should be', () => {
  // squares turned by 45°: |dx| + |dy| < side·√2 is overlap
  const diamond: Pt[] = [
    [50, 0],
    [100, 50],
    [50, 100],
    [0, 50],
  ];
  const job = jobOf([pieceOf(1, diamond), pieceOf(2, diamond)], { width: 1000 });
  fc.assert(
    fc.property(fc.integer({ min: -120, max: 120 }), fc.integer({ min: -120, max: 120 }), (dx, dy) => {
      const faults = checkLay(job, [at(job, 0, 200, 200), at(job, 1, 200 + dx, 200 + dy)]);
      expect(faults.length > 0).toBe(Math.abs(dx) + Math.abs(dy) < 100);
    }),
    { numRuns: 1000, seed: 3 },
  );
});
