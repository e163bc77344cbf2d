import { expect, test } from 'vitest';
import { endOf, pointAt, startOf, type Path } from '../../src/geometry';
import { bendPath, bowed, bowOf, straightened } from '../../src/workbench/drawing/bendLine';
import { catchField } from '../../src/workbench/drawing/catchField';
import { catchMovement, extendTo, movePath } from '../../src/workbench/drawing/moveLine';
import { ringThrough, piece } from '../making/designs';
import { WHOLE, panelled, straight } from './pieces';

const SLOPING = panelled(
  piece(
    ringThrough([
      [0, 0],
      [200, 0],
      [260, 400],
      [-60, 400],
    ]),
  ),
);

test('a line whose ends hang on slanting edges stays on them when it is moved', () => {
  const moved = movePath(
    [
      [
        [-15, 100],
        [215, 100],
      ],
    ],
    catchField(SLOPING),
    [0, 100],
  );
  expect(startOf(moved)[0]).toBeCloseTo(-30, 6);
  expect(endOf(moved)[0]).toBeCloseTo(230, 6);
  expect(startOf(moved)[1]).toBeCloseTo(200, 9);
});

test('moving there and back again gives the same line', () => {
  const path: Path = [
    [
      [-15, 100],
      [215, 100],
    ],
  ];
  const there = movePath(path, catchField(SLOPING), [0, 120]);
  const back = movePath(there, catchField(SLOPING), [0, -120]);
  expect(startOf(back)[0]).toBeCloseTo(-15, 6);
  expect(endOf(back)[0]).toBeCloseTo(215, 6);
});

test('an end in the open moves with the hand', () => {
  const moved = movePath(
    [
      [
        [0, 100],
        [120, 100],
      ],
    ],
    catchField(panelled(WHOLE)),
    [10, 30],
  );
  expect(startOf(moved)).toEqual([0, 130]);
  expect(endOf(moved)).toEqual([130, 130]);
});

test('a curved line keeps both ends on the edges', () => {
  const path: Path = [
    [
      [0, 200],
      [60, 240],
      [140, 240],
      [200, 200],
    ],
  ];
  const moved = movePath(path, catchField(panelled(WHOLE)), [0, 25]);
  expect(startOf(moved)[0]).toBeCloseTo(0, 6);
  expect(endOf(moved)[0]).toBeCloseTo(200, 6);
});

test('a line ending on another line stays on that line', () => {
  const p = panelled(WHOLE, straight('across', [0, 200], [200, 200]), straight('down', [80, 200], [80, 400]));
  const moved = movePath(
    [
      [
        [80, 200],
        [80, 400],
      ],
    ],
    catchField(p, 'down' as never),
    [33, 5],
  );
  expect(startOf(moved)[0]).toBeCloseTo(113, 9);
  expect(startOf(moved)[1]).toBe(200);
  expect(endOf(moved)[1]).toBe(400);
});

test('a line being moved catches the level it comes near', () => {
  const caught = catchMovement(
    [
      [
        [0, 180],
        [200, 180],
      ],
    ],
    catchField(panelled(WHOLE)),
    [0, -76],
    10,
  );
  expect(caught.delta[1]).toBeCloseTo(-80, 9);
  expect(caught.caught?.word).toContain('waist level');
});

test('bending takes the middle of a straight line exactly to the hand', () => {
  const bent = bendPath(
    [
      [
        [0, 0],
        [100, 0],
      ],
    ],
    0,
    [55, 30],
  );
  const middle = pointAt(bent[0]!, 0.5);
  expect(middle[0]).toBeCloseTo(55, 9);
  expect(middle[1]).toBeCloseTo(30, 9);
  expect(startOf(bent)).toEqual([0, 0]);
  expect(endOf(bent)).toEqual([100, 0]);
});

test('bending back to flat makes the line straight again', () => {
  const bent = bendPath(
    [
      [
        [0, 0],
        [100, 0],
      ],
    ],
    0,
    [50, 30],
  );
  expect(bendPath(bent, 0, [50, 0.5])).toEqual([
    [
      [0, 0],
      [100, 0],
    ],
  ]);
  expect(straightened(bent)).toEqual([
    [
      [0, 0],
      [100, 0],
    ],
  ]);
});

test('a straight end in the open is drawn on; a curved one gets a straight stretch', () => {
  expect(
    extendTo(
      [
        [
          [0, 0],
          [50, 0],
        ],
      ],
      'end',
      [80, 0],
    ),
  ).toEqual([
    [
      [0, 0],
      [80, 0],
    ],
  ]);
  const curved: Path = [
    [
      [0, 0],
      [10, 20],
      [40, 20],
      [50, 0],
    ],
  ];
  expect(extendTo(curved, 'end', [60, -20])).toEqual([
    ...curved,
    [
      [50, 0],
      [60, -20],
    ],
  ]);
  expect(startOf(extendTo(curved, 'start', [-10, -20]))).toEqual([-10, -20]);
});

test('a bow typed in is the bow measured, to either side, and none is straight', () => {
  for (const bow of [35, -12.5]) {
    const [curve] = bowed(
      [
        [
          [0, 0],
          [100, 0],
        ],
      ],
      0,
      bow,
    );
    expect(bowOf(curve!)).toBeCloseTo(bow, 9);
    expect(pointAt(curve!, 0.5)[1]).toBeCloseTo(-bow, 9);
  }
  expect(
    bowed(
      [
        [
          [0, 0],
          [10, 20],
          [40, 20],
          [50, 0],
        ],
      ],
      0,
      0,
    ),
  ).toEqual([
    [
      [0, 0],
      [50, 0],
    ],
  ]);
});
