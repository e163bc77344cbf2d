import fc from 'fast-check';
import { expect, test } from 'vitest';
import { distance, endOf, nearestOnPath, startOf } from '../../src/geometry';
import { type SeamJoin, crossSeam, edgeJobs, walkSeam } from '../../src/neighbours';
import { type WholePiece, placeAtSewn, sewnEdge } from '../../src/pattern';
import { type BodiceNumbers, bodice, bezier, byId, notch, opened, sleeve } from './garments';

const numbers = fc.record({
  width: fc.integer({ min: 190, max: 300 }),
  flare: fc.integer({ min: -20, max: 60 }),
  armholeDepth: fc.integer({ min: 150, max: 230 }),
  side: fc.integer({ min: 150, max: 700 }),
  waistIn: fc.integer({ min: -10, max: 30 }),
  dart: fc.option(
    fc.record({ from: fc.integer({ min: 15, max: 60 }), intake: fc.integer({ min: 8, max: 45 }) }),
    { nil: null },
  ),
  isRight: fc.boolean(),
}) satisfies fc.Arbitrary<Partial<BodiceNumbers>>;

const pair = fc
  .record({ front: numbers, back: numbers, backOnFold: fc.boolean() })
  .map(({ front, back, backOnFold }) => [
    opened(bodice('front', front)),
    opened(bodice('back', { ...back, at: [1500, 40] }, { onFold: backOnFold })),
  ]);

const seamsOf = (wholes: readonly WholePiece[], name: string): readonly SeamJoin[] =>
  edgeJobs(wholes, []).joins.filter((j) => byId(wholes).get(j.a.piece)!.edges[j.a.edge]!.plainName === name);

test('walking over a seam and back is the identity, on thousands of random seams', () => {
  fc.assert(
    fc.property(pair, fc.double({ min: 0, max: 1, noNaN: true }), (wholes, share) => {
      const all = byId(wholes);
      const { joins } = edgeJobs(wholes, []);
      for (const join of joins) {
        const edge = sewnEdge(all.get(join.a.piece)!, join.a.edge);
        const p = placeAtSewn(edge, edge.length * share).point;
        const over = crossSeam(all, [join], join.a, p);
        expect(over).toHaveLength(1);
        const back = crossSeam(all, [join], over[0]!, over[0]!.at);
        const near = nearestOnPath(edge.path, back[0]!.at);
        expect(near.distance).toBeLessThan(1e-6);
        // At a dart both ends of the mouth are one place.
        const isSame =
          distance(back[0]!.at, p) < 1e-3 ||
          edge.mouths.some((m) => Math.abs(m.to - m.from - distance(back[0]!.at, p)) < 1e-3);
        expect(isSame).toBe(true);
      }
    }),
    { seed: 3, numRuns: 700 },
  );
});

test('the agreed ends meet, whichever way round the pieces were traced', () => {
  fc.assert(
    fc.property(pair, (wholes) => {
      const all = byId(wholes);
      for (const join of seamsOf(wholes, 'side seam')) {
        const ends = ([join.a, join.b] as const).map((side, i) => {
          const { path } = sewnEdge(all.get(side.piece)!, side.edge);
          const last = i === 0 ? join.beginsLast : join.beginsLast !== join.reversed;
          return { begin: last ? endOf(path) : startOf(path), end: last ? startOf(path) : endOf(path) };
        });
        // Both walks begin at the underarm, above the hem.
        for (const e of ends) expect(e.begin[1]).toBeLessThan(e.end[1]);
        expect(join.beginsAt).toBe('the underarm');
      }
      for (const join of seamsOf(wholes, 'shoulder')) {
        const { path } = sewnEdge(all.get(join.a.piece)!, join.a.edge);
        const begin = join.beginsLast ? endOf(path) : startOf(path);
        const end = join.beginsLast ? startOf(path) : endOf(path);
        expect(begin[1]).toBeLessThan(end[1]);
      }
    }),
    { seed: 5, numRuns: 300 },
  );
});

test('a dart in the side seam takes up no length: a dartless back of the same height is as long', () => {
  const front = opened(bodice('front', { dart: { from: 40, intake: 30 }, waistIn: 0, flare: 0, side: 410 }));
  const back = opened(bodice('back', { waistIn: 0, flare: 0, side: 380, at: [900, 0] }, { onFold: false }));
  const [join] = seamsOf([front, back], 'side seam');
  const walk = walkSeam(byId([front, back]), join!);
  expect(walk.lengthA).toBeCloseTo(380, 6);
  expect(walk.difference).toBeCloseTo(0, 6);
  // 100 below the underarm on the front as drawn, beyond the dart: 70 along the seam.
  const [at] = crossSeam(byId([front, back]), [join!], join!.a, [240, 290]);
  expect(at!.at[1]).toBeCloseTo(190 + 70, 6);
});

test('as many notches on both sides part the seam, and ease is spread within each part', () => {
  const straight = { waistIn: 0, flare: 0 } as const;
  const front = opened(bodice('front', { ...straight, side: 400 }, { notches: [notch([240, 190 + 200])] }));
  const back = opened(
    bodice(
      'back',
      { ...straight, side: 412, at: [900, 0] },
      { onFold: false, notches: [notch([1140, 190 + 206])] },
    ),
  );
  const other = { ...back, notches: [...back.notches, notch([1140, 300])] };
  const wholes = byId([front, back]);
  const join = seamsOf([front, back], 'side seam').find((j) => !front.edges[j.a.edge]!.mirrored)!;
  const cross = (y: number, all = wholes): number => crossSeam(all, [join], join.a, [240, y])[0]!.at[1];
  expect(cross(190 + 100)).toBeCloseTo(190 + 103, 6);
  expect(cross(190 + 200)).toBeCloseTo(190 + 206, 6);
  expect(cross(190 + 300)).toBeCloseTo(190 + 206 + 103, 6);
  expect(walkSeam(wholes, join).stretches).toHaveLength(2);
  // One notch against two says nothing: the difference is spread over all of it.
  expect(walkSeam(byId([front, other]), join).stretches).toHaveLength(1);
  expect(cross(190 + 100, byId([front, other]))).toBeCloseTo(190 + 103, 6);
});

test('a cap’s two halves each meet their armhole from the underarm up, and share the shoulder point', () => {
  const front = opened(bodice('front'));
  const back = opened(bodice('back', { armholeDepth: 182, at: [900, 0] }, { onFold: false }));
  const drawn = sleeve([2000, 200], { cap: 110 });
  const top = bezier(drawn.edgeNames[0]!.path[0]!, 1);
  const arm = opened({ ...drawn, notches: [notch(top)] });
  const wholes = byId([front, back, arm]);
  const { joins } = edgeJobs([front, back, arm], []);
  for (const join of joins.filter((j) => j.role === 'armhole')) {
    const { path } = sewnEdge(wholes.get(join.a.piece)!, join.a.edge);
    const [shoulder, underarm] = join.beginsLast
      ? [startOf(path), endOf(path)]
      : [endOf(path), startOf(path)];
    expect(distance(crossSeam(wholes, [join], join.a, shoulder)[0]!.at, top)).toBeLessThan(0.02);
    const low = crossSeam(wholes, [join], join.a, underarm)[0]!.at;
    expect(low[1]).toBeCloseTo(200, 6);
  }
});

test('the centre seam of a pair arrives at itself', () => {
  const back = opened(bodice('back', {}, { onFold: false }));
  const join = edgeJobs([back], []).joins.find((j) => j.a.edge === j.b.edge)!;
  expect(crossSeam(byId([back]), [join], join.a, [0, 300])).toEqual([
    { piece: back.piece.id, edge: join.a.edge, at: [0, 300] },
  ]);
});
