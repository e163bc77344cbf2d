import fc from 'fast-check';
import { expect, test } from 'vitest';
import { distance, isSimpleRing, nearestOnPath, pathThrough, signedArea } from '../../src/geometry';
import { dartAngle, dartLegLengths, openOut, withoutWedges } from '../../src/pattern';
import { dart, piece, ringThrough } from '../making/designs';
import { darted, swinging } from '../making/dartedPieces';

const CUT = { kind: 'cut', included: 12 } as const;

test('on a cutting-line tracing a swung dart has equal legs where it is sewn, and the stitching line keeps area and edges', () => {
  let tried = 0;
  fc.assert(
    fc.property(darted(0), fc.double({ min: 0.2, max: 1, noNaN: true }), (d, share) => {
      const p = swinging({ ...d, place: { ...d.place, share: 0.15 + 0.7 * d.place.share } }, share);
      const [before, after] = [openOut(d.piece, CUT), openOut(p, CUT)];
      if (after.problems.some((x) => x.code === 'dart-not-swung')) return;
      tried += 1;
      expect(after.problems.filter((x) => x.code.startsWith('dart'))).toEqual([]);
      const { whole } = after;
      for (const own of whole.darts) {
        const [a, b] = dartLegLengths(own);
        expect(a).toBeCloseTo(b!, 4);
        if (own.kind === 'single')
          for (const m of own.mouth) expect(nearestOnPath(whole.stitching, m).distance).toBeLessThan(1e-6);
      }
      expect(whole.darts.reduce((sum, x) => sum + dartAngle(x), 0)).toBeCloseTo(
        dartAngle(d.piece.darts[0]!),
        8,
      );
      expect(whole.area).toBeCloseTo(before.whole.area, 1);
      for (const e of before.whole.edges)
        expect(whole.edges.find((x) => x.name === e.name)?.length).toBeCloseTo(e.length, 3);
      expect(isSimpleRing(whole.stitching, 0.02)).toBe(true);
      const net = signedArea(whole.stitching) - withoutWedges(whole.stitching, whole.darts).wedgeArea;
      expect(net).toBeCloseTo(whole.area, 1);
      whole.stitching.forEach((c, i) =>
        expect(distance(c.at(-1)!, whole.stitching[(i + 1) % whole.stitching.length]![0])).toBe(0),
      );
    }),
    { seed: 41, numRuns: 120 },
  );
  expect(tried).toBeGreaterThan(60);
});

test('so does a half piece with a fold and different allowances', () => {
  const fold = [
    [0, 0],
    [0, 400],
  ] as const;
  const edge = (name: string, ...points: [number, number][]) => ({ name, path: pathThrough(points, false) });
  const ring = ringThrough([
    [0, 30],
    [120, 0],
    [300, 20],
    [290, 400],
    [0, 400],
  ]);
  const traced = piece(ring, {
    fold: [
      [0, 30],
      [0, 400],
    ],
    darts: [
      {
        ...dart([295.6, 188], [150, 200], [294.9, 214]),
        treatment: {
          kind: 'swing',
          parts: [{ to: { edge: 'shoulder', nth: 0, share: 0.5 }, share: 1, close: null }],
        },
      },
    ],
    edgeNames: [
      edge('neckline', [0, 30], [120, 0]),
      edge('shoulder', [120, 0], [300, 20]),
      edge('side', [300, 20], [290, 400]),
      edge('hem', [290, 400], [0, 400]),
    ],
  });
  const included = {
    general: 12,
    hem: 35,
    edges: [{ piece: traced.id, edge: 'neckline', width: 6 }],
    answers: [],
  };
  const kept = {
    ...traced,
    darts: traced.darts.map((d) => ({ ...d, treatment: { kind: 'keep' } as const })),
  };
  const [before, after] = [openOut(kept, included).whole, openOut(traced, included)];
  expect(after.problems.map((p) => p.code)).not.toContain('dart-not-swung');
  const { whole } = after;
  expect(whole.darts).toHaveLength(2);
  for (const own of whole.darts) expect(dartLegLengths(own)[0]).toBeCloseTo(dartLegLengths(own)[1]!, 5);
  for (const name of ['shoulder', 'neckline', 'hem'])
    expect(whole.edges.find((e) => e.name === name)!.length).toBeCloseTo(
      before.edges.find((e) => e.name === name)!.length,
      5,
    );
  // Its traced legs differ a little: closed, the side seam has that as a step.
  expect(Math.abs(whole.area - before.area)).toBeLessThan(0.5);
  expect(nearestOnPath([fold], whole.foldLine![0]).distance).toBe(0);
  expect(isSimpleRing(whole.stitching, 0.02)).toBe(true);
});
