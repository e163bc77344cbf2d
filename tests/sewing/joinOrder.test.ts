import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import type { Design } from '../../src/pattern';
import { checkPlan } from '../../src/sewing';
import type { Polyline, Pt } from '../../src/geometry';
import { lined, rectangle } from '../making/designs';

const planOf = (d: Design) => {
  const { pieces, plan, problems } = deriveGarment(d);
  return { pieces, plan, problems: problems.filter((p) => p.code === 'partial-seam') };
};
const kinds = (d: Design): string[] => planOf(d).plan.steps.map((s) => s.kind);
const sound = (d: Design): void => {
  const { plan, pieces } = planOf(d);
  expect(checkPlan(plan, pieces)).toEqual([]);
  const order = plan.steps.flatMap((s) => s.joins.flat()).map((p) => plan.numbers.get(p)!);
  expect([...new Set(order)]).toEqual([...new Set(order)].sort((a, b) => a - b));
};

const SQUARE = rectangle(300, 300);
const across = (y: number, from = 0, to = 300): Polyline => [
  [from, y],
  [to, y],
];
const down = (x: number, from = 0, to = 300): Polyline => [
  [x, from],
  [x, to],
];

test('a line that ends on another is sewn before it', () => {
  const d = lined(SQUARE, [across(100), down(150, 100, 300)]);
  const { plan } = planOf(d);
  sound(d);
  expect(plan.steps.map((s) => s.joins.map((j) => j.length).sort((a, b) => a - b))).toEqual([
    [1, 1],
    [1, 2],
  ]);
});

test('drawing order does not matter to a line that ends on another', () => {
  const d = lined(SQUARE, [down(150, 100, 300), across(100)]);
  sound(d);
  expect(planOf(d).plan.steps[0]!.seams[0]).toContain('L1');
});

test('at a crossing the earlier drawn line runs through and the later one is sewn in two parts before it', () => {
  const d = lined(SQUARE, [across(150), down(150)]);
  sound(d);
  expect(planOf(d).plan.steps.map((s) => s.seams.map((id) => id.split('/')[1]!.split('.')[0]))).toEqual([
    ['L2'],
    ['L2'],
    ['L1', 'L1'],
  ]);
});

test('a grid of n by m panels takes n·m − 1 seams', () => {
  const d = lined(SQUARE, [across(60), across(120), across(200), down(90), down(210)]);
  sound(d);
  expect(kinds(d)).toEqual(Array.from({ length: 11 }, () => 'seam'));
});

test('a pinwheel needs one partial seam, begun and finished, and says so at the spot', () => {
  const d = lined(SQUARE, [
    across(100, 0, 200),
    down(200, 0, 200),
    across(200, 100, 300),
    down(100, 100, 300),
  ]);
  const { plan, problems } = planOf(d);
  sound(d);
  expect(plan.steps.map((s) => s.kind)).toEqual(['partial seam', 'seam', 'seam', 'seam', 'partial seam']);
  expect(problems.map((p) => p.code)).toEqual(['partial-seam']);
  expect(plan.steps[0]!.text).toContain('step 5');
  expect(plan.steps[4]!.text).toContain('step 1');
});

test('two pinwheels on one piece need two partial seams', () => {
  const pinwheel = (x: number): Polyline[] => [
    [
      [x, 100],
      [x + 200, 100],
    ],
    down(x + 200, 0, 200),
    [
      [x + 300, 200],
      [x + 100, 200],
    ],
    down(x + 100, 300, 100),
  ];
  const d = lined(rectangle(600, 300), [...pinwheel(0), down(300), ...pinwheel(300)]);
  sound(d);
  expect(kinds(d).filter((k) => k === 'partial seam')).toHaveLength(4);
});

test('an inset drawn as a closed line is sewn in one seam round', () => {
  const ring: Polyline = [
    [100, 100],
    [200, 100],
    [200, 200],
    [100, 200],
    [100, 100],
  ];
  const d = lined(SQUARE, [ring]);
  sound(d);
  expect(kinds(d)).toEqual(['seam']);
});

test('an inset corner made of two lines that meet end to end is one seam', () => {
  const d = lined(SQUARE, [across(150, 0, 150), down(150, 150, 300)]);
  sound(d);
  expect(kinds(d)).toEqual(['seam']);
});

test('three lines that meet in the open: two are sewn as one, the third before them', () => {
  const d = lined(SQUARE, [
    [
      [150, 150],
      [0, 20],
    ],
    [
      [150, 150],
      [300, 20],
    ],
    [
      [150, 150],
      [150, 300],
    ],
  ]);
  sound(d);
  expect(kinds(d)).toEqual(['seam', 'seam']);
});

test('a loop that ends on itself is sewn: its stem closes a slit', () => {
  const d = lined(SQUARE, [
    [
      [0, 150],
      [100, 150],
      [200, 100],
      [200, 200],
      [100, 150],
    ],
  ]);
  sound(d);
});

test('numbers and order stay when a line moves without meeting another', () => {
  const at = (y: number) =>
    planOf(lined(SQUARE, [across(y), down(150, y, 300), across(220)])).plan.steps.map((s) => s.text);
  expect(at(100)).toEqual(at(140));
});

/** Random slicing of a rectangle by lines that run from line to line: the guillotine cuts of a cutting table. */
function guillotine(seed: readonly number[]): Polyline[] {
  const cells: [Pt, Pt][] = [
    [
      [0, 0],
      [300, 300],
    ],
  ];
  const cuts: Polyline[] = [];
  for (let i = 0; i + 2 < seed.length; i += 3) {
    const [[x0, y0], [x1, y1]] = cells.splice(Math.floor(seed[i]! * cells.length), 1)[0]!;
    const f = 0.25 + seed[i + 1]! / 2;
    if (seed[i + 2]! < 0.5) {
      const y = y0 + (y1 - y0) * f;
      cuts.push([
        [x0, y],
        [x1, y],
      ]);
      cells.push(
        [
          [x0, y0],
          [x1, y],
        ],
        [
          [x0, y],
          [x1, y1],
        ],
      );
    } else {
      const x = x0 + (x1 - x0) * f;
      cuts.push([
        [x, y0],
        [x, y1],
      ]);
      cells.push(
        [
          [x0, y0],
          [x, y1],
        ],
        [
          [x, y0],
          [x1, y1],
        ],
      );
    }
  }
  return cuts;
}

const fraction = fc.double({ min: 0, max: 0.999, noNaN: true });

test('every random guillotine slicing, drawn in any order, is sewn without a partial seam', () => {
  fc.assert(
    fc.property(
      fc.array(fraction, { minLength: 3, maxLength: 18 }),
      fc.infiniteStream(fraction),
      (seed, stream) => {
        const cuts = guillotine(seed)
          .map((cut) => ({ cut, key: stream.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ cut }) => cut);
        const d = lined(SQUARE, cuts);
        sound(d);
        expect(kinds(d)).toHaveLength(cuts.length);
        expect(kinds(d).every((k) => k === 'seam')).toBe(true);
      },
    ),
    { seed: 11, numRuns: 300 },
  );
});

test('every random bundle of straight lines from edge to edge is sewn, one seam fewer than panels', () => {
  const side = (k: number, f: number): Pt =>
    k === 0 ? [300 * f, 0] : k === 1 ? [300, 300 * f] : k === 2 ? [300 * f, 300] : [0, 300 * f];
  const chord = fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 1, max: 3 }), fraction, fraction);
  fc.assert(
    fc.property(fc.array(chord, { minLength: 1, maxLength: 8 }), (chords) => {
      const d = lined(
        SQUARE,
        chords.map(([k, step, f, g]) => [side(k, f), side((k + step) % 4, g)]),
      );
      sound(d);
      const { plan, pieces } = planOf(d);
      expect(plan.steps).toHaveLength(pieces[0]!.panels.length - 1);
    }),
    { seed: 12, numRuns: 300 },
  );
});

test('darts are sewn before the seams their panel takes part in, and named by where they are', () => {
  const d = lined(SQUARE, [across(150)], {
    darts: [
      {
        kind: 'single',
        legs: null,
        treatment: { kind: 'keep' },
        mouth: [
          [300, 60],
          [300, 80],
        ],
        point: [200, 70],
      },
      {
        kind: 'double',
        legs: null,
        treatment: { kind: 'keep' },
        points: [
          [100, 180],
          [110, 220],
          [100, 260],
          [90, 220],
        ],
      },
      {
        kind: 'double',
        legs: null,
        treatment: { kind: 'keep' },
        points: [
          [200, 180],
          [210, 220],
          [200, 260],
          [190, 220],
        ],
      },
    ],
    edgeNames: [
      {
        name: 'side seam',
        path: [
          [
            [300, 0],
            [300, 300],
          ],
        ],
      },
    ],
  });
  const texts = planOf(d).plan.steps.map((s) => s.text);
  expect(kinds(d)).toEqual(['dart', 'dart', 'seam']);
  expect(texts.join()).toContain('the dart from the side seam');
  expect(texts.join()).toContain('both double-pointed darts');
});

test('an inset that a line crosses is sewn in parts before the line, whichever was drawn first', () => {
  const inset: Polyline = [
    [80, 90],
    [200, 90],
    [200, 160],
    [80, 160],
    [80, 90],
  ];
  for (const lines of [
    [inset, down(150)],
    [down(150), inset],
  ]) {
    const d = lined(SQUARE, lines);
    sound(d);
    const { steps } = planOf(d).plan;
    expect(steps.map((s) => s.joins.map((j) => j.length))).toEqual([
      [1, 1],
      [1, 1],
      [2, 2],
    ]);
    expect(new Set(steps.at(-1)!.seams).size).toBe(3);
  }
});

test('a slit may be closed up to a line beyond which another unit is sewn already', () => {
  const inset: Polyline = [
    [128, 132],
    [244, 132],
    [244, 296],
    [128, 296],
    [128, 132],
  ];
  const slit: Polyline = [
    [186, 296],
    [186, 600],
  ];
  const across: Polyline = [
    [0, 520],
    [400, 500],
  ];
  const d = lined(rectangle(400, 600), [inset, across, slit]);
  const { plan, pieces } = planOf(d);
  expect(checkPlan(plan, pieces)).toEqual([]);
});
