// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import type { LineId } from '../../src/pattern';
import OrderCures from '../../src/workbench/canvas/OrderCures';
import { lined, rectangle } from '../making/designs';
import { pinwheel } from '../making/randomLines';
import { onStage } from './stage';

const codes = (d: Parameters<typeof deriveGarment>[0]) => deriveGarment(d).problems.map((p) => p.code);

test('at a pinwheel the bench says that a seam stays partly open, and extends a line that cures it; undo takes it back', async () => {
  const d = lined(rectangle(300, 300), pinwheel([0, 0], 300));
  const { store } = onStage(<OrderCures />, d);
  expect(screen.getByText(/left partly open here/)).toBeTruthy();
  await userEvent.click(await screen.findByRole('button', { name: 'Extend this line to the edge' }));
  expect(codes(store.getState().doc)).not.toContain('partial-seam');
  expect(screen.queryByText(/left partly open/)).toBeNull();
  store.getState().undo();
  expect(store.getState().doc).toBe(d);
});

test('a corner is spoken of while its line is chosen, and cured by a line drawn on from it', async () => {
  const d = lined(rectangle(300, 300), [
    [
      [0, 150],
      [150, 150],
      [150, 300],
    ],
  ]);
  const { store } = onStage(<OrderCures />, d);
  expect(screen.queryByText(/two passes/)).toBeNull();
  store.getState().set({ selected: { kind: 'line', line: 'line-1' as LineId } });
  await userEvent.click(
    await screen.findByRole('button', { name: 'Draw a line from the corner to the edge' }),
  );
  expect(store.getState().doc.lines).toHaveLength(2);
  expect(codes(store.getState().doc)).not.toContain('corner-set-in');
});

test('while a line is being dragged the spot says what it is, and offers nothing', () => {
  const d = lined(rectangle(300, 300), pinwheel([0, 0], 300));
  const { store } = onStage(<OrderCures />, lined(rectangle(300, 300), []));
  expect(screen.queryByText(/left partly open/)).toBeNull();
  store.getState().preview(() => d);
  return screen.findByText(/left partly open/).then(() => {
    expect(screen.queryByRole('button')).toBeNull();
  });
});
