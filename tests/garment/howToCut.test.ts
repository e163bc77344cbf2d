import fc from 'fast-check';
import { expect, test } from 'vitest';
import { halfOnFold } from '../../src/allowance';
import { layJobs } from '../../src/fabric';
import { piecesSvg, reportOf } from '../../src/files';
import { cutTogether, deriveGarment, howToCut, printedPiece, type Garment } from '../../src/garment';
import { pathLength, signedArea, type Polyline, type Pt, type Ring } from '../../src/geometry';
import type { ColourId, Design, Piece, PieceId } from '../../src/pattern';
import { design, panelLine, piece } from '../making/designs';

/** A half piece on the fold x = 300: neckline and armhole curved, a waist dart. Invented. */
const HALF: Ring = [
  [
    [300, 80],
    [340, 80],
    [362, 50],
    [370, 10],
  ],
  [
    [370, 10],
    [470, 40],
  ],
  [
    [470, 40],
    [450, 90],
    [450, 150],
    [515, 200],
  ],
  [
    [515, 200],
    [505, 430],
  ],
  [
    [505, 430],
    [300, 430],
  ],
  [
    [300, 430],
    [300, 80],
  ],
];
const FOLD = [
  [300, 430],
  [300, 80],
] as const;

const half = (over: Partial<Piece> = {}): Piece =>
  piece(HALF, {
    fold: FOLD,
    grain: [
      [320, 400],
      [320, 200],
    ],
    ...over,
  });

const lines = (all: readonly { points: Polyline; once?: boolean }[], p: Piece) =>
  all.map(({ points, once = false }, i) => panelLine(points, i, { once, piece: p.id }));

const garmentOf = (
  drawn: readonly { points: Polyline; once?: boolean }[],
  p: Piece = half(),
  over: Partial<Design> = {},
): Garment => deriveGarment(design([p], lines(drawn, p), over));

/** Mirrored: a level all across, and an upright 60 mm off the centre below it on both sides. */
const SYMMETRIC = [
  {
    points: [
      [300, 220],
      [600, 220],
    ] as Polyline,
  },
  {
    points: [
      [360, 220],
      [360, 500],
    ] as Polyline,
  },
];

const cuts = (g: Garment) => g.panels.map((p) => howToCut(g, p));

test('of two panels that are mirror images the lower number is printed and cut once and once mirrored', () => {
  const g = garmentOf(SYMMETRIC);
  const all = cuts(g);
  expect(all).toHaveLength(4);
  const [first] = all.filter((c) => c.count === 2);
  const [second] = all.filter((c) => c.count === 0);
  expect(first).toMatchObject({ mirrored: true, onFold: false, text: 'Cut 1 and 1 mirrored' });
  const number = all.indexOf(first!) + 1;
  expect(second).toMatchObject({ mirrored: true, twin: number, text: `The mirrored copy of ${number}` });
  expect(first!.twin).toBe(all.indexOf(second!) + 1);
  expect(first!.twin).toBeGreaterThan(number);
  expect(all.filter((c) => c.count === 1).map((c) => c.text)).toEqual(['Cut 1, whole', 'Cut 1, whole']);
});

test('mirror twins are cut together from either of them, other panels alone', () => {
  const g = garmentOf(SYMMETRIC);
  const together = g.panels.map((p) =>
    cutTogether(g, p)
      .map(({ id }) => g.plan.numbers.get(id)!)
      .toSorted((a, b) => a - b),
  );
  const [first, second] = [2, 0].map((count) => cuts(g).findIndex((c) => c.count === count) + 1);
  const twins = [first!, second!].toSorted((a, b) => a - b);
  expect(together).toEqual(
    g.panels.map((p) => {
      const own = g.plan.numbers.get(p.id)!;
      return twins.includes(own) ? twins : [own];
    }),
  );
});

test('leave of either twin lets both copies lie off the grain', () => {
  const g = garmentOf(SYMMETRIC);
  const twins = g.panels.filter((p) => cutTogether(g, p).length === 2);
  expect(twins.length).toBe(2);
  for (const { piece, flat } of twins) {
    const marked = deriveGarment({ ...g.design, offGrain: [{ piece, at: flat.at, degrees: 20 }] });
    expect(
      layJobs(marked)[0]!
        .pieces.map((p) => [p.copy, p.turns?.length ?? 0])
        .filter(([, n]) => n),
    ).toEqual([
      [1, 6],
      [2, 6],
    ]);
  }
});

test('the copy is laid flipped, reported, and drawn once with both numbers', () => {
  const g = garmentOf(SYMMETRIC);
  const [first, second] = [2, 0].map((count) => cuts(g).findIndex((c) => c.count === count) + 1);
  const [job] = layJobs(g);
  expect(job!.pieces.map((p) => [p.number, p.copy, p.flipped]).filter(([n]) => n === first)).toEqual([
    [first, 1, false],
    [first, 2, true],
  ]);
  expect(job!.pieces.some((p) => p.number === second)).toBe(false);
  const report = reportOf(g, {
    layPlans: [],
    sheets: { paper: 'a4', pages: 0, columns: 0, rows: 0 },
    ignored: [],
    problems: [],
  });
  expect(report.panels[first! - 1]!.cut).toEqual({ count: 2, mirrored: true, onFold: false, twin: second });
  expect(report.panels[second! - 1]!.cut).toEqual({ count: 0, mirrored: true, onFold: false, twin: first });
  const svg = piecesSvg(g);
  expect(svg).toContain(`Panel ${first}, mirrored ${second}, front`);
  expect(svg).not.toContain(`id="panel-${second}"`);
});

test('another colour on one side makes two pieces of the pair', () => {
  const slate = { piece: 'front' as PieceId, at: [480, 400] as Pt, colour: 'slate' as ColourId };
  expect(cuts(garmentOf(SYMMETRIC, half(), { marks: [slate] })).map((c) => c.count)).toEqual([1, 1, 1, 1]);
});

test('a grain at an angle to the fold allows no mirrored copy, one square to it only without nap', () => {
  const twinsWith = (grain: Piece['grain'], nap: boolean) => {
    const [chalk, slate] = design([], []).colours;
    const colours = [{ ...chalk!, nap }, slate!];
    return cuts(garmentOf(SYMMETRIC, half({ grain }), { colours })).filter((c) => c.twin !== null).length;
  };
  const along: Piece['grain'] = [FOLD[0], FOLD[1]];
  const across: Piece['grain'] = [
    [310, 300],
    [400, 300],
  ];
  const bias: Piece['grain'] = [
    [310, 300],
    [400, 390],
  ];
  expect([twinsWith(along, false), twinsWith(along, true)]).toEqual([2, 2]);
  expect([twinsWith(across, false), twinsWith(across, true)]).toEqual([2, 0]);
  expect([twinsWith(bias, false), twinsWith(bias, true)]).toEqual([0, 0]);
});

test('a symmetric panel is printed as its half on the fold where that is wanted: half the cloth, straight along the fold', () => {
  const g = garmentOf(SYMMETRIC, half({ foldPanels: true }));
  const symmetric = g.panels.filter((p) => howToCut(g, p).onFold);
  expect(symmetric).toHaveLength(2);
  for (const panel of symmetric) {
    expect(howToCut(g, panel)).toMatchObject({ count: 1, mirrored: false, text: 'Cut 1 on the fold' });
    const whole = g.cutPieces[g.panels.indexOf(panel)]!;
    const printed = printedPiece(g, panel)!;
    expect(printed).toBe(halfOnFold(panel, whole, g.design.pieces[0]!));
    expect(printed.cutArea * 2).toBeCloseTo(whole.cutArea, 3);
    expect(signedArea(printed.stitching) * 2).toBeCloseTo(signedArea(whole.stitching), 3);
    const [a, b] = printed.foldEdge!;
    expect([a[0], b[0]]).toEqual([expect.closeTo(300, 6), expect.closeTo(300, 6)]);
    expect(pathLength(printed.cutting)).toBeGreaterThan(Math.abs(a[1] - b[1]) * 2);
    for (const c of printed.cutting) expect(c[0][0]).toBeGreaterThan(300 - 1e-6);
    for (const n of printed.notches) expect(n.at[0]).toBeGreaterThan(299);
    // marks of both halves: the seam to the other symmetric panel keeps its two places, folded over
    expect(printed.notches.length).toBeGreaterThan(0);
    expect(printed.label.at[0]).toBeGreaterThan(300);
    expect(printed.edgeLabels.every((e) => e.at[0] > 300)).toBe(true);
  }
  // the lay of one layer needs the whole shape
  const laid = layJobs(g)[0]!.pieces.filter((p) => symmetric.some((s) => s.id === p.panel));
  expect(laid.map((p) => p.cutting.some(([x]) => x < 290))).toEqual([true, true]);
});

test('any other panel names the wearer’s side, where the piece says front or back', () => {
  const once = [
    {
      points: [
        [380, -50],
        [380, 500],
      ] as Polyline,
      once: true,
    },
  ];
  const textsOf = (name: string) =>
    cuts(garmentOf(once, half({ name, id: 'front' as PieceId })))
      .map((c) => c.text)
      .sort();
  // the drawing's right (x > 380) is the wearer's left on a front, her right on a back
  expect(textsOf('front')).toEqual([
    'Cut 1, right side up, more on the wearer’s right',
    'Cut 1, right side up, wearer’s left',
  ]);
  expect(textsOf('skirt back')).toEqual([
    'Cut 1, right side up, more on the wearer’s left',
    'Cut 1, right side up, wearer’s right',
  ]);
  expect(textsOf('yoke')).toEqual(['Cut 1, right side up', 'Cut 1, right side up']);
});

test('a piece cut as a pair stays one: each panel twice, one mirrored', () => {
  const g = garmentOf(SYMMETRIC, half({ cutting: 'pair' }));
  expect(new Set(cuts(g).map((c) => c.text))).toEqual(new Set(['Cut 2, one mirrored']));
});

/** Levels, uprights and slants on the traced half, each mirrored. */
const symmetricLines = fc
  .record({
    levels: fc.uniqueArray(fc.integer({ min: 9, max: 20 }), { minLength: 0, maxLength: 3 }),
    uprights: fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { minLength: 0, maxLength: 2 }),
    slant: fc.option(fc.integer({ min: -30, max: 30 })),
  })
  .map(({ levels, uprights, slant }) => [
    ...levels.map((y) => ({
      points: [
        [300, y * 20],
        [600, y * 20],
      ] as Polyline,
    })),
    ...uprights.map((x) => ({
      points: [
        [300 + x * 25, -50],
        [300 + x * 25, 500],
      ] as Polyline,
    })),
    ...(slant === null
      ? []
      : [
          {
            points: [
              [320, -50],
              [400 + slant, 500],
            ] as Polyline,
          },
        ]),
  ]);

test('counts times areas add up to the opened-out piece, and every panel beside the fold finds its twin', () => {
  fc.assert(
    fc.property(symmetricLines, (drawn) => {
      const g = garmentOf(drawn);
      const sum = g.panels.reduce((total, p) => total + howToCut(g, p).count * p.area, 0);
      expect(sum / g.pieces[0]!.whole.area).toBeCloseTo(1, 6);
      for (const panel of g.panels) {
        const xs = panel.ring.flatMap((c) => c.map((p) => p[0]));
        const isBeside = Math.min(...xs) > 299.9 || Math.max(...xs) < 300.1;
        expect(howToCut(g, panel).twin !== null).toBe(isBeside);
      }
      const laid = layJobs(g).flatMap((j) => j.pieces);
      expect(laid).toHaveLength(g.panels.length);
    }),
    { numRuns: 60, seed: 4 },
  );
});

test('panels beside a line on one side only never have a twin', () => {
  fc.assert(
    fc.property(symmetricLines, fc.integer({ min: 22, max: 170 }), (drawn, x) => {
      fc.pre(drawn.every(({ points }) => Math.abs(points[0]![0] - 300 - x) > 8 || points[0]![0] === 300));
      const single = {
        points: [
          [300 + x, -50],
          [300 + x, 500],
        ] as Polyline,
        once: true,
      };
      const g = garmentOf([...drawn, single]);
      const own = g.seams.filter((s) => s.line.order === drawn.length);
      expect(own.length).toBeGreaterThan(0);
      for (const seam of own)
        for (const id of [seam.a, seam.b]) expect(howToCut(g, g.panelById.get(id)!).twin).toBeNull();
      const sum = g.panels.reduce((total, p) => total + howToCut(g, p).count * p.area, 0);
      expect(sum / g.pieces[0]!.whole.area).toBeCloseTo(1, 6);
    }),
    { numRuns: 60, seed: 5 },
  );
});
