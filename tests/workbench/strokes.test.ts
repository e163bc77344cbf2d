import { grainFrame } from '../../src/pattern';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { catchField } from '../../src/workbench/drawing/catchField';
import { free } from '../../src/workbench/drawing/catchPoint';
import { runOf, squaredDirection } from '../../src/workbench/drawing/grainRun';
import { finishStroke, strokeTo } from '../../src/workbench/drawing/stroke';
import { piece, rectangle } from '../making/designs';
import { HALF, WHOLE, panelled } from './pieces';

const whole = panelled(WHOLE);
const half = panelled(HALF);
const manner = { anyAngle: false, reach: 12 };

test('a stroke that wavers is squared off the grain and ends on the far edge', () => {
  const { to, run } = strokeTo(whole.whole, catchField(whole), free([0, 180]), [195, 201], manner);
  expect(run).toBe('across the grain');
  expect(to.at).toEqual([200, 180]);
});

test('a stroke that goes more down than across runs with the grain', () => {
  const { to, run } = strokeTo(whole.whole, catchField(whole), free([60, 0]), [75, 396], manner);
  expect(run).toBe('with the grain');
  expect(to.at).toEqual([60, 400]);
});

test('told to take any angle, the stroke goes where the hand goes', () => {
  const { to, run } = strokeTo(whole.whole, catchField(whole), free([0, 180]), [120, 300], {
    anyAngle: true,
    reach: 0,
  });
  expect(run).toBe('at an angle');
  expect(to.at).toEqual([120, 300]);
});

test('a start just inside the edge is drawn back to it', () => {
  const { from } = strokeTo(whole.whole, catchField(whole), free([22, 180]), [195, 180], manner);
  expect(from.kind).toBe('edge');
  expect(from.at[0]).toBeCloseTo(0, 9);
  expect(from.at[1]).toBeCloseTo(180, 9);
});

test('a start near the far edge is never drawn forward on to the edge it runs to, however far a finger reaches', () => {
  const { from, to } = strokeTo(whole.whole, catchField(whole), free([150, 180]), [195, 180], {
    anyAngle: false,
    reach: 53,
  });
  expect(from.at).toEqual([150, 180]);
  expect(to.at).toEqual([200, 180]);
});

test('a start well inside stays where it is', () => {
  expect(strokeTo(whole.whole, catchField(whole), free([60, 180]), [195, 180], manner).from.at).toEqual([
    60, 180,
  ]);
});

test('squaring goes by the grain, not by the page: on slanting grain every stroke stays square to it or runs with it', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: Math.PI, noNaN: true }),
      fc.double({ min: -200, max: 200, noNaN: true }),
      fc.double({ min: 5, max: 200, noNaN: true }),
      (angle, x, y) => {
        const slanting = panelled(
          piece(rectangle(200, 400), {
            grain: [
              [100, 200],
              [100 + 100 * Math.cos(angle), 200 + 100 * Math.sin(angle)],
            ],
          }),
        );
        const frame = grainFrame(slanting.whole);
        const d = squaredDirection(frame, [0, 0], [x, y]);
        expect(runOf(frame, [0, 0], d)).not.toBe('at an angle');
        expect(d[0] * x + d[1] * y).toBeGreaterThan(0);
      },
    ),
    { seed: 11, numRuns: 300 },
  );
});

test('a mirrored stroke across the centre is kept up to the fold: its image completes it', () => {
  const { path, once } = finishStroke(half.whole, [-100, 250], [100, 250], true);
  expect(once).toBe(false);
  const [[a, b]] = path as never as [[readonly number[], readonly number[]]];
  expect(Math.abs(a[0]!)).toBe(100);
  expect(b).toEqual([0, 250]);
});

test('a slanting stroke across the centre is for this side only, mirroring or not', () => {
  expect(finishStroke(half.whole, [-100, 250], [100, 300], true)).toEqual({
    path: [
      [
        [-100, 250],
        [100, 300],
      ],
    ],
    once: true,
  });
});

test('a stroke along the fold is not doubled by its own image', () => {
  expect(finishStroke(half.whole, [0, 0], [0, 400], true).once).toBe(true);
});

test('a stroke on one side is mirrored when mirroring is on and kept to its side when it is off', () => {
  expect(finishStroke(half.whole, [0, 250], [100, 250], true).once).toBe(false);
  expect(finishStroke(half.whole, [0, 250], [100, 250], false).once).toBe(true);
});
