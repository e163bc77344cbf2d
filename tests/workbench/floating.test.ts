import { expect, test } from 'vitest';
import { sideWithRoom } from '../../src/workbench/canvas/Floating';

const free = [376, 1440] as const;

test('words stand on the side where they are wanted while there is room', () => {
  expect(sideWithRoom(800, 'right', free)).toBe('right');
  expect(sideWithRoom(800, 'left', free)).toBe('left');
});

test('words never run off the screen or under the sheet when the other side has room', () => {
  expect(sideWithRoom(1300, 'right', free)).toBe('left');
  expect(sideWithRoom(420, 'left', free)).toBe('right');
});

test('where neither side has room the wanted one is kept', () => {
  expect(sideWithRoom(200, 'right', [0, 390])).toBe('right');
});
