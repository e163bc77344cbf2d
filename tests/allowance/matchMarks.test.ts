import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type CutNotch, NOTCH_CLEARANCE, markLines } from '../../src/allowance';
import { type Garment, deriveGarment } from '../../src/garment';
import { type Path, type Pt, directionAt, nearestOnPath, pointAt } from '../../src/geometry';
import type { Seam } from '../../src/panels';
import type { Dart, Design } from '../../src/pattern';
import { type Crossed, crossedPiece } from '../making/crossedPieces';
import { dart, design, lined, panelLine, piece, rectangle } from '../making/designs';
import { type Place, backwards, isAlike, placesOf } from './placesOf';
import { walkedMarks } from './walkSides';

const garmentOf = ({ outline, lines, newSeam }: Crossed): Garment => {
  const d = lined(outline, lines);
  return deriveGarment({ ...d, allowances: { ...d.allowances, newSeam } });
};

test('whatever is drawn, marks lie at equal lengths along both stitching lines, to a tenth of a millimetre', () => {
  let measured = 0;
  fc.assert(
    fc.property(crossedPiece, (d) => {
      const garment = garmentOf(d);
      for (const seam of garment.seams) {
        if (seam.a === seam.b) continue;
        const [a, b] = [walkedMarks(garment, seam, 'a')!, walkedMarks(garment, seam, 'b')!];
        expect(a.marks.map((m) => m.notch.marks)).toEqual(b.marks.map((m) => m.notch.marks));
        a.marks.forEach((m, i) => expect(Math.abs(m.at - b.marks[i]!.at)).toBeLessThan(0.1));
        measured += a.marks.length;
      }
    }),
    { seed: 41, numRuns: 250 },
  );
  expect(measured).toBeGreaterThan(2000);
});

test('every seam of 40 mm or more has two marks, unless a bend leaves no room or it says that none fits', () => {
  let [seams, single, none] = [0, 0, 0];
  fc.assert(
    fc.property(crossedPiece, (d) => {
      const garment = garmentOf(d);
      const told = garment.problems.filter((p) => p.code === 'seam-without-marks').length;
      const places = garment.seams.map((s) => placesOf(garment, s));
      expect(places.filter((p) => p.length === 0)).toHaveLength(told);
      garment.seams.forEach((s, i) => {
        if (s.lengthA < 40) return;
        seams += 1;
        if (places[i]!.length === 1) single += 1;
        if (places[i]!.length === 0) none += 1;
      });
    }),
    { seed: 42, numRuns: 300 },
  );
  expect(seams).toBeGreaterThan(1000);
  // sharp corners and tight bends take the cutting edge away over most of a seam, seldom
  expect(single / seams).toBeLessThan(0.02);
  expect(none / seams).toBeLessThan(0.02);
});

test('no seam reads the same from its other end', () => {
  fc.assert(
    fc.property(crossedPiece, (d) => {
      const garment = garmentOf(d);
      for (const seam of garment.seams) {
        const p = placesOf(garment, seam);
        if (seam.lengthA >= 40 && p.length > 0)
          expect(isAlike(p, backwards(p, seam.lengthA)), `${seam.id} ${JSON.stringify(p)}`).toBe(false);
      }
    }),
    { seed: 43, numRuns: 300 },
  );
});

/** How far a place is from the nearest of some dense corner points' chords, mm: measured without the curves. */
function edgeGap(edges: readonly Path[], [x, y]: Pt): number {
  let least = Infinity;
  for (const edge of edges)
    for (const c of edge)
      for (let k = 0; k < 60; k += 1) {
        const [p, q] = [pointAt(c, k / 60), pointAt(c, (k + 1) / 60)];
        const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
        const t = Math.min(1, Math.max(0, ((x - p[0]) * dx + (y - p[1]) * dy) / (dx * dx + dy * dy || 1)));
        least = Math.min(least, Math.hypot(x - p[0] - t * dx, y - p[1] - t * dy));
      }
  return least;
}

const reach = (n: CutNotch, p: Pt): number =>
  (p[0] - n.at[0]) * n.outward[0] + (p[1] - n.at[1]) * n.outward[1];

test('marks are square to the cutting edge, begin on it, and are cut no deeper than the allowance less 3 mm', () => {
  let [cut, chalk] = [0, 0];
  fc.assert(
    fc.property(crossedPiece, (d) => {
      const garment = garmentOf(d);
      for (const piece of garment.cutPieces) {
        const edges = [piece.cutting, ...piece.holes];
        for (const n of piece.notches) {
          if (n.depth === 0) {
            if (n.allowance >= 5) {
              chalk += 1;
              expect(
                edgeGap(edges, [n.at[0] + n.outward[0] * n.allowance, n.at[1] + n.outward[1] * n.allowance]),
              ).toBeGreaterThan(0.05);
            }
            for (const [from, to] of markLines(n)) expect(reach(n, to)).toBeGreaterThan(reach(n, from));
            continue;
          }
          cut += 1;
          expect(n.depth).toBeLessThanOrEqual(n.allowance - 3);
          const near = edges
            .map((e) => ({ ...nearestOnPath(e, n.base), e }))
            .toSorted((p, q) => p.distance - q.distance)[0]!;
          expect(near.distance).toBeLessThan(0.11);
          const way = directionAt(near.e[near.index]!, near.t);
          expect(Math.abs(way[0] * n.outward[0] + way[1] * n.outward[1])).toBeLessThan(0.03);
          for (const [from, to] of markLines(n)) {
            expect(reach(n, from)).toBeCloseTo(n.allowance, 6);
            expect(reach(n, to)).toBeGreaterThanOrEqual(NOTCH_CLEARANCE - 1e-6);
          }
        }
      }
    }),
    { seed: 44, numRuns: 250 },
  );
  expect(cut).toBeGreaterThan(2500);
  // in bays so narrow that the allowance fills them, and on seams hardly longer than the allowances at their ends, there is none
  expect(chalk / cut).toBeLessThan(0.04);
});

test('where the allowance is 3 mm or less nothing is cut', () => {
  for (const newSeam of [0, 1, 2, 3]) {
    const d = lined(rectangle(300, 300), [
      [
        [0, 100],
        [300, 100],
      ],
    ]);
    const { cutPieces } = deriveGarment({ ...d, allowances: { ...d.allowances, newSeam } });
    const marks = cutPieces.flatMap((c) => c.notches);
    expect(marks.length).toBeGreaterThanOrEqual(4);
    expect(marks.every((n) => n.depth === 0)).toBe(true);
  }
});

const eased = (fold: Partial<Dart>): Design =>
  design(
    [piece(rectangle(300, 700), { darts: [dart([300, 290], [200, 300], [300, 310], fold)] })],
    [
      panelLine(
        [
          [215, 0],
          [215, 700],
        ],
        0,
      ),
    ],
  );

test('where the end of a dart is eased in, the ease lies between the two marks beside it, and nowhere else', () => {
  const garment = deriveGarment(eased({ treatment: { kind: 'close', remainder: 'ease' } }));
  const [seam] = garment.seams;
  const [a, b] = [walkedMarks(garment, seam!, 'a')!, walkedMarks(garment, seam!, 'b')!];
  expect(a.marks.length).toBe(b.marks.length);
  expect(a.marks.length).toBeGreaterThan(2);
  const difference = a.marks.map((m, i) => Math.abs(m.at - b.marks[i]!.at));
  const told = a.marks.map((m) => m.notch.ease);
  const first = told.findIndex((e) => e !== null);
  expect(told.filter((e) => e !== null)).toHaveLength(2);
  expect(told[first + 1]).toBeCloseTo(3, 6);
  difference.forEach((d, i) => expect(d).toBeCloseTo(i > first ? 3 : 0, 1));
});

test('a dart that stays takes up no length between the marks of a line that crosses it', () => {
  const garment = deriveGarment(eased({}));
  const [seam] = garment.seams;
  const [a, b] = [walkedMarks(garment, seam!, 'a', 20_000)!, walkedMarks(garment, seam!, 'b', 20_000)!];
  expect(a.marks.length).toBeGreaterThan(2);
  a.marks.forEach((m, i) => {
    expect(m.at).toBeCloseTo(b.marks[i]!.at, 1);
    expect(m.notch.along).toBeCloseTo(m.at, 1);
  });
});

test('a long seam has a mark for every 150 to 200 mm, a curved one more, none of them in the middle', () => {
  const count = (lines: readonly (readonly Pt[])[] | readonly Path[]): Place[] => {
    const garment = deriveGarment(lined(rectangle(1300, 1300), lines as readonly Path[]));
    return placesOf(garment, garment.seams[0]!);
  };
  for (const length of [300, 500, 800, 1300]) {
    const garment = deriveGarment(
      lined(rectangle(length, 400), [
        [
          [0, 150],
          [length, 150],
        ],
      ]),
    );
    const places = placesOf(garment, garment.seams[0]!);
    const gap = length / places.length;
    expect(gap).toBeGreaterThan(140);
    expect(gap).toBeLessThan(210);
    for (const p of places) expect(Math.abs(p.at - length / 2)).toBeGreaterThan(5);
  }
  const [flat, round] = [
    count([
      [
        [0, 600],
        [1300, 600],
      ],
    ]),
    count([
      [
        [
          [0, 300],
          [400, 1600],
          [900, 1600],
          [1300, 300],
        ],
      ] as Path,
    ]),
  ];
  expect(round.length).toBeGreaterThan(flat.length);
});

test('while a line moves, marks of other seams stay, and its own move with it', () => {
  const at = (y: number): Garment =>
    deriveGarment(
      lined(rectangle(420, 500), [
        [
          [0, 150],
          [420, 170],
        ],
        [
          [0, y],
          [420, y + 30],
        ],
        [
          [140, 0],
          [150, 500],
        ],
      ]),
    );
  let jumps = 0;
  let before = at(300);
  for (let y = 301; y <= 400; y += 1) {
    const now = at(y);
    now.seams.forEach((seam, i) => {
      const [p, q] = [placesOf(before, before.seams[i]!), placesOf(now, seam)];
      const moved =
        p.length !== q.length || p.some((m, k) => m.marks !== q[k]!.marks || Math.abs(m.at - q[k]!.at) > 4);
      if (moved) jumps += 1;
    });
    before = now;
  }
  // seven seams, a hundred steps: now and then a seam grows by a mark or becomes as long as another
  expect(jumps).toBeLessThanOrEqual((7 * 100) / 50);
});

test('marks of mirror images are mirror images, and a piece laid on the fold has what crosses it marked alike on both sides', () => {
  const half = (foldPanels: boolean): Garment =>
    deriveGarment(
      design(
        [
          piece(rectangle(200, 400), {
            foldPanels,
            fold: [
              [0, 0],
              [0, 400],
            ],
          }),
        ],
        [
          panelLine(
            [
              [0, 120],
              [200, 130],
            ],
            0,
          ),
          panelLine(
            [
              [90, 125],
              [90, 400],
            ],
            1,
          ),
        ],
      ),
    );
  const images = (garment: Garment, isOnFold: (s: Seam) => boolean): void => {
    const all = garment.cutPieces.flatMap((c) => c.notches);
    for (const n of all.filter((m) => isOnFold(garment.seamById.get(m.seam!)!)))
      expect(
        all.some((m) => m.marks === n.marks && Math.hypot(m.at[0] + n.at[0], m.at[1] - n.at[1]) < 0.05),
      ).toBe(true);
  };
  images(half(false), (s) => s.path.every((c) => Math.abs(c[0][0]) > 1));
  images(half(true), () => true);
});

test('traced notches survive slicing, and the strokes of a double one know that they are two', () => {
  const traced = lined(
    rectangle(300, 400),
    [
      [
        [0, 200],
        [300, 200],
      ],
    ],
    {
      notches: [80, 90, 300].map((y) => ({ at: [0, y] as Pt, inner: [6, y] as Pt })),
    },
  );
  const { cutPieces } = deriveGarment(traced);
  const own = cutPieces.map((c) => c.notches.filter((n) => n.seam === null));
  expect(own.flat().map((n) => [Math.round(n.at[1]), n.together])).toEqual([
    [300, 1],
    [80, 2],
    [90, 2],
  ]);
});
