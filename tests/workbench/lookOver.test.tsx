// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { deriveGarment, howToCut } from '../../src/garment';
import { openedPiece } from '../../src/pattern';
import { bringIn } from '../../src/workbench/bringIn/bringIn';
import { readFiles } from '../../src/workbench/bringIn/readFiles';
import { PatternSheet } from '../../src/workbench/sheets/PatternSheet';
import { HALF, WHOLE, designOf, straight } from './pieces';
import { onStage } from './stage';

const load = () => Promise.resolve(readFiles);
const svg = (size: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${size}><g id="piece front"><path id="outline" d="M20,20 H220 V520 H20 Z"/></g></svg>`;

async function onTable(size: string) {
  const stage = onStage(<PatternSheet />, designOf(WHOLE));
  await bringIn(stage.store, [{ name: 'own.svg', data: svg(size) }], null, load);
  return stage;
}

const sizes = (): string[] => screen.getAllByRole('cell').map((c) => c.textContent ?? '');

test('after a tracing in real units its sizes are shown, and one word puts the questions away', async () => {
  const { store } = await onTable('width="300mm" height="600mm" viewBox="0 0 300 600"');
  expect(await screen.findByRole('heading', { name: 'Look the tracing over' })).toBeTruthy();
  expect(sizes()).toEqual(['20 cm', '50 cm']);
  expect(screen.queryByRole('note')).toBeNull();
  await userEvent.click(screen.getByRole('button', { name: 'All is right' }));
  expect(screen.queryByRole('heading', { name: 'Look the tracing over' })).toBeNull();
  expect(store.getState().past).toHaveLength(1);
  // and it can be asked for again
  await userEvent.click(screen.getByRole('button', { name: 'Look the tracing over' }));
  expect(screen.getByRole('heading', { name: 'Look the tracing over' })).toBeTruthy();
});

test('a size in pixels is doubted; a known length names the cause and puts the drawing right, and it can be taken back', async () => {
  const { store } = await onTable('width="300" height="600"');
  expect((await screen.findByRole('note')).textContent).toMatch(/pixels/);
  const before = store.getState().doc;
  await userEvent.type(screen.getByLabelText('True length across'), '20');
  await userEvent.type(screen.getByLabelText('True length down'), '50');
  expect(screen.getByRole('status').textContent).toMatch(
    /Its units are millimetres and were read as pixels, 96 to the inch/,
  );
  await userEvent.click(screen.getByRole('button', { name: /^Scale the drawing by 3\.78/ }));
  expect(sizes()).toEqual(['20 cm', '50 cm']);
  const { doc } = store.getState();
  expect(openedPiece(doc.pieces[0]!, doc).whole.area).toBeCloseTo(200 * 500, 3);
  store.getState().undo();
  expect(store.getState().doc).toBe(before);
});

test('each way is corrected by itself where the two differ, and how far they differ is said', async () => {
  await onTable('width="300mm" height="600mm" viewBox="0 0 300 600"');
  await userEvent.type(await screen.findByLabelText('True length across'), '20');
  await userEvent.type(screen.getByLabelText('True length down'), '51.5');
  expect(screen.getByRole('status').textContent).toMatch(/differ by 2\.9 %, that is 15 mm/);
  await userEvent.click(screen.getByRole('button', { name: 'Scale it by 1 across and 1.03 down' }));
  expect(sizes()).toEqual(['20 cm', '51.5 cm']);
});

test('what is no length is not taken', async () => {
  await onTable('width="300mm" height="600mm" viewBox="0 0 300 600"');
  await userEvent.type(await screen.findByLabelText('True length across'), 'wide');
  expect(screen.getByRole('alert').textContent).toMatch(/A length is needed/);
});

test('the outline is said to be the cutting line, with a depth of its own at hems', async () => {
  const { store } = await onTable('width="300mm" height="600mm" viewBox="0 0 300 600"');
  await userEvent.click(await screen.findByRole('radio', { name: 'the cutting line' }));
  expect(store.getState().doc.allowances).toMatchObject({ tracing: { kind: 'cut', included: 15 }, hem: 15 });
  const hems = screen.getByLabelText('Inside it at hems');
  await userEvent.clear(hems);
  await userEvent.type(hems, '4{Enter}');
  expect(store.getState().doc.allowances.hem).toBe(40);
  await userEvent.click(screen.getByRole('radio', { name: 'the stitching line' }));
  expect(store.getState().doc.allowances).toMatchObject({ tracing: { kind: 'net', outer: 15 }, hem: 40 });
});

test('symmetric panels of a half-traced piece are cut on the fold when that is chosen', async () => {
  const { store } = onStage(<PatternSheet />, designOf(HALF, straight('line-1', [0, 200], [100, 200])));
  await userEvent.click(screen.getByRole('radio', { name: 'on the fold' }));
  const garment = deriveGarment(store.getState().doc);
  expect(garment.panels.map((p) => howToCut(garment, p).onFold)).toEqual([true, true]);
});
