import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Curve, type Pt, type Ring, isSimpleRing, signedArea } from '../../src/geometry';
import { type Dart, type Piece, dartAngle, openOut, swungPiece, withoutWedges } from '../../src/pattern';
import { dartOnSide, nameOf, side } from '../making/dartedPieces';
import { piece } from '../making/designs';

const NET = { kind: 'net', outer: 15 } as const;

/** A half piece: the fold from (0, 250) up to (0, -250), corners at even angles to its right, sides bowed but for those with darts. */
function halfRing(radii: readonly number[], bows: readonly number[], straight: readonly number[]): Ring {
  const n = radii.length + 1;
  const corner = (i: number): Pt => {
    if (i === 0) return [0, -250];
    if (i === n) return [0, 250];
    const turn = -Math.PI / 2 + (Math.PI * i) / n;
    return [radii[i - 1]! * Math.cos(turn), radii[i - 1]! * Math.sin(turn)];
  };
  const sides = Array.from({ length: n }, (_, i): Curve =>
    side(corner(i), corner(i + 1), straight.includes(i) ? 0 : bows[i % bows.length]!),
  );
  return [...sides, [corner(n), corner(0)]];
}

interface Job {
  readonly at: number;
  readonly width: number;
  readonly depth: number;
  readonly parts: readonly { readonly edge: number; readonly share: number; readonly part: number }[];
}

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const job: fc.Arbitrary<Job> = fc.record({
  at: between(0.35, 0.65),
  width: between(8, 24),
  depth: between(50, 120),
  parts: fc.array(fc.record({ edge: between(0, 0.999), share: between(0, 1), part: between(0.15, 0.6) }), {
    minLength: 1,
    maxLength: 2,
  }),
});

const pieces = fc
  .record({
    radii: fc.array(between(190, 270), { minLength: 3, maxLength: 5 }),
    bows: fc.array(between(-10, 10), { minLength: 3, maxLength: 6 }),
    jobs: fc.array(job, { minLength: 2, maxLength: 3 }),
  })
  .map(({ radii, bows, jobs }) => {
    const n = radii.length + 1;
    const sides = jobs.map((_, i) => Math.min(n - 1, 1 + i));
    const ring = halfRing(radii, bows, sides);
    const darts = jobs.flatMap((j, i): Dart[] => {
      if (sides.indexOf(sides[i]!) !== i) return [];
      const plain = dartOnSide(ring[sides[i]!]!, j.at, j.width, j.depth);
      const parts = j.parts.map((p) => ({
        to: { edge: nameOf(Math.floor(p.edge * n)), nth: 0, share: p.share },
        share: p.part,
        close: null,
      }));
      return [{ ...plain, treatment: { kind: 'swing', parts } }];
    });
    return piece(ring, {
      darts,
      fold: [
        [0, 250],
        [0, -250],
      ],
      grain: null,
      edgeNames: ring.slice(0, n).map((c, i) => ({ name: nameOf(i), path: [c] })),
    });
  });

const kept = (p: Piece): Piece => ({
  ...p,
  darts: p.darts.map((d) => ({ ...d, treatment: { kind: 'keep' } })),
});

/** Darts drawn over each other cannot be sewn: they are not asked about. */
const areApart = ({ darts, outline }: Piece): boolean => {
  const alone = darts.reduce((sum, d) => sum + withoutWedges(outline, [d]).wedgeArea, 0);
  return Math.abs(withoutWedges(outline, darts).wedgeArea - alone) < 1e-6;
};

test('however darts of a half piece are split and swung, one after the other, the whole piece keeps its area, edges and angles', () => {
  let parts = 0;
  fc.assert(
    fc.property(pieces.filter(areApart), (p) => {
      const s = swungPiece(p);
      const asked = p.darts.reduce(
        (k, d) => k + (d.treatment.kind === 'swing' ? d.treatment.parts.length : 0),
        0,
      );
      parts += asked - s.problems.length;
      const [before, after] = [openOut(kept(p), NET).whole, openOut(p, NET).whole];
      expect(after.area).toBeCloseTo(before.area, 2);
      for (const e of before.edges)
        expect(after.edges.find((x) => x.name === e.name)?.length).toBeCloseTo(e.length, 4);
      p.darts.forEach((d, traced) => {
        const own = after.darts.filter((x) => x.traced === traced && !x.mirrored);
        expect(own.reduce((sum, x) => sum + dartAngle(x), 0)).toBeCloseTo(dartAngle(d), 8);
      });
      expect(isSimpleRing(after.stitching, 0.02)).toBe(true);
      const net = signedArea(after.stitching) - withoutWedges(after.stitching, after.darts).wedgeArea;
      expect(net).toBeCloseTo(after.area, 1);
    }),
    { seed: 77, numRuns: 120 },
  );
  expect(parts).toBeGreaterThan(250);
});
