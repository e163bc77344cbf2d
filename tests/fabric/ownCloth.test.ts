import { expect, test } from 'vitest';
import type { Pt } from '../../src/geometry';
import { signedAreaOfPoints } from '../../src/geometry';
import { planCloth } from '../../src/fabric';
import type { ClothPlan, LayJob } from '../../src/fabric';
import { pocketsOf } from '../../src/fabric/remnants/ownCloth';
import type { Remnant, RemnantId } from '../../src/pattern';
import { jobOf, pieceOf, rectangle } from './madeUpPieces';

const remnantOf = (name: string, outline: readonly Pt[], count = 1): Remnant => ({
  id: name as RemnantId,
  name,
  colour: jobOf([]).colour,
  outline,
  count,
});

const strip = (name: string, length: number, width: number, count = 1): Remnant =>
  remnantOf(name, rectangle(length, width), count);

/** 1000 × 800 without its lower right 600 × 500. */
const ELL: readonly Pt[] = [
  [0, 0],
  [1000, 0],
  [1000, 300],
  [400, 300],
  [400, 800],
  [0, 800],
];

const blocks = (sizes: readonly (readonly [number, number])[], options: Partial<LayJob> = {}): LayJob =>
  jobOf(
    sizes.map(([l, w], i) => pieceOf(i + 1, rectangle(l, w))),
    { width: 900, seconds: 0.2, ...options },
  );

const numbersOn = ({ own }: ClothPlan, job: LayJob): number[][] =>
  own.map(({ placed }) =>
    placed.map((at) => job.pieces.find((p) => p.panel === at.panel)!.number).sort((a, b) => a - b),
  );

test('what the box of an outline has more than the outline is cut off in pockets', () => {
  expect(pocketsOf(rectangle(500, 300))).toEqual([]);
  const [pocket, ...others] = pocketsOf(ELL);
  expect(others).toEqual([]);
  expect(signedAreaOfPoints(pocket!)).toBe(600 * 500);
  const tilted: Pt[] = [
    [100, 0],
    [500, 200],
    [400, 600],
    [0, 350],
  ];
  const all = pocketsOf(tilted).map(signedAreaOfPoints);
  expect(all).toHaveLength(4);
  expect(all.reduce((a, b) => a + b)).toBeCloseTo(500 * 600 - signedAreaOfPoints(tilted), 6);
});

test('without own cloth everything is bought', () => {
  const job = blocks([[500, 900]]);
  const plan = planCloth(job, []);
  expect(plan.own).toEqual([]);
  expect(plan.bought.length).toBeCloseTo(500, 6);
});

test('two blocks lie in the arms of an L as if made for it, and nothing is bought', () => {
  const job = blocks([
    [600, 300],
    [400, 800],
  ]);
  const plan = planCloth(job, [remnantOf('L', ELL)]);
  expect(numbersOn(plan, job)).toEqual([[1, 2]]);
  expect(plan.bought).toMatchObject({ length: 0, buy: 0, placed: [] });
  expect(plan.own[0]).toMatchObject({ buy: 0, width: 800, length: 1000 });
});

test('what saves the most is laid on own cloth, the rest is bought', () => {
  const job = blocks([
    [900, 900],
    [300, 900],
    [200, 200],
  ]);
  const plan = planCloth(job, [strip('skirt', 1000, 900)]);
  expect(numbersOn(plan, job)[0]).toContain(1);
  expect(plan.bought.length).toBeCloseTo(500, 6);
});

test('a piece of cloth that saves nothing is left whole', () => {
  // the small one lies beside the tall one on what is bought anyway
  const job = blocks([
    [800, 500],
    [200, 200],
  ]);
  const plan = planCloth(job, [strip('scrap', 250, 250)]);
  expect(plan.own).toEqual([]);
  expect(plan.bought.length).toBeCloseTo(800, 6);
});

test('as few pieces of own cloth are cut into as will do, and of several alike each is used once', () => {
  const job = blocks([
    [300, 300],
    [300, 300],
    [300, 300],
  ]);
  const one = planCloth(job, [strip('small', 320, 320, 3), strip('large', 930, 310)]);
  expect(one.own.map(({ within }) => within!.remnant)).toEqual(['large']);
  const three = planCloth(job, [strip('small', 320, 320, 3)]);
  expect(three.own.map(({ within }) => within!.copy)).toEqual([1, 2, 3]);
  expect(three.bought.placed).toEqual([]);
});

test('a panel too wide for the cloth that is sold still lies on own cloth that is wide enough', () => {
  const job = blocks([
    [500, 1200],
    [300, 300],
  ]);
  const plan = planCloth(job, [strip('wide', 600, 1250)]);
  expect(numbersOn(plan, job)).toEqual([[1]]);
  expect(plan.bought.problems).toEqual([]);
  expect(plan.bought.length).toBeCloseTo(300, 6);
});

test('cloth of another colour is not touched', () => {
  const job = blocks([[300, 300]]);
  const other = { ...strip('other', 900, 900), colour: 'another' as Remnant['colour'] };
  expect(planCloth(job, [other]).own).toEqual([]);
});

test('where a print has to match, own cloth is not laid on, and it is said', () => {
  const job = blocks([[300, 300]], { repeat: { along: 100, across: 0 } });
  const held = { ...job, pieces: job.pieces.map((p) => ({ ...p, anchor: [10, 10] as Pt })) };
  const plan = planCloth(held, [strip('print', 900, 900)]);
  expect(plan.own).toEqual([]);
  expect(plan.bought.problems.map(({ code }) => code)).toEqual(['own-cloth-printed']);
});

test('the same job, seed and remnants give the same plan', () => {
  const job = blocks([
    [500, 320],
    [410, 300],
    [350, 280],
    [300, 200],
    [250, 240],
    [700, 520],
  ]);
  const remnants = [strip('a', 620, 610), remnantOf('L', ELL)];
  expect(planCloth(job, remnants)).toEqual(planCloth(job, remnants));
});
