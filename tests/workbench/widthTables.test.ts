import { afterEach, expect, test, vi } from 'vitest';
import { layJobs } from '../../src/fabric';
import type { TableListener, TableOrder } from '../../src/fabric/worker/tableClient';
import { deriveGarment } from '../../src/garment';
import { withWidthTables } from '../../src/workbench/handOut/widthTables';
import { planOf } from '../fabric/fakeSeats';
import { WHOLE, designOf, straight } from './pieces';

/** Tables begun by the bench, ended by hand. */
const begun: { order: TableOrder; listener: TableListener }[] = [];
vi.mock('../../src/fabric/worker/tableClient', () => ({
  startTable: (order: TableOrder, listener: TableListener) => {
    begun.push({ order, listener });
    return { cancel: () => listener.onEnded!({ because: 'cancelled' }) };
  },
}));
afterEach(() => {
  begun.splice(0);
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

const base = designOf(WHOLE, straight('line-1', [0, 160], [200, 190]));
const garment = deriveGarment({
  ...base,
  marks: [{ piece: WHOLE.id, at: [100, 300], colour: base.colours[1]!.id }],
});
const plans = layJobs(garment).map((job) => planOf(job, 400).bought);
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

test('no more tables are filled at once than there are cores, and a shorter plan found on the way is the plan', async () => {
  vi.stubGlobal('navigator', { hardwareConcurrency: 1 });
  const made = withWidthTables(garment, plans);
  await turn();
  expect(begun.map(({ order }) => order.shown)).toEqual([plans[0]]);
  const shorter = { ...plans[0]!, length: 390 };
  begun[0]!.listener.onRows!([], 1);
  begun[0]!.listener.onBetter!(shorter);
  begun[0]!.listener.onEnded!({ because: 'finished' });
  await turn();
  expect(begun.map(({ order }) => order.shown)).toEqual(plans);
  begun[1]!.listener.onEnded!({ because: 'finished' });
  const { layPlans, widthTables } = await made;
  expect(layPlans).toEqual([shorter, plans[1]]);
  expect([...widthTables.keys()]).toEqual(plans.map(({ colour }) => colour));
});

test('a table that takes too long is left out, and its plan stays', async () => {
  vi.useFakeTimers();
  vi.stubGlobal('navigator', { hardwareConcurrency: 8 });
  const made = withWidthTables(garment, plans);
  expect(begun).toHaveLength(2);
  begun[1]!.listener.onEnded!({ because: 'finished' });
  await vi.advanceTimersByTimeAsync(60_000);
  const { layPlans, widthTables } = await made;
  expect(layPlans).toEqual(plans);
  expect([...widthTables.keys()]).toEqual([plans[1]!.colour]);
});
