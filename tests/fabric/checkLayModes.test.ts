import { expect, test } from 'vitest';
import type { Pt } from '../../src/geometry';
import { checkLay } from '../../src/fabric';
import type { ClothShape, LayFault, LayJob, Placement } from '../../src/fabric';
import type { RemnantId } from '../../src/pattern';
import { jobOf, pieceOf, rectangle } from './madeUpPieces';

const at = (job: LayJob, i: number, x: number, y: number, more: Partial<Placement> = {}): Placement => {
  const p = job.pieces[i]!;
  return { panel: p.panel, copy: p.copy, x, y, rotation: 0, flipped: p.flipped, ...more };
};
const kinds = (faults: readonly LayFault[]): string[] => faults.map((f) => f.kind);

const one = jobOf([pieceOf(1, rectangle(100, 50))], { width: 200, margin: 15 });

test('a piece may touch the margin of a selvedge and not lie in it', () => {
  expect(checkLay(one, [at(one, 0, 0, 15)])).toEqual([]);
  expect(checkLay(one, [at(one, 0, 0, 135)])).toEqual([]);
  expect(checkLay(one, [at(one, 0, 0, 12)])).toMatchObject([{ kind: 'in-the-margin', by: 3, panel: 'p1' }]);
  expect(checkLay(one, [at(one, 0, 0, 135.5)])).toMatchObject([{ kind: 'in-the-margin', by: 0.5 }]);
  expect(checkLay(one, [at(one, 0, 0, -2)])).toMatchObject([{ kind: 'off-the-cloth', by: 2 }]);
  expect(kinds(checkLay(one, [at(one, 0, -0.01, 15)]))).toEqual(['off-the-cloth']);
});

test('a margin runs along the selvedges, not along the cut end', () => {
  expect(checkLay(one, [at(one, 0, 0, 50)])).toEqual([]);
});

/** An L: 300 long, 200 wide, its upper right quarter gone. */
const ell: ClothShape = {
  remnant: 'r1' as RemnantId,
  copy: 1,
  outline: [
    [0, 0],
    [150, 0],
    [150, 100],
    [300, 100],
    [300, 200],
    [0, 200],
  ],
};
const onEll = jobOf([pieceOf(1, rectangle(100, 50))], { width: 200, within: ell });

test('on one’s own cloth a piece may touch the outline from inside and not reach out of it', () => {
  for (const [x, y] of [
    [0, 0],
    [50, 50],
    [200, 150],
    [150, 100],
  ] as const)
    expect(checkLay(onEll, [at(onEll, 0, x, y)])).toEqual([]);
  // its end lies 20 mm out over the straight edge at 150
  expect(checkLay(onEll, [at(onEll, 0, 70, 20)])).toMatchObject([{ kind: 'off-the-cloth', by: 20 }]);
  expect(kinds(checkLay(onEll, [at(onEll, 0, 200, 20)]))).toEqual(['off-the-cloth']);
  expect(kinds(checkLay(onEll, [at(onEll, 0, 200, 99.999)]))).toEqual(['off-the-cloth']);
  expect(kinds(checkLay(onEll, [at(onEll, 0, 900, 900)]))).toEqual(['off-the-cloth']);
});

test('a corner of the cloth that pokes into a piece is found though every corner of the piece lies inside', () => {
  const notched: ClothShape = {
    ...ell,
    outline: [
      [0, 0],
      [140, 0],
      [150, 60],
      [160, 0],
      [300, 0],
      [300, 200],
      [0, 200],
    ],
  };
  const job = { ...onEll, within: notched };
  expect(kinds(checkLay(job, [at(job, 0, 100, 40)]))).toEqual(['off-the-cloth']);
  expect(checkLay(job, [at(job, 0, 100, 60)])).toEqual([]);
});

test('gap and margin play no part at the rim of one’s own cloth', () => {
  const job = { ...onEll, gap: 5, margin: 10 };
  expect(checkLay(job, [at(job, 0, 0, 0)])).toEqual([]);
});

const printed = jobOf([pieceOf(1, rectangle(100, 50), { anchor: [30, 20] })], {
  width: 300,
  repeat: { along: 80, across: 60 },
});

test('an anchor lies on the repeat: along from the cut end, across from the middle of the width', () => {
  expect(checkLay(printed, [at(printed, 0, 50, 130)])).toEqual([]);
  expect(checkLay(printed, [at(printed, 0, 210, 70)])).toEqual([]);
  expect(checkLay(printed, [at(printed, 0, 51, 130)])).toMatchObject([{ kind: 'off-the-repeat', by: 1 }]);
  const [fault] = checkLay(printed, [at(printed, 0, 53, 134)]);
  expect(fault).toMatchObject({ kind: 'off-the-repeat', at: [83, 154] });
  expect(fault!.by).toBeCloseTo(5, 9);
  const stripes = { ...printed, repeat: { along: 80, across: 0 } };
  expect(checkLay(stripes, [at(stripes, 0, 50, 3)])).toEqual([]);
  const free = { ...printed, repeat: { along: 0, across: 0 } };
  expect(checkLay(free, [at(free, 0, 1, 3)])).toEqual([]);
});

test('the anchor is mirrored and turned with its piece', () => {
  const pair = jobOf(
    [1, 2].map((copy) =>
      pieceOf(1, rectangle(100, 50), { copy, flipped: copy === 2, grainAngle: 0, anchor: [30, 20] }),
    ),
    { width: 300, repeat: { along: 80, across: 60 } },
  );
  // mirrored the anchor lies at −30, 20; turned by half it lies at −30, −20
  const first = at(pair, 0, 110, 230, { rotation: 180 });
  expect(checkLay(pair, [first, at(pair, 1, 190, 70)])).toEqual([]);
  expect(kinds(checkLay(pair, [first, at(pair, 1, 130, 70)]))).toEqual(['off-the-repeat']);
});

test('a panel with leave may lie off its grain, others may not', () => {
  const leave = jobOf(
    [pieceOf(1, rectangle(100, 50), { turns: [0, 180, 30, -30, 150, -150] }), pieceOf(2, rectangle(100, 50))],
    { width: 400 },
  );
  const second = at(leave, 1, 200, 0);
  for (const rotation of [0, 180, 30, -30, 150, -150])
    expect(checkLay(leave, [at(leave, 0, 150, 200, { rotation }), second])).toEqual([]);
  expect(checkLay(leave, [at(leave, 0, 150, 200, { rotation: 40 }), second])).toMatchObject([
    { kind: 'wrong-turn', by: 10 },
  ]);
  expect(kinds(checkLay(leave, [at(leave, 0, 0, 0), at(leave, 1, 200, 100, { rotation: 30 })]))).toEqual([
    'wrong-turn',
  ]);
});

/** A pair of right triangles, one piece that is its own image, one that is not: on 400 mm folded at 200. */
const triangle: Pt[] = [
  [0, 0],
  [100, 0],
  [0, 60],
];
const folded = jobOf(
  [
    pieceOf(1, triangle),
    pieceOf(1, triangle, { copy: 2, flipped: true }),
    pieceOf(2, rectangle(80, 100), {
      middle: [
        [0, 50],
        [80, 50],
      ],
    }),
    pieceOf(3, triangle),
  ],
  { width: 400, layering: 'folded', gap: 2 },
);
/** A flipped piece turned by 180° and moved by x, 400 − y lies as the fold puts a piece at x, y. */
const sound = [
  at(folded, 0, 0, 0),
  at(folded, 1, 0, 400, { rotation: 180 }),
  at(folded, 2, 0, 150),
  at(folded, 3, 150, 20),
];
const withPlaced = (i: number, more: Partial<Placement>): Placement[] =>
  sound.map((p, k) => (k === i ? { ...p, ...more } : p));

test('on folded cloth pairs lie mirrored, pieces on the fold with their middle on it, others above an empty place', () => {
  expect(checkLay(folded, sound)).toEqual([]);
  expect(checkLay({ ...folded, layering: 'single' }, sound)).toEqual([]);
});

test('copies of a pair that are not mirrored about the fold are told by how much', () => {
  expect(checkLay(folded, withPlaced(1, { x: 0.5 }))).toMatchObject([
    { kind: 'not-mirrored', panel: 'p1', copy: 2, by: 0.5, other: { copy: 1 } },
  ]);
  expect(kinds(checkLay(folded, withPlaced(1, { x: 110, y: 340, rotation: 0 })))).toContain('not-mirrored');
});

test('a piece on the fold with its middle beside it lies across the fold', () => {
  expect(checkLay(folded, withPlaced(2, { y: 150.25 }))).toMatchObject([
    { kind: 'across-the-fold', panel: 'p2', by: 49.75 },
  ]);
  // wholly on one side it is a piece like any other
  expect(checkLay(folded, withPlaced(2, { x: 300, y: 210 }))).toEqual([]);
});

test('nothing without a middle lies across the fold', () => {
  expect(kinds(checkLay(folded, withPlaced(3, { x: 150, y: 170 })))).toEqual(['across-the-fold']);
  expect(checkLay(folded, withPlaced(3, { x: 150, y: 140 }))).toEqual([]);
  expect(checkLay(folded, withPlaced(3, { x: 150, y: 200 }))).toEqual([]);
});

test('what is cut from one layer leaves its place in the other empty, with the gap round it', () => {
  const job = jobOf([pieceOf(1, rectangle(100, 50)), pieceOf(2, rectangle(100, 50))], {
    width: 200,
    layering: 'folded',
    gap: 2,
  });
  expect(kinds(checkLay(job, [at(job, 0, 0, 0), at(job, 1, 0, 150)]))).toEqual([
    'other-layer-taken',
    'other-layer-taken',
  ]);
  expect(checkLay(job, [at(job, 0, 0, 0), at(job, 1, 101, 150)])).toMatchObject([
    { kind: 'other-layer-taken', by: 1 },
    { kind: 'other-layer-taken', by: 1 },
  ]);
  expect(checkLay(job, [at(job, 0, 0, 0), at(job, 1, 102, 150)])).toEqual([]);
});
