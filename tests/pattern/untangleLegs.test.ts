import { expect, test } from 'vitest';
import { checkGarment, deriveGarment } from '../../src/garment';
import { type Curve, type Pt, pathLength } from '../../src/geometry';
import { type Dart, dartLegs } from '../../src/pattern';
import { design, panelLine, piece, rectangle } from '../making/designs';

/** Legs that cross short of the point, as a hand tracing does. */
const FIRST: Curve = [
  [300, 80],
  [270, 86],
  [230, 103],
  [200, 100],
];
const SECOND: Curve = [
  [200, 100],
  [230, 97],
  [270, 114],
  [300, 120],
];
const CROSSED: Dart = {
  kind: 'single',
  mouth: [FIRST[0], SECOND[3]!],
  point: [200, 100],
  legs: [[FIRST], [SECOND]],
  treatment: { kind: 'keep' },
};

const garmentWith = (line: readonly Pt[]) =>
  deriveGarment(design([piece(rectangle(300, 200), { darts: [CROSSED] })], [panelLine(line, 0)]));

test('legs that cross near the point are drawn apart: they touch there, and keep their whole length', () => {
  const { whole } = garmentWith([
    [100, 0],
    [100, 200],
  ]).pieces[0]!;
  const [own] = whole.darts;
  expect(own!.legs).not.toBeNull();
  expect(pathLength(dartLegs(own!))).toBeCloseTo(pathLength([FIRST]) + pathLength([SECOND]), 1);
});

test('panels cut through such a dart, or beside it, still add up to the piece', () => {
  for (const x of [100, 205, 250]) {
    const garment = garmentWith([
      [x, 0],
      [x, 200],
    ]);
    expect(checkGarment(garment)).toEqual([]);
  }
});
