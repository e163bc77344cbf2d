import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Design, PieceId, Trim } from '../../src/pattern';
import { type Garment, deriveGarment } from '../../src/garment';
import { backLine, frontLine, shirt, wanting } from '../sewing/garments';
import { designOf, line, piece, straight, trim, trimsOf } from './trimmedDesign';

const box = piece('front');
/** Four lines that each end on the next, in a ring. */
const pinwheel = [
  line('a', straight([150, 0], [150, 400])),
  line('b', straight([0, 400], [250, 400])),
  line('c', straight([250, 600], [250, 200])),
  line('d', straight([400, 200], [150, 200])),
];

test('each trim is laid after its seams and before the seam that catches its end, and the plan says so', () => {
  const lines = [line('hip', straight([0, 300], [400, 300])), line('stem', straight([200, 0], [200, 300]))];
  const found = trimsOf(designOf(lines, [trim('braid', 'stem')], [box]));
  const [run] = found.trims;
  expect(run!.hidden.map((h) => h.by)).toEqual(['edge', 'seam']);
  expect(run!.step).toBeGreaterThan(found.stepOf('stem'));
  expect(run!.step).toBeLessThan(found.stepOf('hip'));
  const hip = found.plan.steps.find((s) => s.step === found.stepOf('hip'))!;
  expect(hip.needs.find((n) => n.key === 'trim braid')!.because).toEqual({
    kind: 'end is caught',
    at: [200, 300],
  });
});

test('ribbons woven in a ring, each ending under the next: one end is tucked under what is laid already', () => {
  const trims = ['a', 'b', 'c', 'd'].map((on) => trim(`ribbon ${on}`, on));
  const found = trimsOf(designOf(pinwheel, trims, [box]));
  expect(found.trims).toHaveLength(4);
  const inner = found.trims.map((t) => t.hidden.find((h) => h.by !== 'edge')!.by);
  expect(inner).not.toContain('nothing');
  expect(inner.filter((by) => by === 'tuck').length).toBeLessThanOrEqual(1);
  expect(found.problems.map((p) => p.code).filter((c) => c === 'trim-end-uncovered')).toEqual([]);
});

test('the end of a trim on a pinwheel’s last seam is offered a trim over the line it ends on', () => {
  const found = ['a', 'b', 'c', 'd']
    .map((on) => trimsOf(designOf(pinwheel, [trim('ribbon', on)], [box])))
    .filter((f) => f.problems.some((p) => p.code === 'trim-end-uncovered'));
  // only the seam that is finished last has nothing left to catch its end
  expect(found).toHaveLength(1);
  const [raw] = found[0]!.problems;
  expect(raw!.facts).toMatchObject({ cure: { kind: 'cover' } });
});

test('a trim on part of a line ends in the open, and running on to the edge cures it', () => {
  const on = { ...trim('braid', 'hip'), on: { kind: 'line', line: 'hip', from: 0, to: 0.75 } } as never;
  const lines = [line('hip', straight([0, 300], [400, 300]))];
  const found = trimsOf(designOf(lines, [on], [box]));
  expect(found.trims[0]!.ends).toEqual(['seam', 'turned under']);
  expect(found.trims[0]!.length).toBeCloseTo(300 + 12 + 15, 6);
  const [raw] = found.problems;
  expect(raw!.facts).toMatchObject({ cure: { kind: 'extend', until: 'edge', place: { from: 0, to: 1 } } });
  expect((raw!.facts as { cure: { by: number } }).cure.by).toBeCloseTo(100, 6);
});

test('running on to the next seam is the smaller change where that seam comes later', () => {
  const on = { ...trim('braid', 'stem'), on: { kind: 'line', line: 'stem', from: 0.1, to: 0.5 } } as never;
  const lines = [line('hip', straight([0, 300], [400, 300])), line('stem', straight([200, 0], [200, 300]))];
  const found = trimsOf(designOf(lines, [on], [box]));
  const cures = found.problems.map((p) => (p.facts as { cure: { by: number; until: string } }).cure);
  expect(cures.map((c) => [Math.round(c.by), c.until])).toEqual([
    [30, 'edge'],
    [150, 'seam'],
  ]);
});

test('part of a line on a half piece is covered on both halves alike', () => {
  const half = piece('front', {
    fold: [
      [0, 0],
      [0, 600],
    ],
  });
  // drawn from the fold outwards: the half next to the fold makes one run over it
  const inner = { ...trim('braid', 'hip'), on: { kind: 'line', line: 'hip', from: 0, to: 0.5 } } as never;
  const outer = { ...trim('braid', 'hip'), on: { kind: 'line', line: 'hip', from: 0.5, to: 1 } } as never;
  const lines = [line('hip', straight([0, 300], [400, 300]))];
  const one = trimsOf(designOf(lines, [inner], [half]));
  expect(one.trims.map((t) => Math.round(t.length))).toEqual([400 + 30]);
  const two = trimsOf(designOf(lines, [outer], [half]));
  expect(two.trims.map((t) => [...t.ends].sort())).toEqual([
    ['seam', 'turned under'],
    ['seam', 'turned under'],
  ]);
  expect(two.trims.map((t) => Math.round(t.length))).toEqual([227, 227]);
});

test('a path of its own over a seam is laid after it, from edge to edge', () => {
  const own = {
    ...trim('braid', 'x'),
    on: { kind: 'path', piece: 'front', path: straight([-20, 100], [420, 500]), once: true },
  } as never;
  const found = trimsOf(designOf([line('hip', straight([0, 300], [400, 300]))], [own], [box]));
  const [run] = found.trims;
  expect(run!.line).toBeNull();
  expect(run!.ends).toEqual(['seam', 'seam']);
  expect(run!.afterStep).toBe(found.stepOf('hip'));
  expect(run!.length).toBeCloseTo(Math.hypot(400, 400 * (400 / 440)) + 24, 3);
  expect(found.problems).toEqual([]);
});

test('a path of its own that stops on a line is caught by that seam, which waits for it', () => {
  const own = {
    ...trim('braid', 'x'),
    on: { kind: 'path', piece: 'front', path: straight([200, 0], [200, 300]), once: true },
  } as never;
  const found = trimsOf(designOf([line('hip', straight([0, 300], [400, 300]))], [own], [box]));
  expect(found.trims[0]!.ends).toEqual(['seam', 'seam']);
  expect(found.trims[0]!.step).toBeLessThan(found.stepOf('hip'));
});

test('a path of its own that stops short is told how far the edge is', () => {
  const own = {
    ...trim('braid', 'x'),
    on: { kind: 'path', piece: 'front', path: straight([200, 100], [200, 560]), once: true },
  } as never;
  const found = trimsOf(designOf([], [own], [box]));
  const cures = found.problems.map((p) => (p.facts as { cure: { by: number; place: unknown } }).cure);
  expect(cures.map((c) => Math.round(c.by))).toEqual([100, 40]);
});

test('a path beside its piece is said to lie nowhere', () => {
  const own = {
    ...trim('braid', 'x'),
    on: { kind: 'path', piece: 'front', path: straight([500, 100], [600, 100]), once: true },
  } as never;
  const found = trimsOf(designOf([], [own], [box]));
  expect(found.trims).toEqual([]);
  expect(found.problems.map((p) => p.code)).toEqual(['trim-lies-nowhere']);
});

test('of two trims that meet at a corner the wish decides which lies over the other', () => {
  const lines = [
    line('down', straight([200, 0], [200, 300])),
    line('side', straight([200, 300], [400, 300])),
  ];
  const design = designOf(lines, [trim('braid', 'down'), trim('cord', 'side')], [box]);
  const wished = {
    ...design,
    sewing: { ...design.sewing, order: [{ earlier: 'trim cord', later: 'trim braid' }] },
  };
  const over = (d: typeof design): string[] => trimsOf(d).trims.map((t) => t.trim.name);
  expect(over(design)).toEqual(['braid', 'cord']);
  expect(over(wished)).toEqual(['cord', 'braid']);
});

test('a light trim over dark cloth shows it through, a dark one does not', () => {
  const lines = [line('hip', straight([0, 300], [400, 300]))];
  const pale = { ...trim('braid', 'hip'), fill: '#ffffff' };
  expect(trimsOf(designOf(lines, [pale], [box])).problems.map((p) => p.code)).toEqual(['trim-shows-through']);
  expect(trimsOf(designOf(lines, [trim('braid', 'hip')], [box])).problems).toEqual([]);
});

test('ribbon sold in lengths is joined on the diagonal: one width to a join', () => {
  const lines = [line('hip', straight([0, 300], [400, 300]))];
  const short = { ...trim('braid', 'hip', 10), soldIn: 150 };
  const [run] = trimsOf(designOf(lines, [short], [box])).trims;
  // 424 from lengths of 150 that give 140 each after the first: two joins reach 430
  expect(run!.joins).toBe(2);
  expect(run!.length).toBeCloseTo(424 + 20, 6);
});

/** Lines from edge to edge, one below the other, in the order drawn; ribbons down from the top edge that stop on one of them. */
const ladder = (heights: readonly number[], stops: readonly number[], covered: boolean): Design => {
  const lines = heights.map((y) => line(`at ${y}`, straight([0, y], [400, y])));
  const down = stops.map((rung, i): Trim => {
    const y = [...heights].sort((a, b) => a - b)[rung % heights.length]!;
    const path = straight([40 + 60 * i, 0], [40 + 60 * i, y]);
    return { ...trim(`down ${i}`, 'x'), on: { kind: 'path', piece: 'front' as PieceId, path, once: true } };
  });
  return designOf(lines, covered ? [...down, trim('across', lines[0]!.id)] : down, [box]);
};

test('seams are sewn in an order that catches every ribbon, whatever order the lines were drawn in', () => {
  fc.assert(
    fc.property(
      fc.shuffledSubarray([100, 220, 340, 460], { minLength: 1 }),
      fc.array(fc.nat(3), { minLength: 1, maxLength: 5 }),
      fc.boolean(),
      (heights, stops, covered) => {
        const found = trimsOf(ladder(heights, stops, covered));
        expect(found.problems).toEqual([]);
        for (const run of found.trims.filter((t) => t.line === null)) {
          expect(run.hidden.map((h) => h.by)).toEqual(['edge', 'seam']);
          const end = run.path.at(-1)![1][1];
          // every line it crosses is sewn before it, the one it stops on after it
          for (const y of heights.filter((h) => h < end))
            expect(found.stepOf(`at ${y}`)).toBeLessThan(run.step!);
          expect(found.stepOf(`at ${end}`)).toBeGreaterThan(run.step!);
        }
      },
    ),
    { seed: 5, numRuns: 60 },
  );
});

test('both images of a mirrored path are told of the same cure: that of the path as drawn', () => {
  const half = piece('front', {
    fold: [
      [0, 0],
      [0, 600],
    ],
  });
  const own = {
    ...trim('braid', 'x'),
    on: { kind: 'path', piece: 'front', path: straight([100, 0], [100, 560]), once: false },
  } as never;
  const found = trimsOf(designOf([], [own], [half]));
  const cures = found.problems.map((p) => (p.facts as { cure: { by: number; place: unknown } }).cure);
  expect(cures).toHaveLength(2);
  expect(cures[0]).toEqual(cures[1]);
  expect(cures[0]!.by).toBeCloseTo(40, 6);
  expect(cures[0]!.place).toMatchObject({
    path: [
      ...straight([100, 0], [100, 560]),
      [
        [100, 560],
        [100, 600],
      ],
    ],
  });
});

test('on a band sewn in the round a trim goes all round and overlaps its own start; on half of it its ends show', () => {
  const bands = [frontLine('line-1', 500), backLine('line-2', 500)];
  const round = wanting(shirt(bands), { inTheRound: bands.map((l) => l.id) });
  const laid = (on: readonly string[]): Garment =>
    deriveGarment({ ...round, trims: on.map((id) => trim(`braid ${id}`, id)) });
  const all = laid(['line-1', 'line-2']);
  expect(all.trims.flatMap((t) => t.hidden.map((h) => h.by))).toEqual(Array(6).fill('itself'));
  expect(all.problems.filter((p) => p.code.startsWith('trim-end'))).toEqual([]);
  const step = (g: Garment, key: string): number => g.plan.steps.find((s) => s.key === key)!.step;
  expect(all.trims[0]!.step).toBeGreaterThan(step(all, 'seam line-1'));
  const half = laid(['line-1']);
  expect(half.trims.flatMap((t) => t.ends)).toEqual(['turned under', 'turned under']);
  expect(half.problems.filter((p) => p.code === 'trim-end-uncovered')).toHaveLength(2);
});
