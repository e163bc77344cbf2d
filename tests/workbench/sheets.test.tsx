// @vitest-environment jsdom
import { fireEvent, screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { Notices } from '../../src/workbench/app/Notices';
import { ProblemSlip } from '../../src/workbench/app/ProblemSlip';
import { Tape } from '../../src/workbench/app/Tape';
import { TitleBar } from '../../src/workbench/app/TitleBar';
import { ColoursSheet } from '../../src/workbench/sheets/ColoursSheet';
import { LinesSheet } from '../../src/workbench/sheets/LinesSheet';
import { OrderSheet } from '../../src/workbench/sheets/OrderSheet';
import { PatternSheet } from '../../src/workbench/sheets/PatternSheet';
import { HALF, WHOLE, designOf, straight } from './pieces';
import { onStage } from './stage';

const crossed = designOf(
  WHOLE,
  straight('line-1', [0, 200], [200, 200]),
  straight('line-2', [80, 200], [80, 400]),
);

test('the tape names the places in the order of the job and says what each holds', () => {
  const { store } = onStage(<Tape />, crossed);
  const places = screen.getAllByRole('button');
  expect(places.map((b) => b.textContent)).toEqual([
    'Pattern1 piece',
    'Lines2 lines',
    'Colours1 cloth',
    'Sewing order2 steps',
    'Clothwhat to buy',
    'Paper3 panels',
  ]);
  fireEvent.click(screen.getByRole('button', { name: /^Colours/ }));
  expect(store.getState().place).toBe('colours');
  fireEvent.click(screen.getByRole('button', { name: /^Colours/ }));
  expect(store.getState().sheetOpen).toBe(false);
});

test('every line is in the list in words; choosing one opens what can be done with it', async () => {
  const { store } = onStage(<LinesSheet />, crossed);
  await userEvent.click(screen.getByRole('button', { name: /across the grain, 10 cm below waist level/ }));
  expect(store.getState().selected).toEqual({ kind: 'line', line: 'line-1' });
  await userEvent.click(screen.getByRole('button', { name: 'Delete' }));
  expect(store.getState().doc.lines.map(({ id }) => id)).toEqual(['line-2']);
  store.getState().undo();
  expect(store.getState().doc.lines).toHaveLength(2);
});

test('which line runs through is changed by moving it earlier', async () => {
  const { store } = onStage(<LinesSheet />, crossed);
  await userEvent.click(screen.getByRole('button', { name: /with the grain/ }));
  await userEvent.click(screen.getByRole('button', { name: 'Earlier' }));
  expect(store.getState().doc.lines.map(({ id }) => id)).toEqual(['line-2', 'line-1']);
});

test('a line on an opened-out piece can be kept to one side', async () => {
  const { store } = onStage(<LinesSheet />, designOf(HALF, straight('line-1', [0, 200], [100, 200])));
  await userEvent.click(screen.getByRole('button', { name: /both sides/ }));
  await userEvent.click(screen.getByLabelText('This side only'));
  expect(store.getState().doc.lines[0]!.once).toBe(true);
});

test('a line is drawn by measure from the form alone', async () => {
  const { store } = onStage(<LinesSheet />, designOf(WHOLE));
  const card = document.querySelector<HTMLDetailsElement>('#new-line')!;
  card.open = true;
  fireEvent(card, new Event('toggle'));
  const form = within(await screen.findByRole('form', { name: 'Draw a line by measure' }));
  await userEvent.clear(form.getByLabelText('Lies'));
  await userEvent.type(form.getByLabelText('Lies'), '7,5');
  await userEvent.click(form.getByRole('button', { name: 'Draw it', hidden: true }));
  expect(store.getState().doc.lines.map(({ path }) => path)).toEqual([
    [
      [
        [0, 175],
        [200, 175],
      ],
    ],
  ]);
});

test('panels are listed by number and given a cloth from the list', async () => {
  const { store } = onStage(<ColoursSheet />, crossed);
  await userEvent.selectOptions(screen.getByLabelText('Cloth of panel 2'), 'slate');
  const garment = deriveGarment(store.getState().doc);
  expect(garment.panels.map((p) => p.colour)).toEqual(['chalk', 'slate', 'chalk']);
});

test('a cloth is taken in hand, added and renamed', async () => {
  const { store } = onStage(<ColoursSheet />, crossed);
  await userEvent.click(screen.getByRole('button', { name: 'Add a cloth' }));
  expect(store.getState().held).toBe(store.getState().doc.colours[2]!.id);
  await userEvent.click(screen.getByText('Name, width, nap, price'));
  const name = screen.getByLabelText('Name');
  await userEvent.clear(name);
  await userEvent.type(name, 'Marled wool{Enter}');
  expect(store.getState().doc.colours[2]!.name).toBe('Marled wool');
});

test('looking at a step lights up its seam and panels', async () => {
  const { store } = onStage(<OrderSheet />, crossed);
  const steps = screen.getAllByRole('button', { name: /: sew|^\d+Sew/i });
  expect(steps).toHaveLength(2);
  await userEvent.hover(steps[0]!);
  const garment = deriveGarment(store.getState().doc);
  expect([...store.getState().lit!.seams]).toEqual(garment.plan.steps[0]!.seams);
  expect([...store.getState().lit!.panels]).toHaveLength(2);
});

test('the allowance is set in the user’s unit, and what is no length is refused in words', async () => {
  const { store } = onStage(<PatternSheet />, crossed);
  const field = screen.getByLabelText('Both sides of new seams');
  await userEvent.clear(field);
  await userEvent.type(field, '1.2{Enter}');
  expect(store.getState().doc.allowances.newSeam).toBeCloseTo(12, 9);
  await userEvent.clear(field);
  await userEvent.type(field, 'a lot{Enter}');
  expect(screen.getByRole('alert').textContent).toMatch(/“a lot” is not a length/);
  expect(store.getState().doc.allowances.newSeam).toBeCloseTo(12, 9);
});

test('a tracing that is a cutting line says how much is inside it', async () => {
  const { store } = onStage(<PatternSheet />, crossed);
  await userEvent.click(screen.getByLabelText('the cutting line'));
  expect(store.getState().doc.allowances.tracing).toEqual({ kind: 'cut', included: 15 });
  expect(screen.getByLabelText('Already inside it')).toBeTruthy();
});

test('a single edge gets its own allowance, and goes back to the rule', async () => {
  const { store } = onStage(<PatternSheet />, crossed);
  await userEvent.click(screen.getByRole('button', { name: /^edge 1/, hidden: true }));
  const field = screen.getByLabelText('Allowance');
  await userEvent.clear(field);
  await userEvent.type(field, '2.5{Enter}');
  expect(store.getState().doc.allowances.edges).toEqual([{ piece: 'front', edge: 'edge 1', width: 25 }]);
  await userEvent.clear(field);
  await userEvent.type(field, '1.5{Enter}');
  expect(store.getState().doc.allowances.edges).toEqual([]);
});

test('problems are listed in words, and an open end is extended from there', async () => {
  const { store } = onStage(<ProblemSlip />, designOf(WHOLE, straight('line-1', [0, 200], [150, 200])));
  await userEvent.click(screen.getByRole('button', { name: '1 thing to mend' }));
  expect(screen.getByText(/ends 5 cm short of the next line or edge/)).toBeTruthy();
  await userEvent.click(screen.getAllByRole('button', { name: 'Show me' })[0]!);
  expect(store.getState().pointing?.at).toEqual([150, 200]);
  await userEvent.click(screen.getByRole('button', { name: 'Extend it' }));
  expect(deriveGarment(store.getState().doc).panels).toHaveLength(2);
});

test('undo and redo name what they will do', async () => {
  const { store } = onStage(<TitleBar />, crossed);
  const undo = screen.getByRole<HTMLButtonElement>('button', { name: 'Undo' });
  expect(undo.disabled).toBe(true);
  await userEvent.click(screen.getByLabelText('inches'));
  expect(store.getState().doc.units).toBe('in');
  expect(undo.title).toContain('Change the units');
  await userEvent.click(undo);
  expect(store.getState().doc.units).toBe('cm');
});

test('a failed save stays on screen with a download, whatever else is said', () => {
  const { store } = onStage(<Notices />, crossed);
  store.getState().set({ keeping: { state: 'failed', why: 'The browser’s storage is full.' } });
  store.getState().set({ notice: null });
  return vi.waitFor(() => {
    expect(screen.getByRole('alert').textContent).toContain('not being kept');
    expect(screen.getByRole('button', { name: 'Download the design' })).toBeTruthy();
  });
});

test('a chosen panel is given a cloth by clicking the cloth', async () => {
  const { store } = onStage(<ColoursSheet />, crossed);
  const panel = deriveGarment(store.getState().doc).panels[1]!;
  await userEvent.click(screen.getByRole('button', { name: '2front' }));
  expect(store.getState().selected).toEqual({ kind: 'panel', panel: panel.id });
  await userEvent.click(screen.getByRole('button', { name: /slate/ }));
  expect(deriveGarment(store.getState().doc).panelById.get(panel.id)!.colour).toBe('slate');
  expect(store.getState().held).toBeNull();
});

test('looking for a colour is one step when it is settled, however many were looked at', () => {
  const { store } = onStage(<ColoursSheet />, crossed);
  const field = screen.getByLabelText<HTMLInputElement>('Change the colour of chalk');
  for (const fill of ['#112233', '#223344', '#334455']) fireEvent.input(field, { target: { value: fill } });
  expect(store.getState().past).toHaveLength(0);
  expect(store.getState().draft?.colours[0]!.fill).toBe('#334455');
  fireEvent(field, new Event('change', { bubbles: true }));
  expect(store.getState().past).toHaveLength(1);
  expect(store.getState().doc.colours[0]!.fill).toBe('#334455');
});

test('a line is bent by number, without a pointer', async () => {
  const { store } = onStage(<LinesSheet />, crossed);
  await userEvent.click(screen.getByRole('button', { name: /across the grain, 10 cm below waist level/ }));
  const bow = screen.getByLabelText('Bow of its middle');
  await userEvent.clear(bow);
  await userEvent.type(bow, '-2{Enter}');
  expect(store.getState().doc.lines[0]!.path[0]).toHaveLength(4);
});
