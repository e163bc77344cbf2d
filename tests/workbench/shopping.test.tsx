// @vitest-environment jsdom
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { beforeEach, expect, test, vi } from 'vitest';
import { layJobs, planLay, startWidthTable, withoutOwn, WORK_PER_SECOND } from '../../src/fabric';
import type { TableListener, TableOrder } from '../../src/fabric/worker/tableClient';
import { deriveGarment } from '../../src/garment';
import type { Design } from '../../src/pattern';
import { LayRoom, type LayState } from '../../src/workbench/handOut/layRoom';
import { LayContext } from '../../src/workbench/handOut/RoomsContext';
import { ShoppingPart } from '../../src/workbench/sheets/ShoppingPart';
import { WidthTablePart } from '../../src/workbench/sheets/WidthTablePart';
import { WHOLE, designOf, straight } from './pieces';
import { onStage } from './stage';

/** Tables begun by the bench, filled by hand. */
const begun: { order: TableOrder; listener: TableListener; isCancelled: boolean }[] = [];
vi.mock('../../src/fabric/worker/tableClient', () => ({
  startTable: (order: TableOrder, listener: TableListener) => {
    const table = { order, listener, isCancelled: false };
    begun.push(table);
    return { cancel: () => (table.isCancelled = true) };
  },
}));
beforeEach(() => begun.splice(0));

const crossed = designOf(WHOLE, straight('line-1', [0, 200], [200, 200]));
const withPrice: Design = { ...crossed, colours: crossed.colours.map((c) => ({ ...c, price: 20 })) };

const laysOf = (doc: Design, done = true): LayState[] =>
  layJobs(deriveGarment(doc), { seconds: 0 }).map((job) => ({
    colour: job.colour,
    job,
    plan: { own: [], bought: planLay(job) },
    progress: done ? 1 : 0.5,
    done,
    failed: null,
    history: [],
    searched: 0,
    other: null,
  }));

test('the shopping list shows what to ask for, how it comes about, what it costs and the total', () => {
  const lays = laysOf(withPrice);
  onStage(<ShoppingPart lays={lays} />, withPrice);
  const { buy } = lays[0]!.plan!.bought;
  const row = screen.getByRole('row', { name: /140 cm wide/ });
  expect(within(row).getByText(`${(buy / 1000).toFixed(1)} m`)).toBeTruthy();
  expect(within(row).getByText(((buy / 1000) * 20).toFixed(2))).toBeTruthy();
  expect(row.textContent).toMatch(/The lay plan uses [\d.]+ cm.*20\.00 a metre\./);
  expect(screen.getByText(/in all, without thread\./).textContent).toContain(((buy / 1000) * 20).toFixed(2));
  expect(screen.getByText('Thread')).toBeTruthy();
});

test('a cloth without a plan is in the list, marked so', () => {
  onStage(<ShoppingPart lays={[]} />, withPrice);
  expect(screen.getByText('not laid yet')).toBeTruthy();
});

test('the list is copied as text; where that is refused it is shown to be copied by hand', async () => {
  const copied: string[] = [];
  vi.stubGlobal('navigator', {
    clipboard: { writeText: (t: string) => Promise.resolve(void copied.push(t)) },
  });
  const { store, unmount } = onStage(<ShoppingPart lays={laysOf(withPrice)} />, withPrice);
  fireEvent.click(screen.getByRole('button', { name: 'Copy as text' }));
  await screen.findByRole('button', { name: 'Copied' });
  expect(copied[0]).toContain(`What to buy for ${withPrice.name}`);
  expect(store.getState().spoken).toBe('The shopping list is copied.');
  unmount();
  vi.stubGlobal('navigator', { clipboard: { writeText: () => Promise.reject(new Error('refused')) } });
  onStage(<ShoppingPart lays={laysOf(withPrice)} />, withPrice);
  fireEvent.click(screen.getByRole('button', { name: 'Copy as text' }));
  expect(((await screen.findByLabelText(/copy it/)) as HTMLTextAreaElement).value).toBe(copied[0]);
  vi.unstubAllGlobals();
});

test('the table of widths waits for its plan, fills as entries are found, and marks the cloth’s own width', async () => {
  const [lay] = laysOf(crossed);
  const { rerender } = onStage(<WidthTablePart lay={{ ...lay!, done: false }} />, crossed);
  expect(screen.getByText(/follows when the search for your width is over/)).toBeTruthy();
  expect(begun).toEqual([]);
  rerender(<></>);
  onStage(<WidthTablePart lay={lay!} />, crossed);
  await waitFor(() => expect(begun).toHaveLength(1));
  const [{ order, listener }] = begun as [(typeof begun)[0]];
  expect(order).toMatchObject({ shown: lay!.plan!.bought, width: crossed.colours[0]!.width });
  const table = startWidthTable(order.job, order.shown, { seconds: 0 });
  listener.onRows!(table.rows, table.progress);
  const own = await screen.findByRole('row', { current: true });
  expect(own.textContent).toMatch(/140 cm.*yours/);
  expect(screen.getAllByText('not found yet').length).toBeGreaterThan(0);
  while (!table.done) table.step(WORK_PER_SECOND);
  listener.onRows!(table.rows, 1);
  listener.onEnded!({ because: 'finished' });
  await waitFor(() => expect(screen.queryByText('not found yet')).toBeNull());
  expect(screen.getByText(/read from a real lay plan for that width/)).toBeTruthy();
});

test('choosing a width makes it the cloth’s, in one step that can be taken back', async () => {
  const [lay] = laysOf(crossed);
  const { store } = onStage(<WidthTablePart lay={lay!} />, crossed);
  await waitFor(() => expect(begun).toHaveLength(1));
  const table = startWidthTable(begun[0]!.order.job, begun[0]!.order.shown, { seconds: 0 });
  begun[0]!.listener.onRows!(table.rows, 0);
  fireEvent.click(await screen.findByRole('button', { name: /115 cm wide/ }));
  expect(store.getState().doc.colours[0]!.width).toBe(1150);
  expect(store.getState().spoken).toMatch(/115 cm wide now/);
  store.getState().undo();
  expect(store.getState().doc.colours[0]!.width).toBe(1400);
});

test('a table under way is cancelled when it is left; a finished one is found again', async () => {
  const [lay] = laysOf(crossed);
  const first = onStage(<WidthTablePart lay={lay!} />, crossed);
  await waitFor(() => expect(begun).toHaveLength(1));
  first.unmount();
  expect(begun[0]!.isCancelled).toBe(true);
  const second = onStage(<WidthTablePart lay={lay!} />, crossed);
  await waitFor(() => expect(begun).toHaveLength(2));
  const table = startWidthTable(lay!.job, lay!.plan!.bought, { seconds: 0 });
  while (!table.done) table.step(WORK_PER_SECOND);
  begun[1]!.listener.onRows!(table.rows, 1);
  begun[1]!.listener.onEnded!({ because: 'finished' });
  second.unmount();
  onStage(<WidthTablePart lay={lay!} />, crossed);
  expect(screen.getByRole('row', { current: true })).toBeTruthy();
  expect(begun).toHaveLength(2);
});

test('a shorter plan for the cloth’s own width is handed to the room of lay plans when the table is full', async () => {
  const [lay] = laysOf(crossed);
  const room = new LayRoom();
  const offered = vi.spyOn(room, 'offer');
  onStage(
    <LayContext value={room}>
      <WidthTablePart lay={lay!} />
    </LayContext>,
    crossed,
  );
  await waitFor(() => expect(begun).toHaveLength(1));
  const [{ order, listener }] = begun as [(typeof begun)[0]];
  const better = { ...order.shown, length: order.shown.length - 10 };
  listener.onBetter!(better);
  expect(offered).not.toHaveBeenCalled();
  listener.onEnded!({ because: 'finished' });
  expect(offered.mock.calls).toEqual([[lay!.colour, order.shown, better]]);
});

test('a table that failed says why; a cloth cut from one’s own alone has none', async () => {
  const [lay] = laysOf(crossed);
  const failed = onStage(<WidthTablePart lay={lay!} />, crossed);
  await waitFor(() => expect(begun).toHaveLength(1));
  begun[0]!.listener.onEnded!({ because: 'failed', message: 'It stopped.' });
  await screen.findByText('It stopped.');
  failed.unmount();
  const all = lay!.plan!.bought;
  expect(withoutOwn(lay!.job, [all]).pieces).toEqual([]);
  const { container } = onStage(
    <WidthTablePart lay={{ ...lay!, plan: { own: [all], bought: { ...all, placed: [] } } }} />,
    crossed,
  );
  expect(container.textContent).toBe('');
});
