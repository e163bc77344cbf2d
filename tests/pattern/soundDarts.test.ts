import { expect, test } from 'vitest';
import { checkGarment, deriveGarment } from '../../src/garment';
import type { Pt } from '../../src/geometry';
import type { Dart } from '../../src/pattern';
import { dart, design, doubleDart, panelLine, piece, rectangle } from '../making/designs';

const withDarts = (darts: readonly Dart[], lines: readonly (readonly Pt[])[] = []) =>
  deriveGarment(
    design(
      [piece(rectangle(300, 400), { darts })],
      lines.map((l, i) => panelLine(l, i)),
    ),
  );

const GOOD = dart([300, 90], [200, 100], [300, 110]);

test.each<readonly [string, Dart]>([
  ['leaves the piece', dart([300, 90], [-40, 100], [300, 110])],
  ['has no width', dart([300, 90], [200, 90], [300, 90])],
  ['ends on the outline', dart([300, 90], [0, 100], [300, 110])],
  ['crosses itself', doubleDart([100, 200], [120, 300], [130, 210], [110, 180])],
  ['has legs that cannot be sewn together', dart([300, 90], [282, 80], [300, 180])],
])('a dart that %s is left out, told, and spoils nothing', (_, bad) => {
  const garment = withDarts([GOOD, bad]);
  expect(garment.pieces[0]!.whole.darts.map((d) => d.traced)).toEqual([0]);
  expect(garment.problems.filter((p) => p.code === 'dart-unsound')).toHaveLength(1);
  expect(checkGarment(garment)).toEqual([]);
});

test('of two darts that cross, or lie in each other, the first is kept', () => {
  const crossing = dart([240, 0], [265, 190], [258, 0]);
  const nested = doubleDart([285, 99], [287, 100], [289, 101], [287, 102]);
  for (const bad of [crossing, nested]) {
    const garment = withDarts([GOOD, bad]);
    expect(garment.pieces[0]!.whole.darts.map((d) => d.traced)).toEqual([0]);
    expect(checkGarment(garment)).toEqual([]);
  }
});

test('sound darts stay: at a corner, side by side, double-pointed with unlike halves', () => {
  const darts = [
    GOOD,
    dart([300, 110], [210, 130], [300, 128]),
    dart([0, 0], [60, 60], [20, 0]),
    doubleDart([100, 150], [108, 180], [100, 330], [92, 180]),
  ];
  const garment = withDarts(darts);
  expect(garment.pieces[0]!.whole.darts).toHaveLength(4);
  expect(checkGarment(garment)).toEqual([]);
});

test('a line along an edge cuts nothing off a dart’s mouth but what is folded away', () => {
  const garment = withDarts(
    [GOOD],
    [
      [
        [300, 0],
        [300, 400],
      ],
    ],
  );
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.panels.reduce((sum, p) => sum + p.area, 0)).toBeCloseTo(300 * 400 - 1000, 3);
});
