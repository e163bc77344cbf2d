// @vitest-environment jsdom
import { fireEvent, screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { endOf, startOf } from '../../src/geometry';
import type { LineId, Piece } from '../../src/pattern';
import { LinesSheet } from '../../src/workbench/sheets/LinesSheet';
import { PatternSheet } from '../../src/workbench/sheets/PatternSheet';
import { parseShare } from '../../src/workbench/parts/ShareField';
import type { BenchStore } from '../../src/workbench/store/benchStore';
import { tieLinesHere } from '../../src/workbench/store/lineEdits';
import { WHOLE, designOf, straight } from './pieces';
import { onStage } from './stage';

const L1 = 'line-1' as LineId;
const TWO: Piece = {
  ...WHOLE,
  levels: [
    ...WHOLE.levels,
    {
      name: 'hip',
      line: [
        [0, 300],
        [200, 300],
      ],
    },
  ],
};
const heightOf = (store: BenchStore): readonly [number, number] => {
  const { path } = store.getState().doc.lines[0]!;
  return [startOf(path)[1], endOf(path)[1]];
};

/** The card of a tied line 45 mm below the waist. */
async function card(): Promise<{ store: BenchStore; ties: ReturnType<typeof within> }> {
  const { store } = onStage(<LinesSheet />, designOf(TWO, straight('line-1', [0, 145], [200, 145])));
  await userEvent.click(screen.getByRole('button', { name: /below waist level/ }));
  await userEvent.click(await screen.findByRole('button', { name: 'Tie to its piece' }));
  const words = await screen.findByText(/^Square to the grain, 4.5 cm below the waist level on edge 4\.$/);
  return { store, ties: within(words.parentElement!) };
}

test('the card says what holds a line; another figure moves it, another base does not', async () => {
  const { store, ties } = await card();
  const figure = ties.getByLabelText('Line: distance');
  await userEvent.clear(figure);
  await userEvent.type(figure, '6{Enter}');
  expect(heightOf(store)).toEqual([160, 160]);
  fireEvent.change(ties.getByLabelText('Line: which way'), { target: { value: '-1' } });
  expect(heightOf(store)).toEqual([40, 40]);
  const from = ties.getByLabelText('Line: measured from') as HTMLSelectElement;
  const hip = [...from.options].find((o) => o.text === 'the hip level')!;
  fireEvent.change(from, { target: { value: hip.value } });
  expect(heightOf(store)).toEqual([40, 40]);
  expect(ties.getByText(/26 cm above the hip level/)).toBeTruthy();
});

test('a share of the way between two levels can be typed as a fraction', async () => {
  const { store, ties } = await card();
  const from = ties.getByLabelText('Line: measured from') as HTMLSelectElement;
  const share = [...from.options].find((o) => o.text === 'from waist to hip')!;
  fireEvent.change(from, { target: { value: share.value } });
  expect(heightOf(store)).toEqual([145, 145]);
  const field = ties.getByLabelText('Line: share');
  await userEvent.clear(field);
  await userEvent.type(field, '1/4{Enter}');
  expect(heightOf(store)).toEqual([150, 150]);
  expect(ties.getByText(/a quarter of the way from waist to hip/)).toBeTruthy();
  expect(parseShare('1/3')).toBeCloseTo(1 / 3, 12);
  expect(parseShare('33,3 %')).toBeCloseTo(0.333, 12);
  expect(parseShare('much')).toBeNull();
});

test('a figure that lies off the piece is refused with a word, and the line stays', async () => {
  const { store, ties } = await card();
  const figure = ties.getByLabelText('Line: distance');
  await userEvent.clear(figure);
  await userEvent.type(figure, '90{Enter}');
  expect(ties.getByRole('alert').textContent).toMatch(/no such place/);
  expect(heightOf(store)).toEqual([145, 145]);
});

test('a line can be held by both its ends, turned to an angle, measured along its edge, and untied', async () => {
  const { store, ties } = await card();
  const direction = ties.getByLabelText('Direction');
  fireEvent.change(direction, { target: { value: 'angle' } });
  const angle = ties.getByLabelText('Angle');
  await userEvent.clear(angle);
  await userEvent.type(angle, '45{Enter}');
  expect(heightOf(store)).toEqual([145, 345]);
  fireEvent.change(direction, { target: { value: 'both ends' } });
  expect(ties.getByText('Left end')).toBeTruthy();
  expect(ties.getByText('Right end')).toBeTruthy();
  fireEvent.change(ties.getByLabelText('Left end: measured'), { target: { value: 'edge' } });
  expect(ties.getByText(/^From 63.8 % along edge 4, from the lower end/)).toBeTruthy();
  expect(heightOf(store)).toEqual([145, 345]);
  await userEvent.click(ties.getByRole('button', { name: 'Untie' }));
  expect(store.getState().doc.lines[0]!.ties).toBeNull();
  expect(heightOf(store)).toEqual([145, 345]);
});

test('levels are set, named, moved and deleted on the pattern sheet, and what is tied follows', async () => {
  const { store } = onStage(<PatternSheet />, designOf(WHOLE, straight('line-1', [0, 145], [200, 145])));
  store.getState().commit('tie', tieLinesHere([L1]));
  const summary = screen.getByText('Levels');
  fireEvent.click(summary);
  const figure = screen.getByLabelText('Height of the waist level');
  await userEvent.clear(figure);
  await userEvent.type(figure, '12{Enter}');
  expect(heightOf(store)).toEqual([165, 165]);
  await userEvent.type(screen.getByLabelText('Name of a new level'), 'Hip');
  await userEvent.click(screen.getByRole('button', { name: 'Set' }));
  // 20.5 cm below the waist, where drafting tables put it.
  expect(store.getState().doc.pieces[0]!.levels.map(({ name, line }) => [name, line[0][1]])).toEqual([
    ['waist', 120],
    ['Hip', 325],
  ]);
  const name = screen.getByLabelText('Name of the waist level');
  await userEvent.clear(name);
  await userEvent.type(name, 'natural waist{Enter}');
  expect(JSON.stringify(store.getState().doc.lines[0]!.ties)).toContain('natural waist');
  await userEvent.click(screen.getByRole('button', { name: 'Delete the natural waist level' }));
  expect(heightOf(store)).toEqual([165, 165]);
  store.getState().undo();
  expect(store.getState().doc.pieces[0]!.levels).toHaveLength(2);
});
