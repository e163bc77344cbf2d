import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Pt,
  distance,
  flattenRing,
  isInRing,
  nearestOnPath,
  pathLength,
  pointAtLength,
  signedArea,
} from '../../src/geometry';
import {
  type Piece,
  type SwungPiece,
  dartAngle,
  dartLegLengths,
  openOut,
  swingMap,
  swungPiece,
  withoutWedges,
} from '../../src/pattern';
import { type Darted, darted, nameOf, swinging } from '../making/dartedPieces';

const NET = { kind: 'net', outer: 15 } as const;
const RUNS = { seed: 11, numRuns: 300 };

const ringOf = (s: SwungPiece) => s.curves.map((c) => c.curve);
const netArea = (s: SwungPiece): number => {
  const shapes = s.darts.map((d) => d.shape);
  return signedArea(ringOf(s)) - withoutWedges(ringOf(s), shapes).wedgeArea;
};
const edgeLengths = (p: Piece): Map<string, number> =>
  new Map(openOut(p, NET).whole.edges.map((e) => [e.name, e.length]));

/** What was swung as a traced piece of its own, kept. */
const asTraced = (from: Piece, s: SwungPiece): Piece => {
  const edges = [...new Set(s.curves.map((c) => c.plainName))];
  return {
    ...from,
    outline: ringOf(s),
    grain: s.grain,
    notches: s.notches,
    levels: s.levels,
    darts: s.darts.map((d) => ({ ...d.shape, treatment: { kind: 'keep' } })),
    edgeNames: edges.map((name) => ({
      name,
      path: s.curves.filter((c) => c.plainName === name).map((c) => c.curve),
    })),
  };
};

/** Hollow legs drawn to much less than their length keep their shape, not their area. */
const LEAST_PROPORTION = 0.65;

/** Swing as asked; null where the place is not seen from the point, or curved legs would become much shorter. */
function swung(d: Darted, share: number): { piece: Piece; s: SwungPiece } | null {
  const p = swinging(d, share);
  const s = swungPiece(p);
  if (s.problems.length > 0) return null;
  const legs = [d.piece.darts[0]!, s.darts.at(-1)!.shape].map((x) =>
    x.kind === 'single' ? distance(x.point, x.mouth[0]) : 0,
  );
  return d.piece.darts[0]!.legs && legs[1]! < LEAST_PROPORTION * legs[0]! ? null : { piece: p, s };
}

let tried = 0;
const counted = (run: () => void): void => {
  tried = 0;
  run();
  expect(tried).toBeGreaterThan(100);
};

test('swinging keeps the area, the length of every edge and the angle about the point', () => {
  counted(() =>
    fc.assert(
      fc.property(darted(0), fc.double({ min: 0.1, max: 1, noNaN: true }), (d, share) => {
        const done = swung(d, share);
        if (!done) return;
        tried += 1;
        expect(netArea(done.s)).toBeCloseTo(netArea(swungPiece(d.piece)), 3);
        const [before, after] = [edgeLengths(d.piece), edgeLengths(done.piece)];
        for (const [name, length] of before) expect(after.get(name)).toBeCloseTo(length, 5);
        const angles = done.s.darts.map((x) => dartAngle(x.shape));
        const [was] = d.piece.darts.map(dartAngle);
        expect(angles.reduce((a, b) => a + b, 0)).toBeCloseTo(was!, 10);
        expect(angles.at(-1)).toBeCloseTo(was! * share, 10);
      }),
      RUNS,
    ),
  );
});

test('with curved legs too: their bows are shared out and keep their area', () => {
  counted(() =>
    fc.assert(
      fc.property(darted(0.04), fc.double({ min: 0.1, max: 1, noNaN: true }), (d, share) => {
        const done = swung(d, share);
        if (!done) return;
        tried += 1;
        expect(netArea(done.s)).toBeCloseTo(netArea(swungPiece(d.piece)), 2);
      }),
      RUNS,
    ),
  );
});

test('the legs of a swung dart are equally long', () => {
  counted(() =>
    fc.assert(
      fc.property(darted(0.04), (d) => {
        const done = swung(d, 0.6);
        if (!done) return;
        tried += 1;
        for (const { shape } of done.s.darts) {
          const [a, b] = dartLegLengths(shape);
          expect(a).toBeCloseTo(b!, 5);
        }
      }),
      RUNS,
    ),
  );
});

test('swung and swung back, everything is where it was', () => {
  counted(() =>
    fc.assert(
      fc.property(darted(0.04), (d) => {
        const done = swung(d, 1);
        if (!done) return;
        const first = swungPiece(d.piece);
        const dart = d.piece.darts[0]!;
        if (dart.kind !== 'single') throw new Error('not single');
        const [a] = d.piece.outline[0]!;
        const length = distance(...(d.piece.outline[0] as [Pt, Pt])) - distance(...dart.mouth);
        const home = { edge: nameOf(0), nth: 0, share: distance(a, dart.mouth[0]) / length };
        const there = asTraced(d.piece, done.s);
        const back = swungPiece(swinging({ piece: there, place: home }, 1));
        if (back.problems.length > 0) return;
        tried += 1;
        const shape = back.darts[0]!.shape;
        if (shape.kind !== 'single') throw new Error('not single');
        expect(distance(shape.point, dart.point)).toBeLessThan(1e-6);
        shape.mouth.forEach((m, i) => expect(distance(m, dart.mouth[i]!)).toBeLessThan(1e-6));
        if (dart.legs)
          shape.legs!.forEach((leg, i) =>
            leg[0]!.forEach((p, k) => expect(distance(p, dart.legs![i]![0]![k]!)).toBeLessThan(1e-6)),
          );
        const ring = ringOf(back);
        for (let s = 0; s < pathLength(ringOf(first)); s += 23) {
          const { point } = pointAtLength(ringOf(first), s);
          expect(nearestOnPath(ring, point).distance).toBeLessThan(1e-6);
        }
        expect(signedArea(ring)).toBeCloseTo(signedArea(ringOf(first)), 3);
      }),
      RUNS,
    ),
  );
});

test('places carried along come back, on either side of the cut', () => {
  counted(() =>
    fc.assert(
      fc.property(
        darted(0),
        fc.array(fc.tuple(fc.integer({ min: -200, max: 200 }), fc.integer({ min: -200, max: 200 })), {
          minLength: 12,
          maxLength: 12,
        }),
        (d, spots) => {
          const done = swung(d, 0.7);
          if (!done) return;
          tried += 1;
          const map = swingMap(done.piece);
          const [corners, now] = [flattenRing(d.piece.outline), flattenRing(ringOf(done.s))];
          for (const [x, y] of spots) {
            const p: Pt = [x + 0.123, y + 0.456];
            if (!isInRing(p, corners) || nearestOnPath(d.piece.outline, p).distance < 1) continue;
            const q = map.point(p);
            expect(isInRing(q, now)).toBe(true);
            expect(distance(map.back(q), p)).toBeLessThan(1e-6);
          }
        },
      ),
      RUNS,
    ),
  );
});

test('a path carried along keeps its length but for what lies in the wedge, and comes back', () => {
  counted(() =>
    fc.assert(
      fc.property(
        darted(0),
        fc.tuple(fc.integer({ min: -60, max: 60 }), fc.integer({ min: -60, max: 60 })),
        (d, [x, y]) => {
          const done = swung(d, 1);
          if (!done) return;
          tried += 1;
          const map = swingMap(done.piece);
          const path = [
            [
              [x - 30, y + 0.3],
              [x + 30, y + 7.7],
            ],
          ] as const;
          const there = map.path(path);
          const back = there.flatMap((part) => map.backPath(part.path));
          const total = (parts: readonly { path: Parameters<typeof pathLength>[0] }[]): number =>
            parts.reduce((sum, p) => sum + pathLength(p.path), 0);
          expect(total(back)).toBeCloseTo(total(there), 4);
          for (const part of back)
            for (const c of part.path)
              for (const p of c) expect(nearestOnPath(path, p).distance).toBeLessThan(1e-6);
        },
      ),
      RUNS,
    ),
  );
});
