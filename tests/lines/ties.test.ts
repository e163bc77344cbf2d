import { expect, test } from 'vitest';
import { type Pt, endOf, lengthAt, nearestOnPath, pathLength, startOf } from '../../src/geometry';
import { deleteLevel, moveLevel, renameLevel, settle, settleLines, tieProblems } from '../../src/lines';
import { type Design, type LineTies, type Piece, type Tie, openedPiece, sewnEdge } from '../../src/pattern';
import { dart, panelLine, piece, rectangle, design } from '../making/designs';
import { FRONT, USUAL, front, halfFront, line, pathOf, tiedAll } from './ground';

const near = (p: Pt, q: Pt, within = 1e-6): void => {
  expect(Math.hypot(p[0] - q[0], p[1] - q[1]), `${String(p)} to ${String(q)}`).toBeLessThan(within);
};
const held = (nodes: readonly (Tie | null)[], run: LineTies['run'] = null): LineTies => ({ nodes, run });
const level = (name: string) => ({ kind: 'level', name }) as const;
const CENTRE = { kind: 'centre' } as const;

/** 200 × 400, grain down, waist at 100 and hip at 300; edges named. */
const BOX: Piece = piece(rectangle(200, 400), {
  levels: [
    {
      name: 'waist',
      line: [
        [0, 100],
        [200, 100],
      ],
    },
    {
      name: 'hip',
      line: [
        [0, 300],
        [200, 300],
      ],
    },
  ],
  edgeNames: [
    {
      name: 'top',
      path: [
        [
          [0, 0],
          [200, 0],
        ],
      ],
    },
    {
      name: 'right',
      path: [
        [
          [200, 0],
          [200, 400],
        ],
      ],
    },
    {
      name: 'hem',
      path: [
        [
          [200, 400],
          [0, 400],
        ],
      ],
    },
    {
      name: 'left',
      path: [
        [
          [0, 400],
          [0, 0],
        ],
      ],
    },
  ],
});
const box = (
  ties: LineTies,
  over: Partial<Piece> = {},
  path = [
    [
      [10, 10],
      [20, 30],
    ],
  ] as const,
): Design => design([{ ...BOX, ...over }], [panelLine(path, 0, { ties })]);
const endsOf = (d: Design, n = 1): readonly [Pt, Pt] => {
  const path = pathOf(settleLines(d), n);
  return [startOf(path), endOf(path)];
};
const onEdge = (
  name: string,
  along: 'edge' | 'grain' | 'across',
  reach: (Tie & { kind: 'edge' })['reach'],
): Tie => ({ kind: 'edge', name, nth: 0, along, reach });

test('so many mm below a level along the grain, and a third of the way between two levels', () => {
  const [a, b] = endsOf(
    box(
      held([
        onEdge('left', 'grain', { kind: 'from', base: level('waist'), by: 45 }),
        onEdge('right', 'grain', { kind: 'between', bases: [level('waist'), level('hip')], share: 1 / 3 }),
      ]),
    ),
  );
  near(a, [0, 145]);
  near(b, [200, 100 + 200 / 3]);
});

test('along an edge: from either end, as a share, and below the place where a level meets it', () => {
  const end = (which: 'first' | 'last') => ({ kind: 'edge end', name: 'left', nth: 0, end: which }) as const;
  // The left edge runs up the drawing: its first end is the lower one.
  near(
    endsOf(box(held([onEdge('left', 'edge', { kind: 'from', base: end('first'), by: 30 }), null])))[0],
    [0, 370],
  );
  near(
    endsOf(box(held([onEdge('left', 'edge', { kind: 'from', base: end('last'), by: 30 }), null])))[0],
    [0, 30],
  );
  near(
    endsOf(
      box(
        held([
          onEdge('left', 'edge', { kind: 'between', bases: [end('first'), end('last')], share: 0.25 }),
          null,
        ]),
      ),
    )[0],
    [0, 300],
  );
  near(
    endsOf(box(held([onEdge('left', 'edge', { kind: 'from', base: level('waist'), by: 45 }), null])))[0],
    [0, 145],
  );
  near(
    endsOf(box(held([onEdge('right', 'edge', { kind: 'from', base: level('waist'), by: -45 }), null])))[0],
    [200, 55],
  );
});

test('along an edge, a dart’s mouth takes up no length', () => {
  const darts = [dart([0, 180], [60, 190], [0, 200])];
  const end = { kind: 'edge end', name: 'left', nth: 0, end: 'last' } as const;
  const [a] = endsOf(
    box(held([onEdge('left', 'edge', { kind: 'from', base: end, by: 230 }), null]), { darts }),
  );
  near(a, [0, 250]);
});

test('inside: by height and by place across, between edges too', () => {
  const tie: Tie = {
    kind: 'inside',
    down: { kind: 'from', base: level('hip'), by: -20 },
    over: {
      kind: 'between',
      bases: [
        { kind: 'edge', name: 'left', nth: 0 },
        { kind: 'edge', name: 'right', nth: 0 },
      ],
      share: 0.3,
    },
  };
  near(endsOf(box(held([tie, null])))[0], [60, 280]);
});

test('a point inside can be measured from the centre of a half piece', () => {
  const d = front(USUAL, [
    line(
      [
        [
          [50, 300],
          [90, 500],
        ],
      ],
      1,
      {
        ties: held([
          {
            kind: 'inside',
            down: { kind: 'from', base: level('waist'), by: 10 },
            over: { kind: 'from', base: CENTRE, by: 77 },
          },
          null,
        ]),
      },
    ),
  ]);
  near(endsOf(d)[0], [77, 430]);
});

test('a line that keeps its direction runs on to the outline, the centre, or the line it ended on', () => {
  const tie = onEdge('left', 'grain', { kind: 'from', base: level('waist'), by: 20 });
  const square = (d: Design) => endsOf(d)[1];
  near(square(box(held([tie, null], { kind: 'square', until: { kind: 'outline' } }))), [200, 120]);
  near(
    square(box(held([tie, null], { kind: 'angle', degrees: 45, until: { kind: 'outline' } }))),
    [200, 320],
  );
  const until = { kind: 'line', line: 'line-2', mirrored: false } as never;
  const two = design(
    [BOX],
    [
      panelLine(
        [
          [
            [0, 1],
            [10, 1],
          ],
        ],
        0,
        { ties: held([tie, null], { kind: 'square', until }) },
      ),
      panelLine(
        [
          [
            [80, 0],
            [140, 400],
          ],
        ],
        1,
      ),
    ],
  );
  near(square(two), [80 + 60 * (120 / 400), 120]);
});

test('a line held at a dart’s point follows the dart', () => {
  const darts = [dart([0, 180], [60, 190], [0, 200])];
  const ties = held([null, { kind: 'dart', dart: 0, point: 0, mirrored: false }], {
    kind: 'with',
    until: { kind: 'outline' },
  });
  const path = [
    [
      [61, 390],
      [60, 191],
    ],
  ] as const;
  const d = design([{ ...BOX, darts }], [panelLine(path, 0, { ties })]);
  near(endsOf(d)[1], [60, 190]);
  near(endsOf(d)[0], [60, 400]);
  const moved = design([{ ...BOX, darts: [dart([0, 180], [90, 150], [0, 200])] }], d.lines);
  near(endsOf(moved)[0], [90, 400]);
});

test('points without a tie follow: the curve between two held points keeps its shape and smooth joints stay smooth', () => {
  const S = [
    [
      [0, 100],
      [40, 60],
      [60, 60],
      [100, 100],
    ],
    [
      [100, 100],
      [140, 140],
      [160, 140],
      [200, 100],
    ],
  ] as const;
  const ties = held([
    onEdge('left', 'grain', { kind: 'from', base: level('waist'), by: 50 }),
    {
      kind: 'inside',
      down: { kind: 'from', base: level('waist'), by: 0 },
      over: { kind: 'from', base: { kind: 'edge', name: 'left', nth: 0 }, by: 110 },
    },
    onEdge('right', 'grain', { kind: 'from', base: level('waist'), by: 0 }),
  ]);
  const path = pathOf(settleLines(design([BOX], [panelLine(S, 0, { ties })])));
  near(path[0]![0], [0, 150]);
  near(path[1]![0], [110, 100]);
  const [into, out] = [path[0]![2]!, path[1]![1]!];
  const cross = (110 - into[0]) * (out[1] - 100) - (100 - into[1]) * (out[0] - 110);
  expect(Math.abs(cross)).toBeLessThan(1e-6);
});

test('what a tie refers to may be gone: the line stays where it is and says so', () => {
  const d = tiedAll(
    front(USUAL, [
      line([
        [
          [0, 465],
          [195.3, 465],
        ],
      ]),
    ]),
  );
  const without = deleteLevel(d, FRONT, 'waist');
  const { design: after, problems } = settle(without);
  expect(after).toBe(without);
  expect(problems).toMatchObject([
    { code: 'tie-lost', facts: { line: 'line-1', what: 'the waist level', why: 'gone' }, piece: 'front' },
  ]);
});

test('an edge that no longer reaches the height is said to be missed', () => {
  const tie = onEdge('left', 'grain', { kind: 'from', base: level('hip'), by: 500 });
  expect(tieProblems(box(held([tie, null])))).toMatchObject([{ facts: { what: 'the left', why: 'missed' } }]);
});

test('lines tied to each other in a ring stay where they are, with a problem each; lines outside it follow', () => {
  const to = (n: number): Tie => ({
    kind: 'line',
    line: `line-${n}` as never,
    mirrored: false,
    place: { kind: 'share', share: 0.5 },
  });
  const d = design(
    [BOX],
    [
      panelLine(
        [
          [
            [0, 50],
            [90, 90],
          ],
        ],
        0,
        { ties: held([null, to(2)]) },
      ),
      panelLine(
        [
          [
            [50, 0],
            [90, 200],
          ],
        ],
        1,
        { ties: held([null, to(1)]) },
      ),
      panelLine(
        [
          [
            [5, 5],
            [50, 60],
          ],
        ],
        2,
        {
          ties: held([onEdge('left', 'grain', { kind: 'from', base: level('waist'), by: 0 }), to(1)]),
        },
      ),
    ],
  );
  const { design: after, problems } = settle(d);
  expect(problems.map((p) => p.facts)).toMatchObject([
    { line: 'line-1', why: 'ring' },
    { line: 'line-2', why: 'ring' },
  ]);
  expect(after.lines[0]).toBe(d.lines[0]);
  expect(after.lines[1]).toBe(d.lines[1]);
  near(startOf(after.lines[2]!.path), [0, 100]);
});

test('a level can be given another name, and what is tied to it stays tied', () => {
  const d = tiedAll(
    front(USUAL, [
      line([
        [
          [0, 465],
          [195.3, 465],
        ],
      ]),
    ]),
  );
  const renamed = renameLevel(d, FRONT, 'waist', 'natural waist');
  expect(settle(renamed).problems).toEqual([]);
  near(startOf(pathOf(settleLines(moveLevel(renamed, FRONT, 'natural waist', 12)))), [0, 477]);
  expect(renameLevel(d, FRONT, 'waist', 'Hip')).toBe(d);
});

test('a line on the mirrored side of an opened-out piece is held by the mirrored edge', () => {
  const whole = openedPiece(halfFront(), front(USUAL, [])).whole;
  const mirrored = whole.edges.findIndex((e) => e.name === 'side seam, mirrored');
  const { path } = sewnEdge(whole, mirrored);
  const at = path[1]![0];
  const d = tiedAll(front(USUAL, [line([[at, [0, at[1]]]], 1, { once: true })]));
  expect(d.lines[0]!.ties?.nodes[0]).toMatchObject({ kind: 'edge', name: 'side seam', nth: 1 });
  const moved = pathOf(settleLines(moveLevel(d, FRONT, 'hip', 30)));
  expect(startOf(moved)[1]).toBeCloseTo(at[1] + 30, 6);
  const foot = nearestOnPath(path, startOf(moved));
  expect(foot.distance).toBeLessThan(1e-6);
  expect(lengthAt(path, foot)).toBeLessThan(pathLength(path));
});
