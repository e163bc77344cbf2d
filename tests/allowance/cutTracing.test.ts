import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cutPiecesOf } from '../../src/allowance';
import { deriveGarment } from '../../src/garment';
import {
  type Path,
  type Polyline,
  type Pt,
  type Ring,
  distance,
  flattenRing,
  isClosed,
  nearestOnPath,
  pointAt,
  signedArea,
  whereInRing,
} from '../../src/geometry';
import { openedPiece, type Allowances, type Design, type EdgeName, type PieceId } from '../../src/pattern';
import { slicedPiece } from '../../src/panels';
import { dart, design, panelLine, piece, rectangle } from '../making/designs';

/** A half front on the fold x = 0: neckline and armhole curved, hem below. Invented. */
const OUTLINE: Ring = [
  [
    [0, 80],
    [40, 80],
    [62, 50],
    [70, 10],
  ],
  [
    [70, 10],
    [170, 40],
  ],
  [
    [170, 40],
    [150, 90],
    [150, 150],
    [215, 200],
  ],
  [
    [215, 200],
    [205, 420],
  ],
  [
    [205, 420],
    [0, 430],
  ],
  [
    [0, 430],
    [0, 80],
  ],
];
const NAMES: readonly EdgeName[] = [
  { name: 'hem', path: [OUTLINE[4]!] },
  { name: 'side seam', path: [OUTLINE[3]!] },
  { name: 'armhole', path: [OUTLINE[2]!] },
];
const FRONT = piece(OUTLINE, { fold: [OUTLINE[5]![1]!, OUTLINE[5]![0]!], edgeNames: NAMES });

const cut = (over: Partial<Allowances> = {}): Allowances => ({
  tracing: { kind: 'cut', included: 12 },
  newSeam: 15,
  hem: 12,
  edges: [],
  lines: [],
  ...over,
});

const cutOf = (d: Design, allowances: Allowances) =>
  cutPiecesOf(slicedPiece(d.pieces[0]!, { ...d, allowances }), allowances);

test('without a panel line the cutting line is the traced outline, curve for curve', () => {
  const d = design([FRONT], []);
  const { cutPieces } = cutOf(d, cut({ hem: 40 }));
  expect(cutPieces[0]!.cutting).toEqual(openedPiece(FRONT, { allowances: cut({ hem: 40 }) }).whole.outline);
  expect(cutPieces[0]!.cutting).toHaveLength(10);
});

test('a panel keeps the traced curves at its outer edge, and its new seam runs straight on to them', () => {
  const across = panelLine(
    [
      [-400, 260],
      [400, 260],
    ],
    0,
    { once: true },
  );
  const d = design([FRONT], [across]);
  const { cutPieces, unsound } = cutOf(d, cut());
  expect(unsound).toEqual([]);
  const { outline } = openedPiece(FRONT, { allowances: cut() }).whole;
  for (const { cutting } of cutPieces) {
    const inner = cutting.filter((c) => nearestOnPath(outline, pointAt(c, 0.5)).distance > 1e-6);
    expect(inner).toHaveLength(1);
    const [a, b] = [inner[0]![0], inner[0]!.at(-1)!];
    expect(a[1]).toBeCloseTo(b[1], 9);
    expect(Math.abs(a[1] - 260)).toBeCloseTo(15, 9);
    // the ends lie on the traced side seams themselves
    for (const p of [a, b]) expect(nearestOnPath(outline, p).distance).toBeLessThan(1e-6);
  }
  const whole = signedArea(outline);
  const overlap = cutPieces.reduce((sum, c) => sum + c.cutArea, 0) - whole;
  // both allowances lie between y = 245 and y = 275 of the traced outline
  const width = (y: number) => 2 * (215 - ((y - 200) / 220) * 10);
  expect(overlap).toBeCloseTo(30 * ((width(245) + width(275)) / 2), 5);
});

test('each edge is inset by what it includes: its own width, the hem’s, or the general one', () => {
  const allowances = cut({
    hem: 40,
    edges: [{ piece: 'front' as PieceId, edge: 'side seam', width: 20 }],
  });
  const { whole } = openedPiece(FRONT, { allowances });
  const asked = Object.fromEntries(whole.edges.map((e) => [e.plainName, e.included]));
  expect(asked).toMatchObject({ hem: 40, 'side seam': 20, armhole: 12 });
  whole.stitching.forEach((curve, i) => {
    const edge = whole.edges[whole.edgeOf[i]!]!;
    const away = nearestOnPath(whole.outline, pointAt(curve, 0.5)).distance;
    // where a wider stitching line runs on to a narrower one it comes nearer to the outline than its own width
    const isRunOn = away < edge.included! - 0.05 && curve.length === 2 && distance(curve[0], curve[1]) < 20;
    if (!isRunOn) expect(Math.abs(away - edge.included!)).toBeLessThan(0.05);
  });
});

test('an edge that was said to be a hem is inset by the hem’s depth, and one that was said not to be one is not', () => {
  const own = 'front' as PieceId;
  const { whole } = openedPiece(FRONT, {
    allowances: cut({ hem: 40 }),
    edgeJobs: [
      { piece: own, edge: 'hem', job: { kind: 'bound' } },
      { piece: own, edge: 'armhole', job: { kind: 'hem' } },
    ],
  });
  const asked = Object.fromEntries(whole.edges.map((e) => [e.plainName, e.included]));
  expect(asked).toMatchObject({ hem: 12, armhole: 40 });
});

test('a dart mouth traced on the cutting line is carried along its legs to the stitching line', () => {
  const d = piece(rectangle(200, 300), { darts: [dart([0, 90], [80, 100], [0, 110])] });
  const allowances = cut();
  const { whole } = openedPiece(d, { allowances });
  const [placed] = whole.darts;
  if (placed?.kind !== 'single') throw new Error('a single dart');
  expect(placed.mouth[0][0]).toBeCloseTo(12, 6);
  expect(placed.mouth[0][1]).toBeCloseTo(91.5, 6);
  expect(placed.mouth[1][1]).toBeCloseTo(108.5, 6);
  const [only] = deriveGarment(design([d], [], { allowances })).cutPieces;
  expect(only!.cutting).toEqual(whole.outline);
});

test('an inset in the middle of a cut tracing has a whole allowance, and the panel round it the traced edge', () => {
  const ring = rectangle(60, 60, [70, 100]);
  const d = design([piece(rectangle(200, 300))], [panelLine(ring, 0)]);
  const { cutPieces } = cutOf(d, cut());
  const areas = cutPieces.map((c) => c.cutArea).sort((a, b) => a - b);
  expect(areas[0]).toBeCloseTo(90 * 90, 6);
  expect(areas[1]).toBeCloseTo(200 * 300 - 30 * 30, 6);
});

/** A place on the frame round the piece, by how far round. */
const onFrame = (s: number): Pt => {
  const [x0, y0, w, h] = [-230, -10, 460, 460];
  const t = (s % 1) * 4;
  if (t < 1) return [x0 + t * w, y0];
  if (t < 2) return [x0 + w, y0 + (t - 1) * h];
  if (t < 3) return [x0 + w - (t - 2) * w, y0 + h];
  return [x0, y0 + h - (t - 3) * h];
};

test('whatever lines are drawn on a cut tracing, panels stay inside the outline and keep its edge', () => {
  const share = fc.integer({ min: 0, max: 999 }).map((n) => n / 1000);
  const bend = fc.integer({ min: -80, max: 80 });
  const line = fc.tuple(share, share, bend, bend).map(([s, t, p, q]): Path => {
    const [a, b] = [onFrame(s), onFrame(t)];
    return [[a, [a[0] * 0.6 + p, a[1] * 0.6 + 90 + q], [b[0] * 0.6 - q, b[1] * 0.6 + 90 + p], b]];
  });
  let panels = 0;
  fc.assert(
    fc.property(fc.array(line, { minLength: 1, maxLength: 3 }), (drawn) => {
      const d = design(
        [FRONT],
        drawn.map((path, i) => panelLine(path, i, { once: true })),
      );
      const allowances = cut({ hem: 35, edges: [{ piece: FRONT.id, edge: 'side seam', width: 18 }] });
      const sliced = slicedPiece(FRONT, { ...d, allowances });
      const { cutPieces, unsound } = cutPiecesOf(sliced, allowances);
      expect(unsound).toEqual([]);
      const { outline } = sliced.whole;
      const traced = flattenRing(outline);
      panels += cutPieces.length;
      cutPieces.forEach(({ cutting, stitching }, i) => {
        expect(isClosed(cutting)).toBe(true);
        const isOuter = sliced.panels[i]!.boundary.some((e) => e.origin.kind === 'outline');
        if (!isOuter) return;
        const ring = flattenRing(cutting);
        const isOut = (p: Pt, of: Polyline, path: Ring): boolean =>
          whereInRing(p, of) === 'outside' && nearestOnPath(path, p).distance > 0.03;
        for (const p of ring) expect(isOut(p, traced, outline)).toBe(false);
        for (const p of flattenRing(stitching)) expect(isOut(p, ring, cutting)).toBe(false);
        // every stretch of the cutting line is the outline's own, or at least a new seam's allowance inside it
        for (const c of cutting) {
          const middle = pointAt(c, 0.5);
          const off = nearestOnPath(outline, middle).distance;
          const fromSeams = Math.min(
            ...sliced.panels[i]!.boundary.filter((e) => e.origin.kind === 'seam').map(
              (e) => nearestOnPath(e.path, middle).distance,
            ),
          );
          expect(off < 1e-6 || fromSeams > 15 - 0.06).toBe(true);
        }
      });
    }),
    { numRuns: 80, seed: 12 },
  );
  // most lines do cut the piece
  expect(panels).toBeGreaterThan(160);
});
