import { expect, test } from 'vitest';
import { checkLay, compareLayerings, planLay } from '../../src/fabric';
import type { LayPlan, Placement } from '../../src/fabric';
import type { PanelId } from '../../src/panels';
import { garmentPieces, jobOf, pieceOf, rectangle } from './madeUpPieces';

const placements = (pairs: number, alone: number): Placement[] => {
  const at = (panel: string, copy: number): Placement => ({
    panel: panel as PanelId,
    copy,
    flipped: copy === 2,
    x: 0,
    y: 0,
    rotation: 0,
  });
  return [
    ...Array.from({ length: pairs }, (_, i) => [at(`pair${i}`, 1), at(`pair${i}`, 2)]).flat(),
    ...Array.from({ length: alone }, (_, i) => at(`one${i}`, 1)),
  ];
};
const empty = planLay(jobOf([]));
const plan = (
  layering: LayPlan['layering'],
  buy: number,
  length: number,
  placed = placements(2, 1),
): LayPlan => ({ ...empty, layering, buy, length, placed });

test('what is bought decides first, whatever is cut', () => {
  expect(compareLayerings(plan('single', 1200, 1190), plan('folded', 1300, 1210))).toEqual({
    proposed: 'single',
    because: 'buy',
    saves: { buy: 100, length: 20 },
    cuts: { single: 5, folded: 3 },
  });
});

test('where as much is bought, fewer cuts decide, though the plan be longer', () => {
  expect(compareLayerings(plan('single', 1300, 1210), plan('folded', 1300, 1290))).toEqual({
    proposed: 'folded',
    because: 'cuts',
    saves: { buy: 0, length: -80 },
    cuts: { single: 5, folded: 3 },
  });
});

test('with as many cuts the shorter one is proposed, and one layer where nothing differs', () => {
  const alone = placements(0, 3);
  const choice = compareLayerings(plan('single', 1300, 1290, alone), plan('folded', 1300, 1280, alone));
  expect(choice).toMatchObject({ proposed: 'folded', because: 'length', saves: { buy: 0, length: 10 } });
  expect(
    compareLayerings(plan('single', 1300, 1290, alone), plan('folded', 1300, 1290, alone)),
  ).toMatchObject({ proposed: 'single', because: 'equal' });
});

test('a plan goes before none', () => {
  const none = { ...plan('folded', 0, 0, []) };
  expect(compareLayerings(plan('single', 1300, 1210), none)).toEqual({
    proposed: 'single',
    because: 'fits',
    saves: { buy: 0, length: 0 },
    cuts: { single: 5, folded: null },
  });
});

test('plans given the wrong way round are refused', () => {
  expect(() => compareLayerings(plan('folded', 1, 1), plan('single', 1, 1))).toThrow(RangeError);
});

test('of real plans, pairs of squares are cut half as often on the fold', () => {
  const pairs = [1, 2].flatMap((n) => [
    pieceOf(n, rectangle(300, 300)),
    pieceOf(n, rectangle(300, 300), { copy: 2, flipped: true }),
  ]);
  const job = jobOf(pairs, { width: 1200 });
  const choice = compareLayerings(planLay(job), planLay({ ...job, layering: 'folded' }));
  expect(choice).toMatchObject({ proposed: 'folded', because: 'cuts', cuts: { single: 4, folded: 2 } });
});

test('a folded plan can be cut from one layer as well', () => {
  const job = jobOf(garmentPieces(5, 8), { gap: 2 });
  const folded = planLay({ ...job, layering: 'folded' });
  expect(folded.placed.length).toBe(8);
  expect(checkLay(job, folded.placed)).toEqual([]);
});
