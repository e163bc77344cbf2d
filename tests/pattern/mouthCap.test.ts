import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Pt,
  applyMatrix,
  distance,
  mirrorAcross,
  nearestOnPath,
  pathThrough,
  signedArea,
} from '../../src/geometry';
import {
  dartLegLengths,
  openOut,
  pressed,
  type Piece,
  type WholePiece,
  swungPiece,
  withoutWedges,
} from '../../src/pattern';
import { darted } from '../making/dartedPieces';
import { dart, doubleDart, piece, rectangle, ringThrough } from '../making/designs';

const NET = { kind: 'net', outer: 15 } as const;
const CUT = { kind: 'cut', included: 10 } as const;

/** 300 wide, 400 tall, round the middle. */
const sheet = (over: Partial<Piece>): Piece => piece(rectangle(300, 400, [-150, -200]), over);
const waistDart = dart([-10, 200], [0, 60], [10, 200]);
const codes = (p: Piece): string[] => openOut(p, NET).problems.map((x) => x.code);
const corners = (whole: WholePiece): Pt[] => whole.stitching.map((c) => c[0]);
const has = (whole: WholePiece, p: Pt): boolean => corners(whole).some((c) => distance(c, p) < 1e-6);

test('a dart in a straight edge gets a peak that falls on the edge when the dart is folded', () => {
  const { whole } = openOut(sheet({ darts: [waistDart] }), NET);
  // The edge turned over a leg that leans by f from upright rises by 2f towards the middle.
  const lean = Math.atan2(10, 140);
  expect(has(whole, [0, 200 + 10 * Math.tan(2 * lean)])).toBe(true);
  expect(whole.area).toBeCloseTo(300 * 400 - 10 * 140, 6);
  expect(signedArea(whole.outline)).toBeCloseTo(300 * 400, 6);
  expect(signedArea(whole.stitching)).toBeGreaterThan(300 * 400);
  expect(whole.edges.map((e) => e.length).sort((a, b) => a - b)).toEqual([
    expect.closeTo(280, 6),
    expect.closeTo(300, 6),
    expect.closeTo(400, 6),
    expect.closeTo(400, 6),
  ]);
});

test('folded as it is pressed, the cap lies on the edge beside the leg; area and edges stay', () => {
  fc.assert(
    fc.property(darted(0.03), (d) => {
      const { whole } = openOut(d.piece, NET);
      const placed = whole.darts[0]!;
      if (placed.kind !== 'single') throw new Error('not single');
      const { leg } = pressed(whole, placed);
      const end = placed.mouth[leg];
      const tangent = placed.legs
        ? leg === 0
          ? placed.legs[0][0]![1]!
          : placed.legs[1].at(-1)!.at(-2)!
        : placed.point;
      const over = mirrorAcross([end, tangent]);
      const [a, b] = d.piece.outline[0] as readonly [Pt, Pt];
      const cap = whole.stitching.filter(
        (c) =>
          c.length === 2 &&
          c.some((p) => distance(p, end) < 1e-9) &&
          c.some((p) => nearestOnPath([[a, b]], p).distance > 1e-3),
      );
      // One stretch of the cap starts at that leg; turned over the leg it lies along the edge.
      for (const c of cap)
        for (const p of c) expect(nearestOnPath([[a, b]], applyMatrix(over, p)).distance).toBeLessThan(1e-6);
      const net = signedArea(whole.stitching) - withoutWedges(whole.stitching, whole.darts).wedgeArea;
      expect(net).toBeCloseTo(whole.area, 2);
      const side = whole.edges.find((e) => e.name === 'side A')!;
      expect(side.length).toBeCloseTo(distance(a, b) - distance(...placed.mouth), 5);
    }),
    { seed: 31, numRuns: 200 },
  );
});

test('a mouth that was drawn with a peak stays as traced', () => {
  const peaked = ringThrough([
    [-150, -200],
    [150, -200],
    [150, 200],
    [10, 200],
    [0, 203],
    [-10, 200],
    [-150, 200],
  ]);
  const { whole } = openOut(piece(peaked, { darts: [waistDart] }), NET);
  expect(signedArea(whole.stitching)).toBeCloseTo(signedArea(peaked), 9);
  expect(has(whole, [0, 203])).toBe(true);
});

test('a cutting-line tracing keeps its mouth as traced', () => {
  const { whole } = openOut(sheet({ darts: [waistDart] }), CUT);
  expect(signedArea(whole.stitching)).toBeCloseTo(280 * 380, 6);
});

test('a dart swung on a cutting-line tracing gets a cap there', () => {
  const swung = {
    ...waistDart,
    treatment: { kind: 'swing', parts: [{ to: { edge: 'top', nth: 0, share: 0.5 }, share: 1, close: null }] },
  } as const;
  const top = {
    name: 'top',
    path: pathThrough(
      [
        [-150, -200],
        [150, -200],
      ],
      false,
    ),
  };
  const { whole, problems } = openOut(sheet({ darts: [swung], edgeNames: [top] }), CUT);
  expect(problems.map((p) => p.code)).not.toContain('dart-not-swung');
  const now = whole.darts[0]!;
  expect(now.kind === 'single' && Math.min(...now.mouth.map((m) => m[1]))).toBeLessThan(-180);
  const uncapped = swungPiece(whole.piece).curves.map((c) => c.curve);
  expect(signedArea(whole.outline)).toBeGreaterThan(signedArea(uncapped) + 1);
});

test('the shorter of two unequal legs is drawn on within the cap, and the difference told by its size', () => {
  const slanted = dart([-10, 200], [8, 60], [10, 200]);
  const { whole, problems } = openOut(sheet({ darts: [slanted] }), NET);
  const [a, b] = dartLegLengths(whole.darts[0]!);
  expect(a).toBeCloseTo(Math.hypot(18, 140), 9);
  expect(b).toBeCloseTo(Math.hypot(2, 140), 9);
  const found = problems.find((p) => p.code.startsWith('dart-legs'))!;
  expect(found).toMatchObject({ code: 'dart-legs-differ-slightly', at: [-10, 200] });
  expect((found.facts as { difference: number }).difference).toBeCloseTo(a! - b!, 9);
  const way: Pt = [2 / b!, 140 / b!];
  expect(has(whole, [8 + way[0] * a!, 60 + way[1] * a!])).toBe(true);
  expect(whole.area).toBeCloseTo(300 * 400 - 10 * 140, 6);
  const net = signedArea(whole.stitching) - withoutWedges(whole.stitching, whole.darts).wedgeArea;
  expect(net).toBeCloseTo(whole.area, 6);
});

test('legs are equal to half a millimetre, then a hint, a warning, and a stronger one', () => {
  const withTip = (x: number): string[] =>
    codes(sheet({ darts: [dart([-10, 200], [x, 60], [10, 200])] })).filter((c) => c.startsWith('dart'));
  expect(withTip(2)).toEqual([]);
  expect(withTip(8)).toEqual(['dart-legs-differ-slightly']);
  expect(withTip(16)).toEqual(['dart-legs-differ']);
  expect(withTip(30)).toEqual(['dart-legs-differ-much']);
});

test('bust and side darts are pressed down, upright ones towards the fold, the centre edge, or the larger side', () => {
  const side = dart([150, -20], [60, 0], [150, 20]);
  const waist = dart([40, 200], [50, 60], [60, 200]);
  const of = (over: Partial<Piece>): ReturnType<typeof pressed>[] => {
    const { whole } = openOut(sheet(over), NET);
    return whole.darts.map((d) => pressed(whole, d));
  };
  expect(of({ darts: [side] })).toEqual([{ leg: 1, towards: 'down' }]);
  expect(of({ darts: [waist] })).toEqual([{ leg: 0, towards: 'the larger side' }]);
  const centre = {
    name: 'centre back',
    path: pathThrough(
      [
        [150, -200],
        [150, 200],
      ],
      false,
    ),
  };
  expect(of({ darts: [waist], edgeNames: [centre] })).toEqual([{ leg: 1, towards: 'the centre' }]);
  const fold = [
    [-150, -200],
    [-150, 200],
  ] as const;
  expect(of({ darts: [waist], fold })).toEqual([
    { leg: 0, towards: 'the centre' },
    { leg: 1, towards: 'the centre' },
  ]);
  expect(of({ darts: [doubleDart([50, -80], [60, 0], [50, 80], [40, 0])], fold })[0]).toEqual({
    leg: 1,
    towards: 'the centre',
  });
});

test('a hem tells which way is down on a piece that was traced upside down', () => {
  const hem = {
    name: 'hem',
    path: pathThrough(
      [
        [-150, -200],
        [150, -200],
      ],
      false,
    ),
  };
  const { whole } = openOut(sheet({ darts: [dart([150, -20], [60, 0], [150, 20])], edgeNames: [hem] }), NET);
  expect(pressed(whole, whole.darts[0]!)).toEqual({ leg: 0, towards: 'down' });
});

test('a dart on the fold is one whole dart, whether half of it or all was traced', () => {
  const fold = [
    [-150, -200],
    [-150, 200],
  ] as const;
  const halfDart = dart([-150, 200], [-150, 80], [-138, 200]);
  const { whole } = openOut(sheet({ darts: [halfDart], fold }), NET);
  expect(whole.darts).toHaveLength(1);
  expect(whole.darts[0]).toMatchObject({
    mouth: [
      [expect.closeTo(-162, 9), expect.closeTo(200, 9)],
      [-138, 200],
    ],
    mirrored: false,
  });
  expect(whole.area).toBeCloseTo(2 * 300 * 400 - 12 * 120, 6);
  const slim = doubleDart([-150, -60], [-142, 0], [-150, 60], [-150, 0]);
  const fisheye = openOut(sheet({ darts: [slim], fold }), NET).whole;
  expect(fisheye.darts).toHaveLength(1);
  expect(fisheye.area).toBeCloseTo(2 * 300 * 400 - 8 * 120, 6);
});

test('a cap that follows a curved edge is curved, and the outline stays simple and closed', () => {
  const ring = [
    [
      [-150, -200],
      [150, -200],
    ],
    [
      [150, -200],
      [150, 200],
    ],
    [
      [150, 200],
      [60, 215],
      [-60, 215],
      [-150, 200],
    ],
    [
      [-150, 200],
      [-150, -200],
    ],
  ] as const;
  const at = (x: number): Pt => {
    const path = [ring[2]];
    return nearestOnPath(path, [x, 211]).point;
  };
  const { whole } = openOut(piece(ring, { darts: [dart(at(-12), [0, 80], at(12))] }), NET);
  expect(signedArea(whole.stitching)).toBeGreaterThan(signedArea(ring));
  whole.stitching.forEach((c, i) =>
    expect(c.at(-1)).toEqual(whole.stitching[(i + 1) % whole.stitching.length]![0]),
  );
});
