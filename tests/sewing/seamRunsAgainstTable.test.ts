import { expect, test } from 'vitest';
import type { Polyline } from '../../src/geometry';
import { type PanelledPiece, slicedPiece } from '../../src/panels';
import type { SeamRun } from '../../src/sewing';
import { seamRuns } from '../../src/sewing/runs';
import { lined, rectangle } from '../making/designs';
import {
  type Random,
  dissection,
  divided,
  latticed,
  pinwheel,
  randomFrom,
  shuffled,
  strokes,
} from '../making/randomLines';
import { type Best, bestOrder, canBeSewn, layOut, replay } from './sewingTable';

/*
 * That a line ending on another is sewn before it, and that a ring of such lines needs a partial seam: common practice, no source.
 * That a corner is set in in two passes, reinforced and clipped: common practice.
 */

const SQUARE = rectangle(300, 300);

function slicedSquare(drawn: readonly Polyline[]): PanelledPiece {
  const d = lined(SQUARE, drawn);
  return slicedPiece(d.pieces[0]!, d);
}

/** Replay the runs of a line plan at the table: what is wrong, and what they cost. */
function replayed(drawn: readonly Polyline[]): { faults: string[]; best: Best } {
  const piece = slicedSquare(drawn);
  return replay(layOut(piece), seamRuns(piece));
}

function allReplayed(
  count: number,
  lines: (random: Random) => Polyline[],
): { partial: number; corners: number } {
  const seen = { partial: 0, corners: 0 };
  for (let i = 1; i <= count; i += 1) {
    const drawn = lines(randomFrom(i));
    const { faults, best } = replayed(drawn);
    expect({ i, drawn, faults }).toEqual({ i, drawn, faults: [] });
    if (best[0] > 0) seen.partial += 1;
    if (best[2] > 0) seen.corners += 1;
  }
  return seen;
}

/** Compare the runs of random line plans with the best of all orders the table finds by trying all. */
function compared(count: number, mostPanels: number, lines: (random: Random) => Polyline[]) {
  const seen = { compared: 0, partial: 0, corners: 0 };
  for (let i = 1; i <= count; i += 1) {
    const drawn = lines(randomFrom(i));
    const piece = slicedSquare(drawn);
    if (piece.panels.length > mostPanels) continue;
    const table = layOut(piece);
    const { faults, best } = replay(table, seamRuns(piece));
    expect({ i, drawn, faults }).toEqual({ i, drawn, faults: [] });
    const least = bestOrder(table);
    if (least === 'too many') continue;
    if (least) expect({ i, drawn, best }).toEqual({ i, drawn, best: least });
    else {
      const can = canBeSewn(table, best[0] - 1);
      if (can === 'too many') continue;
      expect({ i, drawn, partial: best[0], canDoWithLess: can }).toEqual({
        i,
        drawn,
        partial: Math.max(1, best[0]),
        canDoWithLess: false,
      });
      seen.partial += 1;
    }
    seen.compared += 1;
    if (best[2] > 0) seen.corners += 1;
  }
  return seen;
}

test('random rectangles: as few seams, partial seams and corners as the best of all orders', () => {
  const { compared: count } = compared(80, 8, (random) => dissection(4, 4, 3, random));
  expect(count).toBeGreaterThan(60);
});

test('random cuts and pinwheels, one in the other: a partial seam only where no order does without', () => {
  const { compared: count, partial } = compared(100, 8, (random) => divided(2, 0.4, random));
  expect(count).toBeGreaterThan(70);
  expect(partial).toBeGreaterThan(30);
});

test('straight and angled strokes from edge to edge: as few seams and corners as the best of all orders', () => {
  const { compared: count } = compared(50, 8, (random) => strokes(3, random));
  expect(count).toBeGreaterThan(35);
});

test('lines that meet, touch, close to rings and run along each other: as good as the best of all orders', () => {
  const { compared: count, corners } = compared(350, 6, (random) => latticed(2, 4, random));
  expect(count).toBeGreaterThan(280);
  expect(corners).toBeGreaterThan(40);
});

test('every seam of a large plan of rectangles is whole when its turn comes, or is begun and finished', () => {
  const { partial } = allReplayed(60, (random) => dissection(8, 8, 3, random));
  expect(partial).toBeGreaterThan(0);
});

test('every seam of many pinwheels in pinwheels is sewn', () => {
  const { partial } = allReplayed(60, (random) => divided(8, 0.5, random));
  expect(partial).toBeGreaterThan(40);
});

test('every seam of a tangle of strokes is sewn without a partial seam', () => {
  expect(allReplayed(40, (random) => strokes(10, random)).partial).toBe(0);
});

test('every seam of a tangle of zigzags is sewn', () => {
  allReplayed(60, (random) => latticed(6, 5, random));
});

test('a design turned, mirrored or drawn in another order keeps its number of partial seams, seams and corners', () => {
  for (let i = 1; i <= 60; i += 1) {
    const drawn = i % 2 === 0 ? dissection(5, 5, 3, randomFrom(i)) : divided(4, 0.3, randomFrom(i));
    const turned = drawn.map((l) => l.map(([x, y]) => [300 - y, x] as const));
    const mirrored = drawn.map((l) => l.map(([x, y]) => [300 - x, y] as const));
    const { best } = replayed(drawn);
    for (const other of [turned, mirrored, drawn.toReversed(), drawn.map((l) => l.toReversed())])
      expect({ i, best: replayed(other).best }).toEqual({ i, best });
  }
});

/** The runs in some order in which each comes after all it needs. */
function reordered(runs: readonly SeamRun[], random: Random): SeamRun[] {
  const left = shuffled(runs, random);
  const done: SeamRun[] = [];
  while (left.length > 0) {
    const waits = (r: SeamRun): boolean => r.needs.some((n) => left.some((o) => o.key === n.key));
    const next = left.findIndex((r) => !waits(r));
    if (next < 0) throw new Error('needs have no order');
    done.push(...left.splice(next, 1));
  }
  return done;
}

test('whatever order keeps what each run needs can be sewn', () => {
  for (let i = 1; i <= 120; i += 1) {
    const random = randomFrom(i);
    const kinds = [
      () => dissection(5, 5, 3, random),
      () => divided(4, 0.4, random),
      () => strokes(5, random),
      () => latticed(3, 4, random),
    ];
    const drawn = kinds[i % 4]!();
    const piece = slicedSquare(drawn);
    for (let k = 0; k < 3; k += 1) {
      const { faults } = replay(layOut(piece), reordered(seamRuns(piece), random));
      expect({ i, drawn, faults }).toEqual({ i, drawn, faults: [] });
    }
  }
});

test('the table itself: a pinwheel cannot be sewn whole, a crossing and a T can', () => {
  const table = (drawn: readonly Polyline[]) => layOut(slicedSquare(drawn));
  expect(bestOrder(table(pinwheel([0, 0], 300)))).toBeNull();
  expect(canBeSewn(table(pinwheel([0, 0], 300)), 0)).toBe(false);
  expect(canBeSewn(table(pinwheel([0, 0], 300)), 1)).toBe(true);
  const across: Polyline = [
    [0, 100],
    [300, 100],
  ];
  const cross: Polyline = [
    [150, 0],
    [150, 300],
  ];
  const stem: Polyline = [
    [150, 100],
    [150, 300],
  ];
  expect(bestOrder(table([across, cross]))).toEqual([0, 3, 0]);
  expect(bestOrder(table([across, stem]))).toEqual([0, 2, 0]);
});
