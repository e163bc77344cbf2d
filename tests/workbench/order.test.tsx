// @vitest-environment jsdom
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { OrderSheet } from '../../src/workbench/sheets/OrderSheet';
import type { BenchStore } from '../../src/workbench/store/benchStore';
import { lined, rectangle } from '../making/designs';
import { readFiles } from '../../src/workbench/bringIn/readFiles';
import { onStage } from './stage';

/** Two strips joined within themselves, then to each other: the last has to wait for the others. */
const strips = lined(rectangle(300, 300), [
  [
    [0, 150],
    [300, 150],
  ],
  [
    [150, 0],
    [150, 150],
  ],
  [
    [100, 150],
    [100, 300],
  ],
]);

const read = readFiles([
  {
    name: 'sheath.svg',
    data: readFileSync(join(import.meta.dirname, '../../demo-data/sheath.svg'), 'utf8'),
  },
]);
if (!read.ok) throw new Error('the demo is unsound');
const demo = read.value.design;

const keys = (store: BenchStore): string[] =>
  deriveGarment(store.getState().doc).plan.steps.map((s) => s.key);

const rows = (): HTMLElement[] => screen.getAllByRole('button', { name: /^\d+Sew/ });
const handles = (): HTMLElement[] => screen.getAllByRole('button', { name: /^Move step/ });

test('a chosen step opens its picture and its telling, and lights up what it sews', async () => {
  const { store } = onStage(<OrderSheet />, demo);
  await userEvent.click(rows()[0]!);
  const picture = await screen.findByRole('img', { name: /^Picture of step 1/ });
  const own = within(picture.closest('li')!);
  expect(own.getByText(/right sides together/)).toBeTruthy();
  expect(own.getByText('Press')).toBeTruthy();
  expect(store.getState().lit!.panels.size).toBe(2);
  await userEvent.click(rows()[0]!);
  expect(screen.queryByRole('img', { name: /^Picture of step/ })).toBeNull();
});

test('a step that sews outer edges lights them up', async () => {
  const { store } = onStage(<OrderSheet />, demo);
  const sides = screen.getByRole('button', { name: /both side seams/ });
  await userEvent.click(sides);
  expect(store.getState().lit!.paths.length).toBeGreaterThanOrEqual(4);
  expect(store.getState().lit!.seams.size).toBe(0);
});

test('Alt and an arrow move a step, the focus goes with it, and it is said', async () => {
  const { store } = onStage(<OrderSheet />, strips);
  const [first, second, third] = keys(store);
  rows()[1]!.focus();
  await userEvent.keyboard('{Alt>}{ArrowUp}{/Alt}');
  expect(keys(store)).toEqual([second, first, third]);
  expect(document.activeElement).toBe(rows()[0]);
  expect(store.getState().spoken).toBe('Step 2 is step 1 now.');
  await userEvent.keyboard('{Alt>}{ArrowDown}{/Alt}');
  expect(keys(store)).toEqual([first, second, third]);
  expect(document.activeElement).toBe(rows()[1]);
});

test('the handle moves by keys too and keeps the focus', async () => {
  const { store } = onStage(<OrderSheet />, strips);
  const [first, second, third] = keys(store);
  handles()[1]!.focus();
  await userEvent.keyboard('{Alt>}{ArrowUp}{/Alt}');
  expect(keys(store)).toEqual([second, first, third]);
  expect(document.activeElement).toBe(handles()[0]);
});

test('a step that others wait for does not go after them: it is said why, there and aloud, and nothing changes', async () => {
  const { store } = onStage(<OrderSheet />, strips);
  const before = keys(store);
  rows()[1]!.focus();
  await userEvent.keyboard('{Alt>}{ArrowDown}{/Alt}');
  expect(keys(store)).toEqual(before);
  expect(store.getState().past).toHaveLength(0);
  const said = screen.getByText(/Step 2 cannot go there\./);
  expect(said.textContent).toMatch(/its seam ends on that of step 3/);
  expect(store.getState().spoken).toBe(said.textContent);
  await userEvent.click(screen.getByRole('button', { name: 'Understood' }));
  expect(screen.queryByText(/cannot go there/)).toBeNull();
});

test('buttons of the open step move it earlier and later; as proposed forgets what was wished', async () => {
  const { store } = onStage(<OrderSheet />, strips);
  const before = keys(store);
  expect(screen.queryByRole('button', { name: 'As proposed' })).toBeNull();
  await userEvent.click(rows()[1]!);
  await userEvent.click(await screen.findByRole('button', { name: 'Earlier' }));
  expect(keys(store)).toEqual([before[1], before[0], before[2]]);
  await userEvent.click(screen.getByRole('button', { name: 'As proposed' }));
  expect(keys(store)).toEqual(before);
  store.getState().undo();
  expect(keys(store)).toEqual([before[1], before[0], before[2]]);
});

test('how sleeves are sewn in and how often the thread changes are chosen here', async () => {
  const { store } = onStage(<OrderSheet />, demo);
  await userEvent.click(screen.getByText('How you like to sew: sleeves sewn in flat'));
  await userEvent.click(screen.getByLabelText('set in'));
  expect(screen.getByText('How you like to sew: sleeves set in')).toBeTruthy();
  expect(store.getState().doc.sewing.sleeves).toBe('set in');
  await userEvent.click(screen.getByLabelText('Fewest changes of thread'));
  expect(store.getState().doc.sewing.fewThreads).toBe(true);
});

test('panels that keep old numbers are numbered anew in sewing order', async () => {
  const { panels, plan } = deriveGarment(strips);
  const numbers = panels.map((p) => ({
    piece: p.piece,
    at: p.flat.at,
    number: panels.length + 1 - plan.numbers.get(p.id)!,
  }));
  const { store } = onStage(<OrderSheet />, { ...strips, numbers });
  await userEvent.click(screen.getByRole('button', { name: 'Number panels anew in sewing order' }));
  expect(store.getState().doc.numbers).toEqual([]);
});

test('a step moved elsewhere leaves every panel its number, and numbering anew is offered where it would change one', async () => {
  const { store } = onStage(<OrderSheet />, demo);
  const numbers = (): readonly string[] =>
    [...deriveGarment(store.getState().doc).plan.numbers].map(([panel, n]) => `${panel} ${n}`).sort();
  const before = numbers();
  const row = rows().find((r) => /Sew 1–4 to 5/.test(r.textContent))!;
  await userEvent.click(row);
  await userEvent.click(await screen.findByRole('button', { name: 'Later' }));
  expect(store.getState().doc.sewing.order).not.toEqual([]);
  expect(numbers()).toEqual(before);
  await userEvent.click(screen.getByRole('button', { name: 'Number panels anew in sewing order' }));
  expect(numbers()).not.toEqual(before);
  expect(screen.queryByRole('button', { name: 'Number panels anew in sewing order' })).toBeNull();
});
