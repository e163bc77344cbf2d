import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  COUNTER_STEP,
  buySum,
  buySumOf,
  costOf,
  counterLength,
  lengthToBuy,
  planLay,
  priceAsSaid,
  pricePerMetre,
  sayAtCounter,
  saySum,
  type BuyRule,
} from '../../src/fabric';
import { MM_PER_INCH, PLAIN_CLOTH, type RemnantId, type Units } from '../../src/pattern';
import { jobOf, pieceOf, rectangle } from './madeUpPieces';

const plain: BuyRule = { shrinkage: 0, repeat: { along: 0 }, reserve: 0, units: 'cm' };

const rule = fc.record({
  shrinkage: fc.double({ min: 0, max: 40, noNaN: true }),
  repeat: fc.record({ along: fc.double({ min: 0, max: 900, noNaN: true }) }),
  reserve: fc.double({ min: 0, max: 2000, noNaN: true }),
  units: fc.constantFrom<Units>('cm', 'in'),
});
const laid = fc.double({ min: 0.01, max: 20_000, noNaN: true });

test('what is bought is never less than what is needed, and less than one step more', () => {
  fc.assert(
    fc.property(laid, rule, (length, r) => {
      const need = (length + r.repeat.along) / (1 - r.shrinkage / 100) + r.reserve;
      const { buy } = buySum(length, r);
      expect(buy).toBeGreaterThanOrEqual(need - 1e-6);
      expect(buy).toBeLessThan(need + COUNTER_STEP[r.units]);
      expect(Math.abs(buy / COUNTER_STEP[r.units] - Math.round(buy / COUNTER_STEP[r.units]))).toBeLessThan(
        1e-9,
      );
    }),
    { numRuns: 500, seed: 5 },
  );
});

test('the parts of a sum add up to what is bought, and none of them is negative', () => {
  fc.assert(
    fc.property(laid, rule, (length, r) => {
      const { buy, ...parts } = buySum(length, r);
      expect(Object.values(parts).reduce((sum, mm) => sum + mm, 0)).toBeCloseTo(buy, 5);
      expect(Math.min(...Object.values(parts))).toBeGreaterThanOrEqual(0);
    }),
    { numRuns: 500, seed: 6 },
  );
});

test('more of anything never lowers what is bought', () => {
  fc.assert(
    fc.property(laid, rule, fc.double({ min: 0, max: 500, noNaN: true }), (length, r, more) => {
      const { buy } = buySum(length, r);
      expect(buySum(length + more, r).buy).toBeGreaterThanOrEqual(buy);
      expect(buySum(length, { ...r, reserve: r.reserve + more }).buy).toBeGreaterThanOrEqual(buy);
      expect(buySum(length, { ...r, repeat: { along: r.repeat.along + more } }).buy).toBeGreaterThanOrEqual(
        buy,
      );
      const shrinkage = Math.min(99, r.shrinkage + more / 50);
      expect(buySum(length, { ...r, shrinkage }).buy).toBeGreaterThanOrEqual(buy);
    }),
    { numRuns: 300, seed: 7 },
  );
});

test('a repeat is bought once more, washing takes its share of all that is cut, the reserve comes on top', () => {
  // (1000 + 200) / 0.96 = 1250; and 130 in reserve: 1380, so 14 steps of 10 cm
  const sum = buySum(1000, { shrinkage: 4, repeat: { along: 200 }, reserve: 130, units: 'cm' });
  expect(sum).toMatchObject({ laid: 1000, repeat: 200, reserve: 130, buy: 1400 });
  expect(sum.shrinkage).toBeCloseTo(50, 9);
  expect(sum.rounding).toBeCloseTo(20, 9);
  expect(saySum(sum, 'cm')).toBe(
    'The lay plan uses 100 cm. Added: one repeat of 20 cm to begin at a motif, 5 cm for washing and 13 cm in reserve. Rounded up to 1.4 m.',
  );
});

test('where nothing is laid nothing is bought, reserve or not', () => {
  expect(buySum(0, { ...plain, reserve: 500, repeat: { along: 300 } }).buy).toBe(0);
  expect(counterLength(0, 5, 'in')).toBe(0);
});

test('a length that is sold is asked for as it is', () => {
  for (let n = 1; n < 200; n += 1)
    for (const units of ['cm', 'in'] as const)
      expect(counterLength(n * COUNTER_STEP[units], 0, units)).toBeCloseTo(n * COUNTER_STEP[units], 9);
  expect(saySum(buySum(1200, plain), 'cm')).toBe('The lay plan uses 120 cm.');
});

test('what makes no sense is refused', () => {
  expect(() => buySum(-1, plain)).toThrow(RangeError);
  expect(() => buySum(NaN, plain)).toThrow(RangeError);
  expect(() => buySum(10, { ...plain, shrinkage: 100 })).toThrow(/shrinkage/);
  expect(() => buySum(10, { ...plain, reserve: -1 })).toThrow(/reserve/);
  expect(() => buySum(10, { ...plain, repeat: { along: Infinity } })).toThrow(/repeat/);
});

test('a plan asks for what the rule of its cloth says, repeat and reserve counted in', () => {
  // a square of 300: 300 + 160 of repeat, over 0.95, + 250 = 734.2
  const job = jobOf([pieceOf(1, rectangle(300, 300))], {
    repeat: { along: 160, across: 0 },
    reserve: 250,
    shrinkage: 5,
  });
  const plan = planLay(job);
  expect(plan.length).toBeCloseTo(300, 6);
  expect(plan.buy).toBe(800);
  // the same from the cloth as it is described: its repeat shrinks with it
  const colour = {
    ...PLAIN_CLOTH,
    shrinkage: { along: 5, across: 0 },
    repeat: { along: 160 / 0.95, across: 0 },
    reserve: 250,
  };
  expect(buySumOf(plan.length, colour, 'cm').buy).toBe(plan.buy);
});

test('what lies on one’s own cloth is not bought', () => {
  const within = { remnant: 'r1' as RemnantId, copy: 1, outline: rectangle(500, 500) };
  expect(lengthToBuy(400, { ...plain, within })).toBe(0);
  expect(lengthToBuy(400, { ...plain, within: null })).toBe(400);
});

test('a price by the yard is kept by the metre and comes back as it was typed', () => {
  // 1 yd = 0.9144 m exactly (international yard of 1959, from memory)
  expect(pricePerMetre(9.144, 'in')).toBeCloseTo(10, 12);
  expect(pricePerMetre(12.5, 'cm')).toBe(12.5);
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 1_000_000 }),
      fc.constantFrom<Units>('cm', 'in'),
      (cents, units) => {
        expect(priceAsSaid(pricePerMetre(cents / 100, units), units)).toBe(cents / 100);
      },
    ),
    { numRuns: 300, seed: 8 },
  );
  // two and a quarter yards at 8.00 a yard
  expect(costOf(2.25 * 36 * MM_PER_INCH, pricePerMetre(8, 'in'))).toBeCloseTo(18, 9);
});

test('lengths are said as they are asked for', () => {
  expect(sayAtCounter(1400, 'cm')).toBe('1.4 m');
  expect(sayAtCounter(600, 'cm')).toBe('0.6 m');
  expect(sayAtCounter(2000, 'cm')).toBe('2.0 m');
  expect(sayAtCounter(1250, 'cm')).toBe('1.25 m');
  const yard = 36 * MM_PER_INCH;
  for (const [yards, words] of [
    [0.125, '1/8 yd'],
    [0.5, '1/2 yd'],
    [1, '1 yd'],
    [1.375, '1 3/8 yd'],
    [2.75, '2 3/4 yd'],
  ] as const)
    expect(sayAtCounter(yards * yard, 'in')).toBe(words);
});
