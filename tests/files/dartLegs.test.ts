import { expect, test } from 'vitest';
import { endOf, isClosed, pathLength, startOf, type Path, type Ring } from '../../src/geometry';
import { readDart } from '../../src/files';
import { dartAngle, dartIntake, dartLegs, type DartShape } from '../../src/pattern';
import { readPath } from './pathText';

const square: Ring = readPath('M0 0 L100 0 L100 100 L0 100 Z');
const read = (d: string, outline: Ring = square): DartShape | null =>
  readDart({ path: readPath(d), closed: /z$/i.test(d) }, outline);

/** Legs end exactly on the corners and follow each other. */
function expectSound(dart: DartShape): void {
  const legs: readonly Path[] = dart.legs ?? [];
  for (const leg of legs) expect(leg.length).toBeGreaterThan(0);
  if (dart.kind === 'single' && dart.legs) {
    expect(startOf(legs[0]!)).toEqual(dart.mouth[0]);
    expect(endOf(legs[0]!)).toEqual(dart.point);
    expect(startOf(legs[1]!)).toEqual(dart.point);
    expect(endOf(legs[1]!)).toEqual(dart.mouth[1]);
  }
  if (dart.kind === 'double') {
    expect(isClosed(dartLegs(dart))).toBe(true);
    legs.forEach((leg, i) => expect(startOf(leg)).toEqual(dart.points[i]));
  }
}

test('a dart with curved legs keeps them as curves', () => {
  const dart = read('M40 0 C42 10 46 20 50 30 C54 20 58 10 60 0')!;
  expect(dart).toMatchObject({
    kind: 'single',
    mouth: [
      [40, 0],
      [60, 0],
    ],
    point: [50, 30],
  });
  expect(dart.legs).toEqual([
    [
      [
        [40, 0],
        [42, 10],
        [46, 20],
        [50, 30],
      ],
    ],
    [
      [
        [50, 30],
        [54, 20],
        [58, 10],
        [60, 0],
      ],
    ],
  ]);
  expectSound(dart);
});

test('legs of several curves, or one curved and one straight, are read with the point between them', () => {
  const dart = read('M40 0 C41 6 43 12 45 18 C47 23 49 27 50 30 L55 15 L60 0')!;
  expect(dart).toMatchObject({ kind: 'single', point: [50, 30] });
  expect(dart.legs!.map((leg) => leg.length)).toEqual([2, 1]);
  expectSound(dart);
});

test('curves that lie on their chords are straight legs', () => {
  expect(read('M40 0 C42 6 46 18 50 30 C52 24 58 6 60 0')!.legs).toBeNull();
});

test('a closed dart with curved legs is read from any of its corners', () => {
  const sides = ['C42 10 46 20 50 30', 'C54 20 58 10 60 0', 'L40 0'];
  const starts = ['M40 0', 'M50 30', 'M60 0'];
  for (const turn of [0, 1, 2]) {
    const dart = read(`${starts[turn]} ${[...sides.slice(turn), ...sides.slice(0, turn)].join(' ')} Z`)!;
    expect(dart).toMatchObject({
      kind: 'single',
      mouth: [
        [40, 0],
        [60, 0],
      ],
      point: [50, 30],
    });
    expect(dart.legs).not.toBeNull();
    expectSound(dart);
  }
});

test('the mouth side of a closed dart may follow a curved outline, in several curves', () => {
  const bowl = readPath('M0 0 C30 -20 70 -20 100 0 L100 100 L0 100 Z');
  // A quarter of the way either side of the middle of that curve, by de Casteljau.
  const dart = read(
    'M37.5 -14.0625 C45 -15.3125 47 -15 50 -15 C53 -15 55 -15.3125 62.5 -14.0625 L50 40 Z',
    bowl,
  )!;
  expect(dart).toMatchObject({ kind: 'single', point: [50, 40], legs: null });
  expect(dartIntake(dart)).toBeCloseTo(25, 9);
});

test('a double-pointed dart of four curves keeps them', () => {
  const dart = read('M50 5 C52 12 55 18 55 25 C55 32 52 38 50 45 C48 38 45 32 45 25 C45 18 48 12 50 5 Z')!;
  expect(dart).toMatchObject({
    kind: 'double',
    points: [
      [50, 5],
      [55, 25],
      [50, 45],
      [45, 25],
    ],
  });
  expect(dart.legs).toHaveLength(4);
  expectSound(dart);
});

test('a double-pointed dart may have any number of nodes: two curves, or sides of several', () => {
  const lens = read('M50 5 C60 20 60 30 50 45 C40 30 40 20 50 5 Z')!;
  expect(lens.kind).toBe('double');
  expectSound(lens);
  expect(dartIntake(lens)).toBeCloseTo(15, 2);
  expect(pathLength(dartLegs(lens))).toBeCloseTo(
    pathLength(readPath('M50 5 C60 20 60 30 50 45 C40 30 40 20 50 5 Z')),
    5,
  );
  const many = read(
    'M45 25 C45 18 48 12 50 5 C51 9 52 12 53 15 C54 18 55 21 55 25 C55 32 52 38 50 45 C48 38 45 32 45 25 Z',
  )!;
  expect(many.kind).toBe('double');
  expectSound(many);
  expect([many.kind === 'double' && many.points[0], many.kind === 'double' && many.points[2]]).toEqual(
    expect.arrayContaining([
      [50, 5],
      [50, 45],
    ]),
  );
});

test('a smooth closed shape is no dart', () => {
  expect(
    read('M50 40 C56 40 60 44 60 50 C60 56 56 60 50 60 C44 60 40 56 40 50 C40 44 44 40 50 40 Z'),
  ).toBeNull();
});

test('the angle of a curved dart is that between its chords', () => {
  const curved = read('M40 0 C42 10 46 20 50 30 C54 20 58 10 60 0')!;
  expect(dartAngle(curved)).toBeCloseTo(2 * Math.atan(10 / 30), 12);
});
