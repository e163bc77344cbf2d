// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { LinesSheet } from '../../src/workbench/sheets/LinesSheet';
import { PatternSheet } from '../../src/workbench/sheets/PatternSheet';
import { allowEdge, allowLine } from '../../src/workbench/store/patternEdits';
import type { LineId, PieceId } from '../../src/pattern';
import { WHOLE, designOf, straight } from './pieces';
import { onStage } from './stage';

const lined = designOf(WHOLE, straight('line-1', [0, 200], [200, 200]));

test('one press gives all seams the home or the workroom allowance, hems apart', async () => {
  const { store } = onStage(<PatternSheet />, lined);
  const { hem } = lined.allowances;
  await userEvent.click(screen.getByRole('radio', { name: '5/8 in' }));
  expect(store.getState().doc.allowances).toMatchObject({
    newSeam: 15.875,
    tracing: { kind: 'net', outer: 15.875 },
    hem,
  });
  expect(screen.queryByRole('radio', { name: 'own' })).toBeNull();
  await userEvent.click(screen.getByRole('radio', { name: '1 cm' }));
  expect(store.getState().doc.allowances.newSeam).toBe(10);
  const field = screen.getByLabelText('Both sides of new seams');
  await userEvent.clear(field);
  await userEvent.type(field, '1.2{Enter}');
  expect((screen.getByRole('radio', { name: 'own' }) as HTMLInputElement).checked).toBe(true);
});

test('widths given to single edges and lines are counted, and all go back to the general ones at a press', async () => {
  const { store } = onStage(<PatternSheet />, lined);
  expect(screen.queryByRole('button', { name: 'General widths for all' })).toBeNull();
  store.getState().commit('one', allowEdge('front' as PieceId, 'edge 1', 25));
  store.getState().commit('another', allowLine('line-1' as LineId, 8));
  expect(await screen.findByText('1 edge and 1 panel line have widths of their own.')).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'General widths for all' }));
  expect(store.getState().doc.allowances).toMatchObject({ edges: [], lines: [] });
});

test('a line’s allowance is typed on its card, and goes back to the general one', async () => {
  const { store } = onStage(<LinesSheet />, lined);
  await userEvent.click(screen.getByRole('button', { name: /across the grain/ }));
  const field = await screen.findByLabelText('Allowance on both sides');
  await userEvent.clear(field);
  await userEvent.type(field, '8 mm{Enter}');
  expect(store.getState().doc.allowances.lines).toEqual([{ line: 'line-1', width: 8 }]);
  await userEvent.click(screen.getByRole('button', { name: 'As all others' }));
  expect(store.getState().doc.allowances.lines).toEqual([]);
  await userEvent.clear(field);
  await userEvent.type(field, '8 mm{Enter}');
  await userEvent.clear(field);
  await userEvent.type(field, '1.5 cm{Enter}');
  expect(store.getState().doc.allowances.lines).toEqual([]);
});
