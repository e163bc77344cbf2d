// @vitest-environment jsdom
import { act, screen, waitFor, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { layJobs, planCloth } from '../../src/fabric';
import { LayTeam } from '../../src/fabric/worker';
import type { Garment } from '../../src/garment';
import { leaveOf } from '../../src/panels';
import type { Design } from '../../src/pattern';
import { LayTable } from '../../src/workbench/cloth/LayTable';
import { LayContext } from '../../src/workbench/handOut/RoomsContext';
import { LayRoom } from '../../src/workbench/handOut/layRoom';
import { ClothSheet } from '../../src/workbench/sheets/ClothSheet';
import { garmentOf } from '../../src/workbench/store/benchStore';
import { fakeWorkers, type FakeWorker } from '../fabric/fakeSeats';
import { WHOLE, designOf, straight } from './pieces';
import { onStage } from './stage';

beforeEach(() => {
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe(): void {}
      disconnect(): void {}
    },
  );
  // the table of widths has a worker of its own, which stays silent here
  vi.stubGlobal(
    'Worker',
    class {
      postMessage(): void {}
      terminate(): void {}
    },
  );
  window.matchMedia ??= ((query: string) => ({ matches: false, media: query })) as never;
});

/** Cut as a pair along a line aslant: an upper and a lower panel, twice each. */
const pairs: Design = designOf({ ...WHOLE, cutting: 'pair' }, straight('line-1', [0, 160], [200, 190]));
const [first] = pairs.colours;

async function benchOf(design: Design) {
  const workers = fakeWorkers();
  const room = new LayRoom(() =>
    Promise.resolve({
      layJobs: (garment: Garment, settings) => layJobs(garment, settings),
      makeTeam: (listener) => new LayTeam(listener, 1, workers.make),
    }),
  );
  const shown = onStage(
    <LayContext value={room}>
      <ClothSheet />
      <LayTable />
    </LayContext>,
    design,
  );
  const working = async (): Promise<FakeWorker> => {
    await waitFor(() => expect(workers.living()).toHaveLength(1));
    return workers.living()[0]!;
  };
  /** Lay what is asked for, for real, without search. */
  const layIt = async (): Promise<void> => {
    const worker = await working();
    const { job, remnants } = worker.asked.at(-1)!;
    act(() => worker.finishWith(planCloth({ ...job, seconds: 0 }, remnants)));
  };
  return { ...shown, workers, working, layIt, room };
}

const card = (name: string): HTMLElement => screen.getByRole('region', { name });

test('a cloth tells what to buy of it, is searched until one stops and keeps, and can be searched longer', async () => {
  const { working, workers } = await benchOf(pairs);
  const worker = await working();
  expect(screen.queryByRole('button', { name: 'Stop and keep' })).toBeNull();
  act(() => worker.better(820));
  expect(within(card(first!.name)).getByText('0.9 m')).toBeTruthy();
  act(() => worker.better(650, 0.5));
  expect(within(card(first!.name)).getByText('0.7 m')).toBeTruthy();
  expect(card(first!.name).textContent).toMatch(/82 cm at first, 65 cm after/);
  await userEvent.click(screen.getByRole('button', { name: 'Stop and keep' }));
  expect(worker.isEnded).toBe(true);
  expect(within(card(first!.name)).getByText('0.7 m')).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: '1 minute' }));
  expect((await working()).job.seconds).toBe(60);
  expect(workers.living()).toHaveLength(1);
});

test('changing what is known of a cloth lays it anew, and what cannot be is said beside the field', async () => {
  const { store, layIt, working } = await benchOf(pairs);
  await layIt();
  await userEvent.click(screen.getByText(/^About this cloth/));
  const width = screen.getByLabelText('Width between the selvedges');
  await userEvent.clear(width);
  await userEvent.type(width, '4{Enter}');
  expect(screen.getByRole('alert').textContent).toMatch(/from 10 cm to 500 cm/);
  await userEvent.clear(width);
  await userEvent.type(width, '120{Enter}');
  expect(store.getState().doc.colours[0]!.width).toBe(1200);
  expect((await working()).job.width).toBe(1200);
  await userEvent.click(screen.getByLabelText(/One way only/));
  expect(store.getState().doc.colours[0]!.nap).toBe(true);
  const shrinks = screen.getByLabelText('Shrinks along, %');
  await userEvent.clear(shrinks);
  await userEvent.type(shrinks, 'much{Enter}');
  expect(screen.getByRole('alert').textContent).toBe('Give a number from 0 to 40.');
});

test('the other layering is proposed with what it costs and saves, and taken at a click', async () => {
  const { store, layIt, working } = await benchOf(pairs);
  await layIt();
  expect((await working()).job.layering).toBe('folded');
  await layIt();
  const proposal = await screen.findByText(/^Folded lengthwise:/);
  expect(proposal.textContent).toMatch(/2 outlines to cut instead of 4/);
  await userEvent.click(screen.getByRole('button', { name: 'Lay it folded' }));
  expect(store.getState().doc.colours[0]!.layering).toBe('folded');
});

test('a panel too wide for its cloth is told with choices that are carried out where they stand', async () => {
  const narrow = { ...pairs, colours: pairs.colours.map((c) => ({ ...c, width: 150 })) };
  const { store, layIt } = await benchOf(narrow);
  await layIt();
  const lowest = garmentOf(store.getState()).plan.numbers;
  expect(lowest.size).toBe(2);
  const [wider] = await screen.findAllByRole('button', { name: 'Cloth 90 cm wide' });
  await userEvent.click(screen.getAllByRole('button', { name: 'Go to its lines' })[0]!);
  expect(store.getState()).toMatchObject({ place: 'lines', selected: { kind: 'panel' } });
  await userEvent.click(wider!);
  expect(store.getState().doc.colours[0]!.width).toBe(900);
});

test('every laid piece is a button by its name; arrows go from one to the next, Enter chooses its panel', async () => {
  const { store, layIt } = await benchOf(pairs);
  await layIt();
  const plan = await screen.findByRole('group', { name: `Lay plan of ${first!.name}` });
  const pieces = within(plan).getAllByRole('button');
  expect(pieces).toHaveLength(4);
  expect(pieces.map((p) => p.getAttribute('aria-label')!).toSorted((a, b) => a.localeCompare(b))).toEqual([
    '1 front, one of a pair',
    '1 front, the mirrored one of a pair, its paper lies printed side down',
    '2 front, one of a pair',
    '2 front, the mirrored one of a pair, its paper lies printed side down',
  ]);
  expect(pieces.filter((p) => p.getAttribute('tabindex') === '0')).toHaveLength(1);
  act(() => pieces[0]!.focus());
  await userEvent.keyboard('{ArrowRight}');
  expect(document.activeElement).toBe(pieces[1]);
  await userEvent.keyboard('{ArrowLeft}{ArrowLeft}');
  expect(document.activeElement).toBe(pieces[3]);
  await userEvent.keyboard('{Enter}');
  expect(store.getState().selected).toMatchObject({ kind: 'panel' });
  expect(screen.getByText('mirrored: lay its paper printed side down')).toBeTruthy();
});

test('a chosen panel is given leave to lie off its grain, by so many degrees, and loses it again', async () => {
  const { store, layIt } = await benchOf(pairs);
  await layIt();
  const panel = garmentOf(store.getState()).panels[0]!;
  act(() => store.getState().set({ selected: { kind: 'panel', panel: panel.id } }));
  await userEvent.click(screen.getByLabelText('May lie off its grain'));
  expect(leaveOf(store.getState().doc, panel)).toBe(5);
  const degrees = screen.getByLabelText('Degrees to either side');
  await userEvent.clear(degrees);
  await userEvent.type(degrees, '12{Enter}');
  expect(leaveOf(store.getState().doc, panel)).toBe(12);
  await userEvent.click(screen.getByLabelText('May lie off its grain'));
  expect(leaveOf(store.getState().doc, panel)).toBeNull();
});

test('folded cloth is shown opened out or as it lies: then a pair is seen once', async () => {
  const folded = { ...pairs, colours: pairs.colours.map((c) => ({ ...c, layering: 'folded' as const })) };
  const { layIt } = await benchOf(folded);
  await layIt();
  const plan = await screen.findByRole('group', { name: `Lay plan of ${first!.name}` });
  expect(within(plan).getAllByRole('button')).toHaveLength(4);
  await userEvent.click(screen.getByLabelText('as it lies'));
  expect(within(plan).getAllByRole('button')).toHaveLength(2);
  expect(within(plan).getByText('fold')).toBeTruthy();
});

test('what is to be bought is read out when all cloths are at rest, and not at every better plan', async () => {
  const { store, working } = await benchOf(pairs);
  const worker = await working();
  act(() => worker.better(820));
  const spoken = store.getState().spoken;
  expect(spoken).toMatch(/^First plans: .* 0\.9 m/);
  act(() => worker.better(810));
  act(() => worker.better(700));
  expect(store.getState().spoken).toBe(spoken);
  act(() => worker.finish(690));
  expect(store.getState().spoken).toMatch(/^To buy: .* 0\.7 m/);
});
