import { expect, test } from 'vitest';
import type { Polyline, Pt } from '../../src/geometry';
import { slicedPiece } from '../../src/panels';
import type { Design, PieceId } from '../../src/pattern';
import { type OrderCure, orderCures } from '../../src/sewing';
import { seamRuns } from '../../src/sewing/runs';
import { lined, rectangle } from '../making/designs';
import { pinwheel } from '../making/randomLines';

const SQUARE = rectangle(300, 300);
const FRONT = 'front' as PieceId;

const runsOf = (d: Design) => seamRuns(slicedPiece(d.pieces[0]!, d));

/** The design with a line drawn on. */
const cured = (d: Design, { how, line, path }: OrderCure): Design => ({
  ...d,
  lines:
    how === 'extend'
      ? d.lines.map((l) => (l.id === line ? { ...l, path } : l))
      : [...d.lines, { ...d.lines.find((l) => l.id === line)!, id: 'line-99' as never, path }],
});

function openSpot(d: Design): Pt {
  const open = runsOf(d).find((r) => r.openAt !== null)!;
  return slicedPiece(d.pieces[0]!, d).nodePoints[open.openAt!]!;
}

test('a pinwheel is cured by drawing one of its lines on to the edge, and every proposal keeps its word', () => {
  const d = lined(SQUARE, pinwheel([0, 0], 300));
  const cures = orderCures(d, FRONT, openSpot(d));
  expect(cures.length).toBeGreaterThanOrEqual(4);
  for (const cure of cures) {
    expect(cure.how).toBe('extend');
    expect(runsOf(cured(d, cure)).filter((r) => r.openAt !== null)).toEqual([]);
  }
  expect(cures[0]!.what).toBe('edge');
});

test('of two pinwheels the one at the spot is cured', () => {
  const d = lined(rectangle(600, 300), [
    ...pinwheel([0, 0], 300),
    [
      [300, 0],
      [300, 300],
    ],
    ...pinwheel([300, 0], 300),
  ]);
  const open = runsOf(d).filter((r) => r.openAt !== null);
  const piece = slicedPiece(d.pieces[0]!, d);
  for (const run of open) {
    const at = piece.nodePoints[run.openAt!]!;
    const [cure] = orderCures(d, FRONT, at);
    expect(runsOf(cured(d, cure!)).filter((r) => r.openAt !== null).length).toBeLessThan(2);
    expect(cure!.from[0] < 300).toBe(at[0] < 300);
  }
});

test('an inset corner drawn as one line is cured by a new line straight on from the corner', () => {
  const corner: Polyline = [
    [0, 150],
    [150, 150],
    [150, 300],
  ];
  const d = lined(SQUARE, [corner]);
  const cures = orderCures(d, FRONT, [150, 150]);
  expect(cures.map(({ how, to, what }) => ({ how, to: to.map(Math.round), what }))).toEqual([
    { how: 'add', to: [300, 150], what: 'edge' },
    { how: 'add', to: [150, 0], what: 'edge' },
  ]);
  expect(runsOf(cured(d, cures[0]!)).flatMap((r) => r.corners)).toEqual([]);
});

test('a corner of two lines that meet end to end is cured by drawing one of them on, to the next line if that is near', () => {
  const d = lined(SQUARE, [
    [
      [0, 150],
      [150, 150],
    ],
    [
      [150, 150],
      [150, 300],
    ],
    [
      [200, 0],
      [200, 300],
    ],
  ]);
  const cures = orderCures(d, FRONT, [150, 150]);
  expect(
    cures.map(({ how, line, to, what }) => ({ how, line, to: to.map(Math.round), what })),
  ).toContainEqual({
    how: 'extend',
    line: 'line-1',
    to: [200, 150],
    what: 'line',
  });
  for (const cure of cures) expect(runsOf(cured(d, cure)).flatMap((r) => r.corners)).toEqual([]);
});

test('nothing is proposed where all seams are whole and straight', () => {
  const d = lined(SQUARE, [
    [
      [0, 150],
      [300, 150],
    ],
    [
      [150, 150],
      [150, 300],
    ],
  ]);
  expect(orderCures(d, FRONT, [150, 150])).toEqual([]);
});

test('on a piece cut on the fold a drawn line and its image are drawn on together', () => {
  const half = lined(
    rectangle(300, 300),
    pinwheel([0, 0], 300).map((l) => l.map(([x, y]): Pt => [x * 0.9, y])),
    {
      fold: [
        [300, 0],
        [300, 300],
      ],
    },
  );
  const open = runsOf(half).filter((r) => r.openAt !== null);
  expect(open).toHaveLength(2);
  const piece = slicedPiece(half.pieces[0]!, half);
  for (const run of open) {
    const [cure] = orderCures(half, FRONT, piece.nodePoints[run.openAt!]!);
    expect(runsOf(cured(half, cure!)).filter((r) => r.openAt !== null)).toEqual([]);
  }
});

test('a closed shape of four lines is cured by drawing two of them on at both ends, one after the other', () => {
  const d = lined(SQUARE, [
    [
      [100, 100],
      [200, 100],
    ],
    [
      [200, 100],
      [200, 200],
    ],
    [
      [200, 200],
      [100, 200],
    ],
    [
      [100, 200],
      [100, 100],
    ],
  ]);
  const cornersOf = (design: Design): number => runsOf(design).reduce((sum, r) => sum + r.corners.length, 0);
  const [first] = orderCures(d, FRONT, [100, 100]);
  expect(first).toMatchObject({ how: 'extend', both: true, what: 'edge' });
  const once = cured(d, first!);
  expect(cornersOf(once)).toBeLessThan(cornersOf(d));
  const left = runsOf(once).flatMap((r) => r.corners)[0]!;
  const [second] = orderCures(once, FRONT, left.at);
  expect(cornersOf(cured(once, second!))).toBeLessThan(cornersOf(once));
});
