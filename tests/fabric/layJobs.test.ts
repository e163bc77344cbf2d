import { expect, test } from 'vitest';
import type { CutPiece } from '../../src/allowance';
import type { Panel, PanelId } from '../../src/panels';
import { PLAIN_CLOTH, type Colour, type ColourId, type Design, type PieceId } from '../../src/pattern';
import { layJobs } from '../../src/fabric';
import type { ClothSource } from '../../src/fabric';
import { ringThrough } from '../making/designs';
import { rectangle } from './madeUpPieces';

const colour = (id: string, more: Partial<Colour> = {}): Colour => ({
  id: id as ColourId,
  name: id,
  fill: '#224466',
  width: 1400,
  ...PLAIN_CLOTH,
  shrinkage: { along: 3, across: 0 },
  ...more,
});
const panel = (id: string, piece: string, of: string): Panel =>
  ({ id: id as PanelId, piece: piece as PieceId, colour: of as ColourId }) as Panel;
const cut = (id: string, grainAngle: number): CutPiece =>
  ({
    panel: id as PanelId,
    cuttingPoints: rectangle(100, 50),
    cutting: ringThrough(rectangle(100, 50)),
    holes: [],
    grainAngle,
  }) as unknown as CutPiece;

const source: ClothSource = {
  design: {
    units: 'in',
    cuttingOut: { gap: 3 },
    offGrain: [],
    pieces: [
      { id: 'front', cutting: 'once', fold: null },
      { id: 'sleeve', cutting: 'pair', fold: null },
    ],
    colours: [
      colour('navy', { nap: true }),
      colour('unused'),
      colour('sand', { shrinkage: { along: 0, across: 5 } }),
    ],
  } as unknown as Design,
  panels: [panel('a', 'front', 'sand'), panel('b', 'sleeve', 'navy'), panel('c', 'front', 'navy')],
  cutPieces: [cut('a', 90), cut('b', 80), cut('c', 90)],
  plan: {
    numbers: new Map([
      ['a', 1],
      ['b', 3],
      ['c', 2],
    ] as [PanelId, number][]),
  },
};

test('there is one job per colour that has panels, pieces in order of number', () => {
  const jobs = layJobs(source, { seconds: 4, seed: 7 });
  expect(jobs.map((j) => j.colourName)).toEqual(['navy', 'sand']);
  expect(jobs[0]).toMatchObject({
    nap: true,
    gap: 3,
    seconds: 4,
    seed: 7,
    shrinkage: 3,
    units: 'in',
    width: 1400,
  });
  expect(jobs[0]!.pieces.map((p) => [p.number, p.copy, p.flipped, p.grainAngle])).toEqual([
    [2, 1, false, 90],
    [3, 1, false, 80],
    [3, 2, true, 80],
  ]);
});

test('cloth is laid at the width it has after washing', () => {
  expect(layJobs(source)[1]!.width).toBeCloseTo(1330, 9);
});
