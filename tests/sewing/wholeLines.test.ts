import { expect, test } from 'vitest';
import type { Closing, ClosingId, LineId, Trim, TrimId } from '../../src/pattern';
import { line } from '../neighbours/garments';
import { panelLine } from '../making/designs';
import { SLEEVE_AT, sewn, shirt, sleeveLine, wanting } from './garments';

const zipIn = (id: string): Closing => ({
  ...{ id: 'closing-1' as ClosingId, kind: 'shown', length: null, allowance: null, slot: 8 },
  on: { kind: 'line', line: id as LineId },
});
const tapeOn = (id: string): Trim => ({
  ...{ id: 'trim-1' as TrimId, name: 'tape', kind: 'straight', width: 10, fill: '#204060', rows: 2 },
  ...{ shrinkage: 0, soldIn: null, on: { kind: 'line', line: id as LineId, from: 0, to: 1 } },
});

test('a line with a zip runs through where others cross it, whatever was drawn first and has a trim', () => {
  const across = line('line-1', 'sleeve', [
    [SLEEVE_AT[0] - 60, SLEEVE_AT[1] - 200],
    [SLEEVE_AT[0] - 60, SLEEVE_AT[1] + 400],
  ]);
  const design = shirt([across, sleeveLine('line-2', 140)], {
    closings: [zipIn('line-2')],
    trims: [tapeOn('line-1')],
  });
  const { garment, faults } = sewn(design);
  expect(faults).toEqual([]);
  const keys = garment.plan.steps.map((s) => s.key);
  expect(keys).not.toContain('seam line-2 #2');
  for (const before of ['seam line-1', 'seam line-1 #2', 'seam line-2'])
    expect(keys.indexOf(before)).toBeLessThan(keys.indexOf('zip closing-1'));
});

test('a line that a zip crosses is sewn flat, before the zip, also where it was wanted in the round', () => {
  const band = { inTheRound: ['line-1' as LineId] };
  const down = line('line-2', 'sleeve', [
    [SLEEVE_AT[0] + 20, SLEEVE_AT[1] - 200],
    [SLEEVE_AT[0] + 20, SLEEVE_AT[1] + 400],
  ]);
  const { garment, faults } = sewn(
    wanting(shirt([sleeveLine('line-1', 200), down], { closings: [zipIn('line-2')] }), band),
  );
  expect(faults).toEqual([]);
  const keys = garment.plan.steps.map((s) => s.key);
  for (const part of ['seam line-1', 'seam line-1 #2'])
    expect(keys.indexOf('seam line-2')).toBeGreaterThan(keys.indexOf(part));
  expect(garment.problems.map((p) => p.code)).toContain('round-sewn-flat');
});

test('a closed line is not sewn in the round: a line across it runs through as ever', () => {
  const [x, y] = [SLEEVE_AT[0] - 30, SLEEVE_AT[1] + 100];
  const inset = panelLine(
    [
      [x, y],
      [x + 60, y],
      [x + 60, y + 60],
      [x, y + 60],
      [x, y],
    ],
    0,
    { piece: 'sleeve' as never },
  );
  const { garment, faults } = sewn(
    wanting(shirt([sleeveLine('line-2', 130), inset]), { inTheRound: ['line-1' as LineId] }),
  );
  expect(faults).toEqual([]);
  expect(garment.plan.steps.filter((s) => s.key.startsWith('seam line-2'))).toHaveLength(1);
});
