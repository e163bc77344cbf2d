import { expect, test } from 'vitest';
import { pathLength } from '../../src/geometry';
import { sayProblem } from '../../src/pattern';
import { TURN_UNDER } from '../../src/trim';
import { designOf, line, piece, quarterCircle, straight, trim, trimsOf } from './trimmedDesign';

const across = line('hip', straight([0, 300], [400, 300]));
const codes = (found: ReturnType<typeof trimsOf>): string[] => found.problems.map((p) => p.code);

test('a trim from edge to edge ends in both outer seams and gets the seam allowance at each end', () => {
  const found = trimsOf(designOf([across], [trim('braid', 'hip')]));
  expect(found.problems).toEqual([]);
  expect(found.trims).toHaveLength(1);
  const [run] = found.trims;
  expect(run).toMatchObject({
    piece: 'front',
    line: 'hip',
    lineLabel: 'L1',
    copy: 1,
    ends: ['seam', 'seam'],
    strain: 0,
  });
  expect(run!.length).toBeCloseTo(400 + 2 * 12, 6);
  expect(run!.edgeLengths[0]).toBeCloseTo(400, 6);
  expect(run!.edgeLengths[1]).toBeCloseTo(400, 6);
  expect(run!.afterStep).toBe(found.stepOf('hip'));
});

test('an end on a line sewn later is swallowed by that seam', () => {
  const stem = line('stem', straight([200, 0], [200, 300]));
  const found = trimsOf(designOf([across, stem], [trim('braid', 'stem')]));
  expect(found.stepOf('stem')).toBeLessThan(found.stepOf('hip'));
  expect(found.trims[0]).toMatchObject({ ends: ['seam', 'seam'], afterStep: found.stepOf('stem') });
  expect(found.trims[0]!.length).toBeCloseTo(324, 6);
  expect(found.problems).toEqual([]);
});

test('an end on a line with a trim laid later lies under that trim', () => {
  const stem = line('stem', straight([200, 0], [200, 300]));
  const found = trimsOf(designOf([across, stem], [trim('wide braid', 'hip', 20), trim('braid', 'stem')]));
  expect(found.trims.map((t) => [t.trim.name, ...t.ends])).toEqual([
    ['braid', 'seam', 'under trim'],
    ['wide braid', 'seam', 'seam'],
  ]);
});

test('a trim is parted where a later seam runs across, and each part ends in that seam', () => {
  const up = line('up', straight([200, 0], [200, 600]));
  const found = trimsOf(designOf([across, up], [trim('braid', 'hip', 12), trim('cord', 'up')]));
  // the line drawn first runs through, so the other is sewn in two parts before it
  expect(found.stepOf('up')).toBeLessThan(found.stepOf('hip'));
  // which of the two parts comes first does not matter
  const laid = [...found.trims].sort(
    (a, b) => a.trim.width - b.trim.width || a.path[0]![0][1] - b.path[0]![0][1],
  );
  expect(laid.map((t) => [t.trim.name, ...t.ends, Math.round(t.length)])).toEqual([
    ['cord', 'seam', 'under trim', 324],
    ['cord', 'under trim', 'seam', 324],
    ['braid', 'seam', 'seam', 424],
  ]);
  expect(found.trims.at(-1)!.trim.name).toBe('braid');
});

test('a line and its mirror image carry a run each', () => {
  const half = piece('front', {
    fold: [
      [0, 0],
      [0, 600],
    ],
    outline: straight([0, 0], [400, 0], [400, 600], [0, 600], [0, 0]),
  });
  const slanted = line('slant', straight([400, 200], [100, 600]));
  const found = trimsOf(designOf([slanted], [trim('braid', 'slant')], [half]));
  expect(found.trims.map((t) => t.lineLabel).sort()).toEqual(['L1', 'L1 mirrored']);
  expect(found.trims[0]!.length).toBeCloseTo(500 + 24, 6);
  expect(found.trims[1]!.length).toBeCloseTo(500 + 24, 6);
});

test('a line that is joined with its image over the fold carries one run', () => {
  const half = piece('front', {
    fold: [
      [0, 0],
      [0, 600],
    ],
  });
  const found = trimsOf(
    designOf([line('hip', straight([0, 300], [400, 300]))], [trim('braid', 'hip')], [half]),
  );
  expect(found.trims).toHaveLength(1);
  expect(found.trims[0]!.length).toBeCloseTo(824, 6);
});

test('a piece cut as a pair needs the trim twice', () => {
  const found = trimsOf(designOf([across], [trim('braid', 'hip')], [piece('front', { cutting: 'pair' })]));
  expect(found.trims.map((t) => t.copy)).toEqual([1, 2]);
  expect(found.trims[1]!.length).toBe(found.trims[0]!.length);
});

test('where two lines meet in the open, the trim laid first goes under the other, whose end is turned under and said', () => {
  const lines = [
    line('down', straight([200, 0], [200, 300])),
    line('side', straight([200, 300], [400, 300])),
  ];
  const found = trimsOf(designOf(lines, [trim('braid', 'down'), trim('cord', 'side')]));
  const ends = Object.fromEntries(found.trims.map((t) => [t.trim.name, t.ends]));
  expect(ends).toEqual({ braid: ['seam', 'under trim'], cord: ['turned under', 'seam'] });
  expect(codes(found)).toEqual(['trim-end-uncovered']);
  expect(found.problems[0]!.at).toEqual([200, 300]);
  expect(found.trims.find((t) => t.trim.name === 'cord')!.length).toBeCloseTo(200 + 12 + TURN_UNDER, 6);
  expect(sayProblem(found.problems[0]!, 'cm')).toContain('1.5 cm is added');
});

test('an inset ring is one run that covers its own end', () => {
  const ring = line('ring', [
    ...straight([150, 200], [250, 200], [250, 300], [150, 300]),
    [
      [150, 300],
      [150, 200],
    ],
  ]);
  const found = trimsOf(designOf([ring], [trim('braid', 'ring', 8)]));
  expect(found.trims).toHaveLength(1);
  // each of the four mitres takes one width more: the strip is as long as the frame's outer edge
  expect(found.trims[0]!.length).toBeCloseTo(400 + 4 * 8 + 2 * TURN_UNDER, 6);
  expect(codes(found)).toEqual(['trim-corner', 'trim-corner', 'trim-corner', 'trim-corner']);
  // a mitred frame 8 wide: outer 4·108, inner 4·92
  expect(
    [...found.trims[0]!.edgeLengths].sort((a, b) => a - b).map((l) => Math.round(l * 1e6) / 1e6),
  ).toEqual([368, 432]);
});

test('a curve tighter than half the width is an error at its tightest place; a tight one is a warning', () => {
  const curved = (r: number): ReturnType<typeof line> => line('bend', quarterCircle([0, 0], r));
  const tight = trimsOf(designOf([curved(20)], [trim('band', 'bend', 50)]));
  expect(codes(tight)).toEqual(['trim-curve-too-tight']);
  expect(tight.problems[0]!.at).not.toBeNull();
  const strained = trimsOf(designOf([curved(200)], [trim('band', 'bend', 25)]));
  expect(codes(strained)).toEqual(['trim-strained']);
  expect(strained.trims[0]!.strain).toBeCloseTo(0.0625, 2);
  expect(codes(trimsOf(designOf([curved(350)], [trim('narrow', 'bend', 6)])))).toEqual([]);
});

test('a trim on a line that divides nothing has no run', () => {
  const outside = line('outside', straight([500, 0], [500, 600]));
  expect(trimsOf(designOf([outside], [trim('braid', 'outside')])).trims).toEqual([]);
});

test('the run is as long as its line, curve by curve', () => {
  const wave = line('wave', [
    [
      [0, 300],
      [130, 200],
      [270, 400],
      [400, 300],
    ],
  ]);
  const [run] = trimsOf(designOf([wave], [trim('braid', 'wave', 5)])).trims;
  expect(run!.length).toBeCloseTo(pathLength(wave.path) + 24, 3);
  // an S turns back as much as it turns: both edges are equally long
  expect(run!.edgeLengths[0]).toBeCloseTo(run!.edgeLengths[1], 3);
});
