// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { OverDarts } from '../../src/workbench/sheets/OverDarts';
import { dart } from '../making/designs';
import { WHOLE, designOf, straight } from './pieces';
import { onStage } from './stage';

const DARTED = { ...WHOLE, darts: [dart([200, 260], [80, 300], [200, 340])] };

test('a line that crosses a kept dart is laid over it as sewn, or as drawn, from its card', async () => {
  const design = designOf(DARTED, straight('line-1', [160, 0], [150, 400]));
  const { whole } = deriveGarment(design).pieces[0]!;
  const { store } = onStage(<OverDarts line={design.lines[0]!} whole={whole} />, design);
  const tick = screen.getByRole('checkbox', { name: 'Over the dart as sewn' });
  expect(tick).toHaveProperty('checked', false);
  await userEvent.click(tick);
  expect(store.getState().doc.lines[0]!.overDarts).toBe('sewn');
  expect(store.getState().past.map(({ label }) => label)).toEqual(['Lay a line over its darts as sewn']);
});

test('a line that stays clear of all darts is not asked about them', () => {
  const design = designOf(DARTED, straight('line-1', [40, 0], [40, 400]));
  const { whole } = deriveGarment(design).pieces[0]!;
  onStage(<OverDarts line={design.lines[0]!} whole={whole} />, design);
  expect(screen.queryByRole('checkbox')).toBeNull();
});
