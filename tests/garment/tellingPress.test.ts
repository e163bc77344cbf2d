import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Pt } from '../../src/geometry';
import { deriveGarment, type Garment } from '../../src/garment';
import {
  layersAt,
  layerHints,
  layersOver,
  MOST_LAYERS,
  pressings,
  pressingsOf,
  seamMeetings,
} from '../../src/garment/telling';
import { type Design, type PanelMark, type PieceId, type TrimId, sayProblem } from '../../src/pattern';
import { type Strip, stackOf } from '../../src/garment/telling/layers';
import { DEMO, garmentFrom } from '../browser/onTable';
import { lined, rectangle } from '../making/designs';

const demo = garmentFrom(DEMO);

/** A square of 300 mm with straight lines across and down. */
const grid = (across: readonly number[], down: readonly number[]): Design =>
  lined(rectangle(300, 300), [
    ...across.map((y): Pt[] => [
      [0, y],
      [300, y],
    ]),
    ...down.map((x): Pt[] => [
      [x, 0],
      [x, 300],
    ]),
  ]);

/** Panels in two colours by turns, as on a draughts board, or by a rule. */
function inTwoColours(design: Design, isDark: (at: Pt) => boolean): Design {
  const { panels } = deriveGarment(design);
  const marks = panels.map((p): PanelMark => ({
    piece: 'front' as PieceId,
    at: p.spot.at,
    colour: design.colours[isDark(p.spot.at) ? 1 : 0]!.id,
  }));
  return { ...design, marks };
}

/**
 * Written anew from the cloth: at each inner corner of a grid four seams meet; on one of the two lines both stretches are one step, on
 * the other the two stretches must lie in opposite directions.
 */
function nestsAt(garment: Garment, [x, y]: Pt): boolean {
  const ways = pressings(garment);
  const meets = (p: Pt): boolean => Math.abs(p[0] - x) < 0.01 && Math.abs(p[1] - y) < 0.01;
  const here = garment.seams.filter((s) => meets(s.path[0]![0]) || meets(s.path.at(-1)!.at(-1)!));
  expect(here.length).toBe(4);
  const upright = here.filter(
    (s) => Math.abs(s.path[0]![0][0] - x) < 0.01 && Math.abs(s.path.at(-1)!.at(-1)![0] - x) < 0.01,
  );
  const level = here.filter((s) => !upright.includes(s));
  const lies = (s: (typeof here)[number]): number => {
    const way = ways.get(s.id)!;
    const [to, from] = way === 'a' ? [s.a, s.b] : [s.b, s.a];
    const [p, q] = [garment.panelById.get(to)!.spot.at, garment.panelById.get(from)!.spot.at];
    return Math.sign(upright.includes(s) ? p[0] - q[0] : p[1] - q[1]);
  };
  const step = (s: (typeof here)[number]): number => garment.plan.stepOfSeam.get(s.id)!;
  const crossed = step(upright[0]!) === step(upright[1]!) ? level : upright;
  return lies(crossed[0]!) === -lies(crossed[1]!);
}

test('on a two-coloured grid every crossing nests', () => {
  const draughts = (at: Pt): boolean => (Math.floor(at[0] / 100) + Math.floor(at[1] / 100)) % 2 === 0;
  const garment = deriveGarment(inTwoColours(grid([100, 200], [100, 200]), draughts));
  expect(pressingsOf(garment).notNesting).toEqual([]);
  for (const at of [
    [100, 100],
    [200, 100],
    [100, 200],
    [200, 200],
  ] as Pt[])
    expect(nestsAt(garment, at)).toBe(true);
});

test('random grids in random colours nest at every crossing', () => {
  const places = fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 4 });
  fc.assert(
    fc.property(places, places, fc.array(fc.boolean(), { minLength: 25, maxLength: 25 }), (ys, xs, dark) => {
      const bare = grid(
        ys.map((y) => y * 30),
        xs.map((x) => x * 30),
      );
      let i = 0;
      const garment = deriveGarment(inTwoColours(bare, () => dark[i++ % 25]!));
      expect(pressingsOf(garment).notNesting).toEqual([]);
      for (const y of ys) for (const x of xs) expect(nestsAt(garment, [x * 30, y * 30])).toBe(true);
    }),
    { seed: 11, numRuns: 40 },
  );
});

test('a plain seam is pressed towards the darker cloth', () => {
  const garment = deriveGarment(inTwoColours(grid([150], []), ([, y]) => y < 150));
  const [seam] = garment.seams;
  const upper = garment.panels.find((p) => p.spot.at[1] < 150)!;
  expect(pressings(garment).get(seam!.id)).toBe(seam!.a === upper.id ? 'a' : 'b');
});

test('a seam that another ends on is pressed away from it, even to the lighter cloth', () => {
  const design = lined(rectangle(300, 300), [
    [
      [0, 150],
      [300, 150],
    ],
    [
      [150, 0],
      [150, 150],
    ],
  ]);
  const garment = deriveGarment(inTwoColours(design, ([, y]) => y < 150));
  const lower = garment.panels.find((p) => p.spot.at[1] > 150)!;
  const ways = pressings(garment);
  for (const s of garment.seams.filter((s) => s.a === lower.id || s.b === lower.id))
    expect(ways.get(s.id)).toBe(s.a === lower.id ? 'a' : 'b');
});

// Worked by hand: a seam pressed to one side has 3 layers there and 1 beside it. Where two such seams cross, the allowances of
// the second fold the first ones back: 3 + 3 + 1 = 7 if they nest, 3 + 3 + 3 = 9 if they do not; pressed open throughout, 2 + 2 = 4.
test('a crossing that nests has seven layers, four when all is pressed open', () => {
  const garment = deriveGarment(grid([150], [150]));
  expect(layersAt(garment).map(({ most, throughOpen, allOpen }) => [most, throughOpen, allOpen])).toEqual([
    [7, 6, 4],
  ]);
  expect(layerHints(garment)).toEqual([]);
});

// 3 + 3 + 1 towards the side with the seam; away from it 1 folded on 1 with 3 over them.
test('a seam ending on another has five layers, as it is pressed away from it', () => {
  const garment = deriveGarment(
    lined(rectangle(300, 300), [
      [
        [0, 150],
        [300, 150],
      ],
      [
        [150, 0],
        [150, 150],
      ],
    ]),
  );
  expect(layersAt(garment).map((l) => l.most)).toEqual([5]);
});

// By hand, over a seam between pieces: pressed open, each side has its own 3 layers folded on themselves, 3 + 3; pressed to one side 3 + 3
// and the other side's 1 where the panel seams nest, its 3 where they do not.
test('panel seams that meet over an outer seam pile up to six layers where it is pressed open, to seven or nine where not', () => {
  const strip = (towards: 1 | -1): Strip => ({ right: [1, 0], width: 15, towards });
  const through = (towards: 1 | -1 | 0): Strip => ({ right: [0, 1], width: 15, towards });
  const count = (a: 1 | -1, b: 1 | -1, over: 1 | -1 | 0): number =>
    stackOf([strip(a)], [strip(b)], through(over), [1, 0]);
  expect([count(1, 1, 0), count(1, -1, 0)]).toEqual([6, 6]);
  expect([count(1, -1, 1), count(1, 1, 1)]).toEqual([7, 9]);
  const meetings = demo.neighbours.seams.flatMap((n) => n.meetings.map((m) => layersOver(demo, n, m)));
  expect(meetings.length).toBeGreaterThan(2);
  for (const l of meetings) expect(l).toEqual({ most: 6, allOpen: 4 });
});

test('trims over both seams of a crossing make it too thick: a hint with a cure, at the crossing', () => {
  const bare = grid([150], [150]);
  const trims = bare.lines.map((line, i) => ({
    id: `trim-${i}` as TrimId,
    name: `braid ${i}`,
    on: { kind: 'line' as const, line: line.id, from: 0, to: 1 },
    kind: 'straight' as const,
    width: 12,
    fill: '#eeeeee',
    rows: 2 as const,
    shrinkage: 0,
    soldIn: null,
  }));
  const garment = deriveGarment({ ...bare, trims });
  const [hint, ...others] = layerHints(garment);
  expect(others).toEqual([]);
  expect(hint!.code).toBe('many-layers');
  expect(hint!.piece).toBe('front');
  expect(hint!.at![0]).toBeCloseTo(150, 6);
  expect(hint!.at![1]).toBeCloseTo(150, 6);
  // 7 at a crossing that nests, and a trim over the one that goes through and over each part of the other
  expect(sayProblem(hint!, 'mm')).toMatch(
    /^10 layers of cloth .* L1, L2 meet\. Press the seams open there \(7 layers\).*30 mm apart\.$/,
  );
});

test('where three lines cross in one point the seams are pressed open and too many layers are said with a cure', () => {
  const star = lined(rectangle(300, 300), [
    [
      [0, 150],
      [300, 150],
    ],
    [
      [150, 0],
      [150, 300],
    ],
    [
      [0, 0],
      [300, 300],
    ],
  ]);
  const garment = deriveGarment(star);
  expect(pressingsOf(garment).notNesting.map((n) => n.why)).toContain('many');
  for (const l of layersAt(garment)) expect(l.most > MOST_LAYERS).toBe(layerHints(garment).length > 0);
});

test('of random straight lines the only crossings that do not nest say why', () => {
  const side = fc.integer({ min: 0, max: 300 });
  const chord = fc.tuple(fc.boolean(), side, side).map(([isLevel, p, q]): Pt[] =>
    isLevel
      ? [
          [0, p],
          [300, q],
        ]
      : [
          [p, 0],
          [q, 300],
        ],
  );
  const count = { crossings: 0, 'same seam': 0, ring: 0, many: 0 };
  fc.assert(
    fc.property(fc.array(chord, { minLength: 2, maxLength: 6 }), (lines) => {
      const garment = deriveGarment(lined(rectangle(300, 300), lines));
      const { runs, notNesting } = pressingsOf(garment);
      const meetings = seamMeetings(garment).filter(
        (m) => m.enders.length === 2 && m.enders[0]!.side !== m.enders[1]!.side,
      );
      count.crossings += meetings.length;
      for (const n of notNesting) count[n.why] += 1;
      for (const m of meetings) {
        const told = notNesting.some((n) => Math.hypot(n.at[0] - m.at[0], n.at[1] - m.at[1]) < 0.1);
        const lying = m.enders.map((e) => runs.get(e.run)!.towards);
        if (told || lying.includes(0)) continue;
        const ways = m.enders.map(({ run, atStart, away }) => {
          const own: Pt = atStart ? away : [-away[0], -away[1]];
          return Math.sign((-own[1] * m.direction[0] + own[0] * m.direction[1]) * runs.get(run)!.towards);
        });
        expect(ways[0]).toBe(-ways[1]!);
      }
    }),
    { seed: 12, numRuns: 60 },
  );
  expect(count.crossings).toBeGreaterThan(100);
  // a part of a crossed line lies between two others, so its links form chains: nothing contradicts itself
  expect([count['same seam'], count.ring]).toEqual([0, 0]);
});
