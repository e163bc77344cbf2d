import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Curve,
  type Path,
  type Pt,
  type Ring,
  asOuterRing,
  curvatureAt,
  distance,
  distanceToSegment,
  flattenPath,
  pathLength,
  pointAtLength,
  startOf,
} from '../../src/geometry';
import { bandAround, bandAtDepth, bandLines, bandOf, settleLines } from '../../src/lines';
import { edgeJobs, neighboursOf } from '../../src/neighbours';
import { slicedPiece } from '../../src/panels';
import { type Design, type LineId, type Piece, edgePath, openOut, openedPiece } from '../../src/pattern';
import { addBand, bandDepth, sewBandRound } from '../../src/workbench/store/bandEdits';
import { design, piece } from '../making/designs';

/** A slanted, bowed side from `a` to `b`: `bow` mm off its middle. */
function bowed(a: Pt, b: Pt, bow: number): Curve {
  const d: Pt = [(b[0] - a[0]) / 3, (b[1] - a[1]) / 3];
  const l = distance(a, b);
  const n: Pt = [(((b[1] - a[1]) / l) * bow * 4) / 3, (((a[0] - b[0]) / l) * bow * 4) / 3];
  return [a, [a[0] + d[0] + n[0], a[1] + d[1] + n[1]], [b[0] - d[0] + n[0], b[1] - d[1] + n[1]], b];
}

interface Sleeve {
  readonly top: number;
  readonly cuff: number;
  readonly shift: number;
  readonly length: number;
  readonly skew: number;
  readonly bowLeft: number;
  readonly bowRight: number;
  readonly hemBow: number;
}

function sleeve(s: Sleeve): Piece {
  const [tl, tr]: [Pt, Pt] = [
    [-s.top / 2, 140],
    [s.top / 2, 140],
  ];
  const [bl, br]: [Pt, Pt] = [
    [-s.cuff / 2 + s.shift, 140 + s.length],
    [s.cuff / 2 + s.shift, 140 + s.length + s.skew],
  ];
  const cap: Path = [
    [tl, [tl[0] + 60, 20], [-60, 0], [0, 0]] as Curve,
    [[0, 0], [60, 0], [tr[0] - 60, 20], tr] as Curve,
  ];
  const right: Path = [bowed(tr, br, s.bowRight)];
  const hem: Path = [bowed(br, bl, s.hemBow)];
  const left: Path = [bowed(bl, tl, s.bowLeft)];
  return piece(asOuterRing([...cap, ...right, ...hem, ...left] as Ring), {
    name: 'sleeve',
    cutting: 'pair',
    edgeNames: [
      { name: 'sleeve cap', path: cap },
      { name: 'underarm seam', path: right },
      { name: 'hem', path: hem },
      { name: 'underarm seam', path: left },
    ],
  });
}

interface Skirt {
  readonly waist: number;
  readonly flare: number;
  readonly length: number;
  readonly bow: number;
  readonly drop: number;
}

/** A half skirt on the fold at x = 0, its side on the right of the drawing. */
function halfSkirt(name: string, s: Skirt, mirrored: boolean): Piece {
  const m = ([x, y]: Pt): Pt => (mirrored ? [-x, y] : [x, y]);
  const [top, waist, side, centre]: Pt[] = [
    [0, 10],
    [s.waist, 0],
    [s.waist + s.flare, s.length],
    [0, s.length + s.drop],
  ];
  const flip = (c: Curve): Curve => c.map(m) as unknown as Curve;
  const waistline: Path = [flip([top!, [s.waist / 2, 10], [s.waist * 0.8, 4], waist!])];
  const seam: Path = [flip(bowed(waist!, side!, s.bow))];
  const wide = s.waist + s.flare;
  const hem: Path = [
    flip([side!, [wide * 0.66, s.length + s.drop * 0.8], [wide * 0.33, s.length + s.drop], centre!]),
  ];
  const fold: Path = [flip([centre!, top!])];
  return piece(asOuterRing([...waistline, ...seam, ...hem, ...fold] as Ring), {
    name,
    fold: [m(top!), m(centre!)],
    edgeNames: [
      { name: 'waist', path: waistline },
      { name: 'side seam', path: seam },
      { name: 'hem', path: hem },
    ],
  });
}

const fresh = (count: number): LineId[] => Array.from({ length: count }, (_, i) => `line-${i + 1}` as LineId);
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Length along a path from its end that lies at the hem, walked on fine chords; no code of the bands' own. */
function walkedFrom(hemEnd: Pt, path: Path, p: Pt): number {
  const { points } = flattenPath(path, 0.001);
  const ordered =
    distance(points[0]!, hemEnd) < distance(points.at(-1)!, hemEnd) ? points : [...points].reverse();
  let [best, at, before] = [Infinity, 0, 0];
  ordered.slice(1).forEach((b, i) => {
    const a = ordered[i]!;
    const near = distanceToSegment(p, a, b);
    if (near.distance < best) [best, at] = [near.distance, before + distance(a, b) * near.t];
    before += distance(a, b);
  });
  expect(best).toBeLessThan(0.01);
  return at;
}

const nearestOf = (points: readonly Pt[], p: Pt): number =>
  Math.min(...points.slice(1).map((b, i) => distanceToSegment(p, points[i]!, b).distance));

/** Farthest that the part of a line which is not led is off its depth, but where it runs on straight past the hem's own ends. */
function depthMiss(path: Path, hem: Path, depth: number, from: number, to: number): number {
  const { points } = flattenPath(hem, 0.001);
  const length = pathLength(path);
  const beside = Array.from({ length: 40 }, (_, i) => from + ((to - from) * i) / 39)
    .map((share) => pointAtLength(path, length * share).point)
    .map((p) => ({
      away: nearestOf(points, p),
      ends: [points[0]!, points.at(-1)!].map((q) => distance(p, q)),
    }))
    .filter(({ away, ends }) => away < Math.min(...ends) - 1e-6);
  expect(beside.length).toBeGreaterThan(10);
  return Math.max(...beside.map(({ away }) => Math.abs(away - depth)));
}

/** Least radius of curvature along a path, mm: a hem that turns tighter than a band is deep has no parallel there. */
const tightest = (path: Path): number =>
  Math.min(
    ...path.flatMap((c) => Array.from({ length: 41 }, (_, i) => 1 / Math.abs(curvatureAt(c, i / 40)))),
  );

const sleeves = fc.record({
  top: number(300, 420),
  cuff: number(190, 360),
  shift: number(-20, 20),
  length: number(180, 600),
  skew: number(-6, 6),
  bowLeft: number(-12, 12),
  bowRight: number(-12, 12),
  hemBow: number(-8, 8),
});

test('both ends of a sleeve band meet at the underarm seam to 0.2 mm, and it keeps its depth', () => {
  let most = 0;
  fc.assert(
    fc.property(sleeves, number(20, 90), (s, depth) => {
      const doc = design([sleeve(s)], []);
      const whole = openOut(doc.pieces[0]!, doc.allowances.tracing).whole;
      const hem = whole.edges.findIndex((e) => e.plainName === 'hem');
      const [line, ...more] = bandLines(doc, { piece: whole.piece.id, edge: hem }, depth, fresh)!;
      expect(more).toEqual([]);
      const sides = whole.edges.flatMap((e, i) =>
        e.plainName === 'underarm seam' ? [edgePath(whole, i)] : [],
      );
      const hemPoints = flattenPath(edgePath(whole, hem), 0.001).points;
      const ends = [startOf(line!.path), line!.path.at(-1)!.at(-1)!] as Pt[];
      const shares = ends.map((p) => {
        const side = sides.find((path) => nearestOf(flattenPath(path, 0.001).points, p) < 0.01)!;
        const hemEnd = [hemPoints[0]!, hemPoints.at(-1)!].find((q) =>
          [startOf(side), side.at(-1)!.at(-1)!].some((r) => distance(q, r as Pt) < 0.01),
        )!;
        return { walked: walkedFrom(hemEnd, side, p), length: pathLength(side) };
      });
      // ease is spread evenly over the seam: both ends lie at the same share of their sides
      const [a, b] = shares as [(typeof shares)[number], (typeof shares)[number]];
      const miss = Math.abs((a.walked / a.length) * b.length - b.walked);
      most = Math.max(most, miss);
      expect(miss).toBeLessThan(0.2);
      expect(depthMiss(line!.path, edgePath(whole, hem), depth, 0.34, 0.66)).toBeLessThan(0.06);
    }),
    { numRuns: 300, seed: 41 },
  );
  expect(most).toBeLessThan(0.01);
});

const skirts = fc.record({
  waist: number(150, 260),
  flare: number(-30, 180),
  length: number(350, 800),
  bow: number(-15, 15),
  drop: number(-5, 40),
});

test('a hem band goes round front and back and meets at the side seam to 0.2 mm, whatever their flares', () => {
  fc.assert(
    fc.property(skirts, skirts, number(25, 120), (f, b, depth) => {
      const back = { ...b, length: f.length + (b.length % 6) - 3 };
      const doc = design([halfSkirt('front', f, false), halfSkirt('back', back, true)], []);
      const wholes = doc.pieces.map((p) => openOut(p, doc.allowances.tracing).whole);
      const hem = wholes[0]!.edges.findIndex((e) => e.plainName === 'hem');
      for (const w of wholes)
        fc.pre(
          tightest(
            edgePath(
              w,
              w.edges.findIndex((e) => e.plainName === 'hem'),
            ),
          ) >
            depth + 5,
        );
      const lines = bandLines(doc, { piece: wholes[0]!.piece.id, edge: hem }, depth, fresh)!;
      expect(lines.map((l) => l.piece)).toEqual(['front', 'back']);
      const laid: Design = { ...doc, lines };
      const walked = lines.map((line) => {
        const whole = wholes.find((w) => w.piece.id === line.piece)!;
        const side = edgePath(
          whole,
          whole.edges.findIndex((e) => e.plainName === 'side seam' && !e.mirrored),
        );
        const hemPath = edgePath(
          whole,
          whole.edges.findIndex((e) => e.plainName === 'hem'),
        );
        const outer = [startOf(side), side.at(-1)!.at(-1)! as Pt].sort((p, q) => q[1] - p[1])[0]!;
        const ends = [startOf(line.path), line.path.at(-1)!.at(-1)! as Pt];
        const end = ends.sort((p, q) => Math.abs(q[0]) - Math.abs(p[0]))[0]!;
        expect(Math.min(...ends.map(([x]) => Math.abs(x)))).toBeLessThan(1e-6);
        const led = line.path.at(-1)!.at(-1)![0] === end[0] ? [0, 0.64] : [0.36, 1];
        expect(depthMiss(line.path, hemPath, depth, led[0]!, led[1]!)).toBeLessThan(0.06);
        return walkedFrom(outer, side, end) / pathLength(side);
      });
      expect(Math.abs(walked[0]! - walked[1]!) * f.length * 1.1).toBeLessThan(0.2);
      // held by its ties it stays where it was laid, and slices every piece in two
      expect(settleLines(laid).lines.every((l, i) => l === lines[i])).toBe(true);
      for (const p of doc.pieces) expect(slicedPiece(p, laid).panels).toHaveLength(2);
      expect(slicedPiece(doc.pieces[0]!, laid).looseEnds).toEqual([]);
    }),
    { numRuns: 150, seed: 42 },
  );
});

const doc = design(
  [
    halfSkirt('front', { waist: 200, flare: 60, length: 600, bow: 6, drop: 12 }, false),
    halfSkirt('back', { waist: 210, flare: 40, length: 600, bow: 4, drop: 8 }, true),
  ],
  [],
);
const frontHem = {
  piece: doc.pieces[0]!.id,
  edge: openedPiece(doc.pieces[0]!, doc).whole.edges.findIndex((e) => e.plainName === 'hem'),
};

test('a band knows its hem and depth, and typing another depth moves the whole of it', () => {
  const laid = addBand(frontHem, 60, true)(doc);
  expect(laid.lines).toHaveLength(2);
  expect(laid.sewing.inTheRound).toEqual(laid.lines.map((l) => l.id));
  for (const line of laid.lines) expect(bandOf(laid, line)!.depth).toBeCloseTo(60, 1);
  expect(bandAround(laid, laid.lines[1]!)).toHaveLength(2);
  const deeper = bandDepth(laid.lines[1]!.id, 85)(laid);
  expect(deeper.lines.map((l) => l.id)).toEqual(laid.lines.map((l) => l.id));
  for (const line of deeper.lines) expect(bandOf(deeper, line)!.depth).toBeCloseTo(85, 1);
  const flat = sewBandRound(laid.lines[0]!.id, false)(deeper);
  expect(flat.sewing.inTheRound).toEqual([]);
  expect(sewBandRound(laid.lines[0]!.id, false)(flat)).toBe(flat);
});

test('a second band above the first is a band of its own', () => {
  const one = addBand(frontHem, 40, false)(doc);
  const two = addBand(frontHem, 90, false)(one);
  expect(bandAround(two, two.lines[0]!).map((b) => b.line)).toEqual(['line-1', 'line-2']);
  const moved = bandAtDepth(two, two.lines[2]!, 120, fresh)!;
  expect(moved[0]).toBe(two.lines[0]);
  expect(moved[2]).not.toBe(two.lines[2]);
});

test('a band follows when the hem is made longer', () => {
  const laid = addBand(frontHem, 60, false)(doc);
  const longer = laid.pieces.map((_, i) =>
    i === 0
      ? halfSkirt('front', { waist: 200, flare: 65, length: 650, bow: 6, drop: 12 }, false)
      : halfSkirt('back', { waist: 210, flare: 45, length: 650, bow: 4, drop: 8 }, true),
  );
  const after = settleLines({ ...laid, pieces: longer });
  for (const line of after.lines) expect(Math.abs(bandOf(after, line)!.depth - 60)).toBeLessThan(1.5);
  const wholes = after.pieces.map((p) => openedPiece(p, after).whole);
  const { seams } = neighboursOf(
    wholes,
    [],
    after.lines.flatMap((line) =>
      ([line.path[0]![0], line.path.at(-1)!.at(-1)!] as Pt[]).map((at, i) => ({
        line: line.id,
        label: line.id,
        end: i === 0 ? ('start' as const) : ('end' as const),
        mirrored: false,
        piece: line.piece,
        at,
      })),
    ),
  );
  const misses = seams.flatMap((s) => s.meetings.map((m) => m.mm));
  expect(misses).toHaveLength(1);
  expect(misses[0]).toBeLessThan(0.2);
});

test('a band deeper than the piece, or on an edge that is no hem, is not laid', () => {
  expect(bandLines(doc, frontHem, 5000, fresh)).toBeNull();
  const whole = openedPiece(doc.pieces[0]!, doc).whole;
  const side = whole.edges.findIndex((e) => e.plainName === 'side seam');
  expect(edgeJobs([whole], []).edges.get(whole.piece.id)![side]!.job.kind).not.toBe('hem');
  expect(bandLines(doc, { piece: whole.piece.id, edge: side }, 50, fresh)).toBeNull();
  expect(addBand({ piece: whole.piece.id, edge: side }, 50, false)(doc)).toBe(doc);
});
