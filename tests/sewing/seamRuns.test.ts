import { expect, test } from 'vitest';
import type { Path, Polyline } from '../../src/geometry';
import { slicedPiece } from '../../src/panels';
import type { OrderWish } from '../../src/pattern';
import { seamRuns, turnRound } from '../../src/sewing/runs';
import { lined, rectangle } from '../making/designs';
import { pinwheel } from '../making/randomLines';

const across = (y: number, from = 0, to = 300): Polyline => [
  [from, y],
  [to, y],
];
const down = (x: number, from = 0, to = 300): Polyline => [
  [x, from],
  [x, to],
];
/** Two legs that meet in a point below their ends. */
const chevron = (y: number): Polyline => [
  [0, y],
  [150, y + 80],
  [300, y],
];
const ring = (x0: number, y0: number, x1: number, y1: number): Polyline => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
  [x0, y0],
];

const sliced = (lines: readonly (Polyline | Path)[], size = 300) => {
  const d = lined(rectangle(size, 300), lines);
  return slicedPiece(d.pieces[0]!, d);
};

/** The runs of a front with these lines in sewing order: key, kind, corners; what each needs, `+` where that is a choice. */
function told(lines: readonly (Polyline | Path)[], wishes: readonly OrderWish[] = [], size = 300): string[] {
  return seamRuns(sliced(lines, size), wishes).map((r) => {
    const needs = r.needs.map((n) => {
      const key = n.key.replace('seam line-', '');
      return n.because.kind === 'is crossed'
        ? `+${key}`
        : n.because.kind === 'begun there'
          ? `begun ${key}`
          : key;
    });
    const kind = r.openAt !== null ? ' open' : r.isClosed ? ' round' : '';
    const corners = r.corners.map((c) => ` ${Math.round(c.turn)}°`).join('');
    return `${r.key.replace('seam line-', '')}${kind}${corners}: ${needs.sort().join(', ')}`;
  });
}

test('a line that ends on another is sewn before it, whichever was drawn first; no wish changes that', () => {
  expect(told([across(100), down(150, 100)])).toEqual(['2: ', '1: 2']);
  expect(told([down(150, 100), across(100)])).toEqual(['1: ', '2: 1']);
  const wish = { earlier: 'seam line-1', later: 'seam line-2' };
  expect(told([across(100), down(150, 100)], [wish])).toEqual(['2: ', '1: 2']);
});

test('at a crossing the earlier drawn line runs through; a wish turns it round', () => {
  expect(told([across(150), down(150)])).toEqual(['2 #2: ', '2: ', '1: +2, +2 #2']);
  const wish = { earlier: 'seam line-1', later: 'seam line-2' };
  expect(told([across(150), down(150)], [wish])).toEqual(['1 #2: ', '1: ', '2: +1, +1 #2']);
});

test('chevrons whose points lie on a vertical line are sewn in halves before it, though they were drawn first', () => {
  expect(told([chevron(60), chevron(120), down(150)])).toEqual([
    '2 #2: ',
    '2: ',
    '1 #2: ',
    '1: ',
    '3: +1, +1 #2, +2, +2 #2',
  ]);
});

test('a chevron that is wanted whole is sewn in two passes at its point', () => {
  const wish = { earlier: 'seam line-2', later: 'seam line-1' };
  expect(told([chevron(60), down(150)], [wish])).toEqual(['2 #2: ', '2: ', '1 56°: +2, +2 #2']);
});

test('two V lines that touch at their points are sewn straight across, not round the points', () => {
  const runs = told([
    chevron(60),
    [
      [0, 220],
      [150, 140],
      [300, 220],
    ],
  ]);
  expect(runs).toHaveLength(3);
  expect(runs.join()).not.toContain('°');
});

test('a line that ends on a crossing of two others is sewn before the one that runs through', () => {
  const runs = told([
    across(150),
    down(150),
    [
      [150, 150],
      [300, 300],
    ],
  ]);
  expect(runs.at(-1)).toBe('1: +2, +2 #2, 3');
});

test('the straightest pair at a Y runs through; the third line is sewn before it', () => {
  const runs = told([
    [
      [150, 150],
      [0, 60],
    ],
    [
      [150, 150],
      [300, 60],
    ],
    [
      [150, 150],
      [160, 300],
    ],
  ]);
  expect(runs).toHaveLength(2);
  expect(runs[1]).toMatch(/^1 \d+°: \+2$/);
});

test('a pinwheel is begun, left open where the next line ends, and finished last', () => {
  const piece = sliced(pinwheel([0, 0], 300));
  expect(told(pinwheel([0, 0], 300))).toEqual(['4 #2 open: ', '1: 4 #2', '2: 1', '3: 2', '4: 3, begun 4 #2']);
  const [begun] = seamRuns(piece);
  expect(piece.nodePoints[begun!.openAt!]).toEqual([100, 200]);
  expect(seamRuns(piece).at(-1)!.finishes).toBe(begun!.key);
});

test('a ring of lines that crossings can open needs no partial seam', () => {
  const turned = pinwheel([0, 0], 300).map((l, i): Polyline => (i === 0 ? across(100) : l));
  expect(told(turned).join()).not.toContain('open');
});

test('pinwheels side by side and one in the other each need one partial seam', () => {
  const beside = [...pinwheel([0, 0], 300), down(300), ...pinwheel([300, 0], 300)];
  expect(told(beside, [], 600).filter((r) => r.includes('open'))).toHaveLength(2);
  const nested = [...pinwheel([0, 0], 300), ...pinwheel([100, 100], 100)];
  expect(told(nested).filter((r) => r.includes('open'))).toHaveLength(2);
});

test('a ring is one closed seam with its corners set in; clipped is what lies round it', () => {
  const piece = sliced([ring(100, 100, 200, 200)]);
  const [run] = seamRuns(piece);
  expect(told([ring(100, 100, 200, 200)])).toEqual(['1 round 90° 90° 90° 90°: ']);
  const outside = piece.panels.find((p) => p.holes.length > 0)!;
  expect(run!.corners.map((c) => c.clip)).toEqual(Array.from({ length: 4 }, () => outside.id));
});

test('the corner of an inset clips the panel it points into', () => {
  const piece = sliced([across(150, 0, 150), down(150, 150)]);
  const [run] = seamRuns(piece);
  expect(run!.corners).toHaveLength(1);
  expect(run!.lines.map((l) => l.line)).toEqual(['line-1', 'line-2']);
  const [corner] = run!.corners;
  const large = piece.panels.toSorted((a, b) => b.area - a.area)[0]!;
  expect(corner).toEqual({ at: [150, 150], turn: 90, clip: large.id });
});

test('rings within rings are sewn one after the other', () => {
  expect(told([ring(50, 50, 250, 250), ring(100, 100, 200, 200)])).toHaveLength(2);
});

test('a ring that an open line crosses is sewn in parts before it, one seam fewer than panels', () => {
  for (const lines of [
    [ring(80, 90, 200, 160), down(150)],
    [down(150), ring(80, 90, 200, 160)],
  ])
    expect(told(lines)).toHaveLength(3);
});

test('a ring whose corner only touches a line is sewn before that line', () => {
  const runs = told([
    down(150),
    [
      [150, 100],
      [220, 150],
      [150, 200],
      [150, 100],
    ],
  ]);
  expect(runs.at(-1)!.startsWith('1')).toBe(true);
});

test('a line that comes back to itself is sewn as a round, its stem first', () => {
  const loop: Polyline = [
    [0, 150],
    [100, 150],
    [200, 100],
    [200, 200],
    [100, 150],
  ];
  expect(told([loop]).map((r) => r.replace(/ \d+°/g, ''))).toEqual(['1: ', '1 #2 round: +1']);
});

test('lines along each other are sewn once', () => {
  const runs = seamRuns(sliced([across(150), across(150, 50, 200), down(100)]));
  const seams = runs.flatMap((r) => r.seams);
  expect(new Set(seams).size).toBe(seams.length);
  expect(runs).toHaveLength(3);
});

test('seams of a curved yoke run through what ends on it', () => {
  const yoke: Path = [
    [
      [0, 80],
      [100, 160],
      [200, 160],
      [300, 80],
    ],
  ];
  expect(told([down(150, 140), yoke])).toEqual(['1: ', '2: 1']);
});

test('keys and needs stay while lines are moved without meeting others', () => {
  const at = (y: number) => told([across(y), down(150, y), across(y + 60, 150, 300), down(220, 0, y)]);
  expect(at(100)).toEqual(at(140));
});

test('the same piece and wishes give the same runs, by identity', () => {
  const piece = sliced([across(150), down(150)]);
  expect(seamRuns(piece, [])).toBe(seamRuns(piece));
});

test('a drag against a crossing is possible and says what to wish; against a T it names what forbids it', () => {
  const crossing = sliced([across(150), down(150)]);
  const turned = turnRound(crossing, [], 'seam line-1', 'seam line-2');
  expect(turned).toEqual({ can: true, wishes: [{ earlier: 'seam line-1', later: 'seam line-2' }] });
  const tee = sliced([across(100), down(150, 100)]);
  const refused = turnRound(tee, [], 'seam line-1', 'seam line-2');
  expect(refused).toMatchObject({
    can: false,
    of: 'seam line-1',
    need: { key: 'seam line-2', because: { kind: 'ends on it', at: [150, 100] } },
  });
});

test('a crossing further on is turned round where that lets a step come earlier', () => {
  const piece = sliced([across(100), down(100), down(200, 100)]);
  const first = turnRound(piece, [], 'seam line-1', 'seam line-2');
  expect(first.can).toBe(true);
  const wishes = first.can ? first.wishes : [];
  const back = turnRound(piece, wishes, 'seam line-2', 'seam line-1');
  expect(back).toEqual({ can: true, wishes: [{ earlier: 'seam line-2', later: 'seam line-1' }] });
});
