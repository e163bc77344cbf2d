import { expect, test } from 'vitest';
import { type ClothBuy, type ClothChange, acrossLine } from '../../src/garment/spots';
import type { ColourId } from '../../src/pattern';
import { sayCloth, saySaving, sayWay } from '../../src/workbench/cost/costWords';
import { panelled, WHOLE } from './pieces';

const buy = (mm: number, over: Partial<ClothBuy> = {}): ClothBuy => ({
  colour: 'navy' as ColourId,
  name: 'navy',
  length: mm - 5,
  buy: mm,
  cost: null,
  misfits: [],
  ...over,
});
const change = (was: ClothBuy | null, is: ClothBuy | null): ClothChange => ({
  colour: 'navy' as ColourId,
  name: 'navy',
  before: was,
  after: is,
});

test('a cloth is said with what it comes to and the difference, only about so while its plan is a quick one', () => {
  const less = change(buy(1400), buy(1300));
  expect(sayCloth(null, 'quick', 'cm').buy).toBe('…');
  expect(sayCloth(less, 'quick', 'cm')).toMatchObject({ buy: 'about 1.3 m', difference: '10 cm less' });
  expect(sayCloth(less, 'better', 'cm').buy).toBe('1.3 m');
  expect(sayCloth(change(buy(1300), buy(1300)), 'best', 'cm').difference).toBe('as before');
  const dear = change(buy(1400, { cost: 21 }), buy(1300, { cost: 19.5 }));
  expect(sayCloth(dear, 'best', 'cm').cost).toBe('19.50, 1.50 less');
  const yards = change(buy(914.4), buy(914.4 + 114.3));
  expect(sayCloth(yards, 'best', 'in')).toMatchObject({ buy: '1 1/8 yd', difference: '1/8 yd more' });
  const wide = change(buy(1300), buy(0, { misfits: [3] }));
  expect(sayCloth(wide, 'best', 'cm')).toMatchObject({
    buy: 'panel 3 is too wide',
    difference: '',
    cost: '',
  });
});

test('a spot is said with its way and all that changes there', () => {
  const priced = [
    change(buy(1400, { cost: 28 }), buy(1300, { cost: 26 })),
    change(buy(500, { name: 'sand', cost: 2.5 }), buy(600, { name: 'sand', cost: 3 })),
  ];
  priced[1] = { ...priced[1]!, name: 'sand' };
  expect(saySaving(priced, 'cm')).toBe('10 cm less navy, 10 cm more sand, 1.50 less to pay');
  expect(saySaving([change(buy(0, { misfits: [2] }), buy(600))], 'cm')).toBe('panel 2 fits the navy');
  const { whole } = panelled(WHOLE);
  const level = (y: number) => [
    [
      [0, y],
      [100, y],
    ] as const,
  ];
  expect(sayWay(level(100), level(112), whole, 'cm')).toBe('1.2 cm lower');
  expect(sayWay(level(100), level(92), whole, 'cm')).toBe('0.8 cm higher');
  const upright = (x: number) => [
    [
      [x, 0],
      [x, 100],
    ] as const,
  ];
  expect(sayWay(upright(50), upright(40), whole, 'cm')).toBe('1 cm to the left');
  expect(acrossLine(level(100))).not.toBeNull();
});
