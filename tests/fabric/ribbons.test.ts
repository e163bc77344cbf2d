import { expect, test } from 'vitest';
import { ribbonsToBuy } from '../../src/fabric';
import { MM_PER_INCH, type Trim } from '../../src/pattern';
import type { TrimRun } from '../../src/trim';
import { designOf, line, straight, trim, trimsOf } from '../trim/trimmedDesign';

const across = (y: number): ReturnType<typeof line> => line(`at ${y}`, straight([0, y], [400, y]));
/** Runs of 424 mm each: 400 and an allowance of 12 at each end. */
const runs = (trims: readonly Trim[]): readonly TrimRun[] =>
  trimsOf(designOf([across(150), across(300), across(450)], trims)).trims;
const on = (y: number, more: Partial<Trim> = {}): Trim => ({
  ...trim(`on ${y}`, `at ${y}`),
  name: 'braid',
  ...more,
});

test('runs of one ribbon are added up and rounded to the next 10 cm, or 1/8 yard', () => {
  const laid = runs([on(150), on(300), on(450)]);
  const [cm, ...others] = ribbonsToBuy(laid, 'cm');
  expect(others).toEqual([]);
  expect(cm).toMatchObject({ name: 'braid', width: 10, pieces: null, joins: 0 });
  expect(cm!.need).toBeCloseTo(3 * 424, 6);
  expect(cm!.buy).toBe(1300);
  // 1272 mm are 50.08 in; eighths of a yard are 4.5 in: twelve of them
  expect(ribbonsToBuy(laid, 'in')[0]!.buy).toBeCloseTo(54 * MM_PER_INCH, 9);
});

test('what differs in width, colour or kind is another ribbon', () => {
  expect(
    ribbonsToBuy(runs([on(150), on(300, { width: 12 }), on(450, { fill: '#ff0000' })]), 'cm'),
  ).toHaveLength(3);
  expect(ribbonsToBuy(runs([on(150), on(300, { kind: 'bias' })]), 'cm')).toHaveLength(2);
});

test('shrinkage is counted in: need / (1 − s)', () => {
  const [braid] = ribbonsToBuy(runs([on(150, { shrinkage: 8 })]), 'cm');
  expect(braid!.need).toBeCloseTo(424, 6);
  expect(braid!.buy).toBe(500); // 424 / 0.92 = 460.9
});

test('ribbon sold in lengths is cut from whole ones, with what is left of one used for another', () => {
  // 1000 mm give two runs of 424; the third needs another one
  expect(
    ribbonsToBuy(runs([on(150), on(300), on(450)].map((t) => ({ ...t, soldIn: 1000 }))), 'cm')[0],
  ).toMatchObject({ pieces: 2, buy: 2000, joins: 0 });
  // washed, 900 mm of them are left: still two runs of 424 from each
  expect(
    ribbonsToBuy(runs([on(150), on(300)].map((t) => ({ ...t, soldIn: 1000, shrinkage: 10 }))), 'cm')[0],
  ).toMatchObject({ pieces: 1, buy: 1000 });
  // lengths of 300: each run is one and a part, joined; the parts of two runs come out of one
  const [short] = ribbonsToBuy(runs([on(150), on(300)].map((t) => ({ ...t, soldIn: 300 }))), 'cm');
  expect(short).toMatchObject({ pieces: 3, joins: 2 });
  expect(short!.need).toBeCloseTo(2 * (424 + 10), 6);
});
