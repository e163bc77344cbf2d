import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Pt } from '../../src/geometry';
import { fitsAlone, leftOver, misfitOf, ownClothUses, planCloth, unfittingPanels } from '../../src/fabric';
import type { ClothShape } from '../../src/fabric';
import type { Remnant, RemnantId } from '../../src/pattern';
import { jobOf, pieceOf, rectangle } from './madeUpPieces';

const cloth = (outline: readonly Pt[]): ClothShape => ({ remnant: 'r' as RemnantId, copy: 1, outline });
const remnantOf = (outline: readonly Pt[], count = 1): Remnant => ({
  id: 'r' as RemnantId,
  name: 'left from the skirt',
  colour: jobOf([]).colour,
  outline,
  count,
});

/** 1000 × 800 without its lower right 600 × 500. */
const ELL: readonly Pt[] = [
  [0, 0],
  [1000, 0],
  [1000, 300],
  [400, 300],
  [400, 800],
  [0, 800],
];

test('of cloth nothing lies on, all is left; of an L the larger arm', () => {
  expect(leftOver(cloth(rectangle(730, 415)), [])).toEqual({
    rectangle: { x: 0, y: 0, length: 730, width: 415 },
    area: 730 * 415,
  });
  expect(leftOver(cloth(ELL), []).rectangle).toEqual({ x: 0, y: 0, length: 400, width: 800 });
});

test('what is left beside a piece is found to the last bit, whichever side is larger', () => {
  const left = leftOver(cloth(rectangle(1000, 500)), [rectangle(301.3, 402.7)]);
  expect(left.rectangle).toEqual({ x: 301.3, y: 0, length: 698.7, width: 500 });
  expect(left.area).toBeCloseTo(1000 * 500 - 301.3 * 402.7, 6);
  const flat = leftOver(cloth(rectangle(1000, 500)), [rectangle(900, 203.5, 50, 0)]);
  expect(flat.rectangle).toMatchObject({ x: 0, y: 203.5, length: 1000, width: 296.5 });
});

test('in a triangle the largest rectangle comes near to half of it, and never over', () => {
  // the largest rectangle in a right triangle along its legs has half its area
  const triangle: Pt[] = [
    [0, 0],
    [900, 0],
    [0, 600],
  ];
  const { rectangle: free } = leftOver(cloth(triangle), []);
  const area = free!.length * free!.width;
  expect(area).toBeLessThanOrEqual(135000 + 1e-6);
  expect(area).toBeGreaterThan(135000 * 0.97);
});

test('where nothing of a square’s size is left, there is no rectangle', () => {
  expect(leftOver(cloth(rectangle(500, 300)), [rectangle(500, 300)]).rectangle).toBeNull();
});

test('a block and the rest of a strip: what is left is what was cut away', () => {
  fc.assert(
    fc.property(fc.integer({ min: 20, max: 880 }), fc.integer({ min: 20, max: 480 }), (l, w) => {
      const { rectangle: free } = leftOver(cloth(rectangle(900, 500)), [rectangle(l, w)]);
      const best = Math.max((900 - l) * 500, 900 * (500 - w));
      expect(free!.length * free!.width).toBeLessThanOrEqual(best + 1e-6);
      // sides lie on squares of 4 mm before they are moved out to what stops them
      expect(free!.length * free!.width).toBeGreaterThan(best - 1e-6);
    }),
    { seed: 5, numRuns: 60 },
  );
});

test('a panel fits cloth as large as itself, turned end for end too, but not turned across the grain', () => {
  const job = jobOf([]);
  expect(fitsAlone(job, pieceOf(1, rectangle(500, 300)), cloth(rectangle(500, 300)))).toBe(true);
  expect(fitsAlone(job, pieceOf(1, rectangle(300, 500)), cloth(rectangle(500, 300)))).toBe(false);
  const wedge: Pt[] = [
    [0, 0],
    [600, 0],
    [600, 400],
  ];
  const turned = wedge.map(([x, y]): Pt => [600 - x, 400 - y]);
  expect(fitsAlone(job, pieceOf(1, wedge), cloth(turned))).toBe(true);
  expect(fitsAlone({ ...job, nap: true }, pieceOf(1, wedge), cloth(turned))).toBe(false);
});

test('a panel that fits none is told with what is missing on the cloth it comes nearest to', () => {
  const job = jobOf([pieceOf(1, rectangle(512, 300)), pieceOf(2, rectangle(200, 100))]);
  expect(misfitOf(job, job.pieces[0]!, cloth(rectangle(500, 290)))).toMatchObject({ along: 12, across: 10 });
  expect(misfitOf(job, job.pieces[1]!, cloth(rectangle(500, 290)))).toBeNull();
  const near = { ...remnantOf(rectangle(505, 400)), id: 'near' as RemnantId };
  const unfitting = unfittingPanels(job, [remnantOf(rectangle(450, 350)), near]);
  expect(unfitting).toMatchObject([{ number: 1, along: 7, across: 0, cloth: { remnant: 'near' } }]);
  expect(unfittingPanels(job, [])).toEqual([]);
});

test('a panel whose box fits but whose outline does not misses nothing in length or width', () => {
  const piece = pieceOf(1, rectangle(900, 700));
  expect(misfitOf(jobOf([piece]), piece, cloth(ELL))).toMatchObject({ along: 0, across: 0 });
});

test('each piece of own cloth is told with its panels and what is left of it', () => {
  const job = jobOf([pieceOf(1, rectangle(400, 300)), pieceOf(2, rectangle(390, 300))], { width: 300 });
  const remnants = [remnantOf(rectangle(410, 310), 2)];
  const uses = ownClothUses(job, planCloth(job, remnants), remnants);
  expect(uses.map(({ name, of, panels, cloth: { copy } }) => [name, of, panels, copy])).toEqual([
    ['left from the skirt', 2, expect.any(Array), 1],
    ['left from the skirt', 2, expect.any(Array), 2],
  ]);
  expect(uses.flatMap(({ panels }) => panels).sort((a, b) => a - b)).toEqual([1, 2]);
  expect(uses.reduce((sum, { left }) => sum + left.area, 0)).toBeCloseTo(2 * 410 * 310 - 790 * 300, 6);
});

test('cloth that is left whole is told with the panels that would fit it', () => {
  const job = jobOf([pieceOf(1, rectangle(800, 500)), pieceOf(2, rectangle(200, 200))], { width: 900 });
  const remnants = [remnantOf(rectangle(250, 250))];
  const [use] = ownClothUses(job, planCloth(job, remnants), remnants);
  expect(use).toMatchObject({ plan: null, panels: [], fitting: [2], left: { area: 250 * 250 } });
});

test('of twenty kinds of cloth each is told with its own panels, and a plan asked about again is not looked at again', () => {
  const job = jobOf([pieceOf(1, rectangle(800, 500)), pieceOf(2, rectangle(200, 200))], { width: 900 });
  const remnants = Array.from({ length: 20 }, (_, i): Remnant => {
    const side = 100 + 30 * i;
    return { ...remnantOf(rectangle(2 * side, side)), id: `r${i}` as RemnantId };
  });
  const plan = planCloth(job, remnants);
  const uses = ownClothUses(job, plan, remnants);
  expect(uses.map(({ fitting }) => fitting)).toEqual(
    // 2 fits from a side of 220 on, 1 from 520 on
    remnants.map((_, i) => (i < 4 ? [] : i < 14 ? [2] : [1, 2])),
  );
  expect(ownClothUses(job, plan, remnants)).toBe(uses);
});
