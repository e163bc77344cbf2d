import fc from 'fast-check';
import { expect, test } from 'vitest';
import { endOf, startOf, type Path } from '../../src/geometry';
import { catchField } from '../../src/workbench/drawing/catchField';
import { measureFrom, measuresAt, pointAtDistance } from '../../src/workbench/drawing/measure';
import { lineReferences, placedLine } from '../../src/workbench/drawing/placedLine';
import { placeAt, placingRows } from '../../src/workbench/drawing/placing';
import { describeLine, sayMeasured } from '../../src/workbench/drawing/words';
import { HALF, WHOLE, panelled, straight } from './pieces';

const { whole } = panelled(WHOLE);

test('a line across the grain is measured from its nearest level first', () => {
  const [first] = measuresAt(whole, [0, 145], 'across the grain');
  expect(sayMeasured(first!, whole, 'cm')).toBe('4.5 cm below waist level');
});

test('inches are said with fractions', () => {
  const [first] = measuresAt(whole, [0, 100 - 25.4 * 1.75], 'across the grain');
  expect(sayMeasured(first!, whole, 'in')).toBe('1 3/4 in above waist level');
});

test('a line on the level says so', () => {
  expect(sayMeasured(measuresAt(whole, [0, 100], 'across the grain')[0]!, whole, 'cm')).toBe(
    'on waist level',
  );
});

test('a line with the grain on an opened-out piece is measured from the centre', () => {
  const half = panelled(HALF).whole;
  expect(sayMeasured(measuresAt(half, [-60, 0], 'with the grain')[0]!, half, 'cm')).toBe(
    '6 cm from the centre',
  );
});

test('typing a distance puts the line exactly there', () => {
  const path: Path = [
    [
      [0, 180],
      [200, 180],
    ],
  ];
  const [row] = placingRows(whole, path);
  const level = row!.options.find(({ measured }) => measured.reference.kind === 'level')!;
  const placed = placeAt(whole, catchField(panelled(WHOLE)), path, row!, level, 'below', 123.4)!;
  expect(startOf(placed)).toEqual([0, 223.4]);
  expect(endOf(placed)[0]).toBeCloseTo(200, 9);
  expect(endOf(placed)[1]).toBeCloseTo(223.4, 9);
});

test('above and below are told apart', () => {
  const path: Path = [
    [
      [0, 180],
      [200, 180],
    ],
  ];
  const [row] = placingRows(whole, path);
  const placed = placeAt(whole, catchField(panelled(WHOLE)), path, row!, row!.options[0]!, 'above', 40)!;
  expect(startOf(placed)[1]).toBeCloseTo(60, 9);
});

test('a slanting line has its two ends placed one by one', () => {
  const path: Path = [
    [
      [0, 180],
      [200, 300],
    ],
  ];
  const rows = placingRows(whole, path);
  expect(rows.map(({ label }) => label)).toEqual(['One end', 'Other end']);
  const level = rows[1]!.options.find(({ measured }) => measured.reference.kind === 'level')!;
  const placed = placeAt(whole, catchField(panelled(WHOLE)), path, rows[1]!, level, 'below', 50)!;
  expect(startOf(placed)).toEqual([0, 180]);
  expect(endOf(placed)).toEqual([200, 150]);
});

test('a distance that lies off the piece is refused', () => {
  const path: Path = [
    [
      [0, 180],
      [200, 180],
    ],
  ];
  const [row] = placingRows(whole, path);
  expect(placeAt(whole, catchField(panelled(WHOLE)), path, row!, row!.options[0]!, 'below', 5000)).toBeNull();
});

test('measuring what was placed gives the distance asked for', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 290, noNaN: true }),
      fc.double({ min: 1, max: 399, noNaN: true }),
      (wanted, y) => {
        for (const { reference } of measuresAt(whole, [0, y], 'at an angle')) {
          const p = pointAtDistance(
            whole,
            reference,
            reference.kind === 'edge end' ? 'along' : 'below',
            wanted,
            [0, y],
          );
          expect(p).not.toBeNull();
          expect(measureFrom(whole, reference, p!)!.distance).toBeCloseTo(wanted, 6);
        }
      },
    ),
    { seed: 5, numRuns: 200 },
  );
});

test('a line drawn by measure runs from edge to edge', () => {
  const waist = lineReferences(whole, 'across').find(({ words }) => words === 'waist level')!;
  expect(placedLine(whole, 'across', waist, 50, true)!.path).toEqual([
    [
      [0, 150],
      [200, 150],
    ],
  ]);
  expect(placedLine(whole, 'across', waist, 500, true)).toBeNull();
});

test('a line is put in words for the list', () => {
  expect(describeLine(straight('a', [0, 145], [200, 145]), whole, 'cm')).toBe(
    'across the grain, 4.5 cm below waist level',
  );
  expect(describeLine(straight('b', [0, 145], [200, 200]), whole, 'cm')).toMatch(/^at an angle, /);
});
