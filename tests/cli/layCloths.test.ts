import { expect, test, vi } from 'vitest';
import { layCloths } from '../../src/cli/layCloths';
import { classGarment } from '../paper/classGarment';

// A search at full length: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

test('what the table says of the cloth’s own width is what its lay plan says to buy', () => {
  const garment = classGarment();
  const { layPlans, widthTables } = layCloths(garment, { seconds: 1 });
  expect(widthTables.size).toBe(layPlans.length);
  for (const plan of layPlans) {
    const shown = widthTables.get(plan.colour)!.flatMap((row) => row.entries.filter((e) => e.isShown));
    expect(shown).toHaveLength(1);
    expect(shown[0]!.plan!.buy).toBe(plan.buy);
    expect(shown[0]!.plan!.length).toBe(plan.length);
  }
});

test('with no time for it there is no table of widths, but a plan of every cloth', () => {
  const { layPlans, widthTables } = layCloths(classGarment(), { seconds: 0 });
  expect(widthTables.size).toBe(0);
  expect(layPlans.every((plan) => plan.placed.length > 0)).toBe(true);
});
