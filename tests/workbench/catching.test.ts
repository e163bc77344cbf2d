import { expect, test } from 'vitest';
import { catchField } from '../../src/workbench/drawing/catchField';
import { catchAnywhere, catchOnStraight } from '../../src/workbench/drawing/catchPoint';
import { HALF, WHOLE, panelled, straight } from './pieces';

const field = catchField(panelled(WHOLE));

test('an end near a corner catches the corner, not the edge beside it', () => {
  expect(catchAnywhere(field, [4, 3], 12)).toEqual({ at: [0, 0], kind: 'corner', word: 'corner' });
});

test('an end near an edge alone catches the edge square to it', () => {
  const caught = catchAnywhere(field, [6, 180], 12);
  expect(caught.kind).toBe('edge');
  expect(caught.at[0]).toBeCloseTo(0, 9);
  expect(caught.at[1]).toBeCloseTo(180, 9);
});

test('where a level meets the edge both are caught at once and named', () => {
  const caught = catchAnywhere(field, [5, 104], 12);
  expect(caught.word).toBe('waist level, edge');
  expect(caught.at).toEqual([0, 100]);
});

test('a notch wins over the edge it touches', () => {
  expect(catchAnywhere(field, [3, 246], 12)).toMatchObject({ kind: 'notch', at: [0, 250] });
});

test('with no reach nothing is caught and the end lies where the hand is', () => {
  expect(catchAnywhere(field, [1, 1], 0)).toEqual({ at: [1, 1], kind: null, word: null });
});

test('another line is caught anywhere along it, a line without itself never catches itself', () => {
  const piece = panelled(WHOLE, straight('a', [0, 200], [200, 200]));
  expect(catchAnywhere(catchField(piece), [90, 204], 12)).toMatchObject({ kind: 'line', at: [90, 200] });
  expect(catchAnywhere(catchField(piece, 'a' as never), [90, 204], 12).kind).toBeNull();
});

test('the centre of an opened-out piece is caught', () => {
  expect(catchAnywhere(catchField(panelled(HALF)), [2, 222], 6)).toMatchObject({
    kind: 'centre',
    word: 'centre',
  });
});

test('an end held to a straight line catches where that line meets the edge', () => {
  const caught = catchOnStraight(field, [0, 180], [1, 0], [193, 186], 12);
  expect(caught).toMatchObject({ kind: 'edge', at: [200, 180] });
});

test('an over-long stroke ends on the last edge', () => {
  expect(catchOnStraight(field, [0, 180], [1, 0], [480, 190], 12)).toMatchObject({
    kind: 'edge',
    at: [200, 180],
  });
});

test('a stroke in the middle of the piece lies free on its straight line', () => {
  const caught = catchOnStraight(field, [0, 180], [1, 0], [120, 190], 12);
  expect(caught).toEqual({ at: [120, 180], kind: null, word: null });
});

test('a stroke running down catches the level it crosses', () => {
  expect(catchOnStraight(field, [60, 0], [0, 1], [60, 94], 12)).toMatchObject({
    kind: 'level',
    word: 'waist level',
    at: [60, 100],
  });
});
