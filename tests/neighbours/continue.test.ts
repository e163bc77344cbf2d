import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deriveGarment, lineEndsOf } from '../../src/garment';
import { distance, endOf, startOf } from '../../src/geometry';
import { type Continuation, continuations, continuedLine } from '../../src/neighbours';
import type { Design, LineId, PanelLine } from '../../src/pattern';
import { bodice, garmentDesign, line, sleeve } from './garments';

const STRAIGHT = { waistIn: 0, flare: 0 } as const;
const front = bodice('front', STRAIGHT);
const back = bodice('back', { ...STRAIGHT, at: [900, 0] }, { onFold: false });

const missesOf = (design: Design): string[] =>
  deriveGarment(design)
    .problems.map((p) => p.code)
    .filter((c) => c.startsWith('lines-'));

const continuationsOf = (design: Design, id: string): readonly Continuation[] => {
  const garment = deriveGarment(design);
  const ends = garment.pieces.flatMap((p) => lineEndsOf(p, design));
  return continuations(
    garment.neighbours,
    design.lines.find((l) => l.id === id)!,
    ends,
  );
};

const added = (design: Design, c: Continuation, id = 'line-9'): Design => ({
  ...design,
  lines: [...design.lines, continuedLine(c, id as LineId)],
});

const only = (l: PanelLine): Design => garmentDesign([front, back], [l]);

test('a line across the front is offered on the back: over the side seam, to the centre', () => {
  const design = only(
    line('line-1', 'front', [
      [0, 400],
      [240, 400],
    ]),
  );
  const offered = continuationsOf(design, 'line-1');
  expect(offered.map((c) => [c.piece, c.over, c.by])).toEqual([['back', 'side seam', 'seam']]);
  const [c] = offered;
  expect(distance(c!.path[0]![0], [1140, 400])).toBeLessThan(1e-6);
  expect(distance(endOf(c!.path), [900, 400])).toBeLessThan(1e-6);
  expect(c!.run).toEqual({ kind: 'square', until: { kind: 'outline' } });
  expect(c!.tie).toEqual({
    kind: 'neighbour',
    name: 'side seam',
    nth: 0,
    line: 'line-1',
    end: 'end',
    mirrored: false,
  });
  expect(missesOf(added(design, c!))).toEqual([]);
  expect(continuationsOf(added(design, c!), 'line-1')).toEqual([]);
});

test('an upright line over the shoulder goes on upright', () => {
  const design = only(
    line('line-1', 'front', [
      [120, 570],
      [120, 20],
    ]),
  );
  const [c] = continuationsOf(design, 'line-1').filter((o) => o.over === 'shoulder');
  expect(c!.run.kind).toBe('with');
  expect(c!.path[0]![0][0]).toBeCloseTo(endOf(c!.path)[0], 6);
});

test('a slanting line goes straight on over the closed seam', () => {
  const design = only(
    line('line-1', 'front', [
      [0, 340],
      [240, 400],
    ]),
  );
  const [c] = continuationsOf(design, 'line-1');
  // Falling towards the seam on the front, it goes on falling beyond it: towards the centre back.
  expect(distance(c!.path[0]![0], [1140, 400])).toBeLessThan(1e-6);
  expect(distance(endOf(c!.path), [900, 460])).toBeLessThan(1e-6);
});

test('a mirrored line from a back on the fold arrives on the traced half and runs to the fold', () => {
  const onFold = bodice('back', { ...STRAIGHT, at: [900, 0] });
  const design = garmentDesign(
    [front, onFold],
    [
      line('line-1', 'front', [
        [0, 400],
        [240, 400],
      ]),
    ],
  );
  const offered = continuationsOf(design, 'line-1');
  expect(offered).toHaveLength(1);
  expect(offered[0]!.run).toEqual({ kind: 'square', until: { kind: 'centre' } });
  expect(distance(endOf(offered[0]!.path), [900, 400])).toBeLessThan(1e-6);
  expect(missesOf(added(design, offered[0]!))).toEqual([]);
});

test('a line of a bodice goes on at the same level of the sleeve', () => {
  const design = garmentDesign(
    [front, back, sleeve([2000, 200])],
    [
      line('line-1', 'front', [
        [0, 250],
        [240, 250],
      ]),
    ],
  );
  const level = continuationsOf(design, 'line-1').find((c) => c.by === 'level')!;
  expect(level.piece).toBe('sleeve');
  // 60 below the underarm point, which is at 200 on the sleeve.
  expect(startOf(level.path)[1]).toBeCloseTo(260, 6);
  expect(endOf(level.path)[1]).toBeCloseTo(260, 6);
  expect(continuationsOf(added(design, level), 'line-1').filter((c) => c.by === 'level')).toEqual([]);
});

const heights = fc.record({
  y: fc.integer({ min: 215, max: 545 }),
  tilt: fc.integer({ min: -60, max: 60 }),
  dart: fc.option(
    fc.record({ from: fc.integer({ min: 20, max: 60 }), intake: fc.integer({ min: 8, max: 40 }) }),
    {
      nil: null,
    },
  ),
  waistIn: fc.integer({ min: 0, max: 25 }),
  flare: fc.integer({ min: -10, max: 50 }),
  backSide: fc.integer({ min: 370, max: 395 }),
  backOnFold: fc.boolean(),
  isRight: fc.boolean(),
});

test('continuing a line to the neighbour and back returns to the start', () => {
  let compared = 0;
  fc.assert(
    fc.property(heights, (n) => {
      const own = bodice('front', { dart: n.dart, waistIn: n.waistIn, flare: n.flare });
      const other = bodice(
        'back',
        { side: n.backSide, waistIn: n.waistIn + 3, flare: n.flare, at: [1500, 30], isRight: n.isRight },
        { onFold: n.backOnFold },
      );
      const drawn = line('line-1', 'front', [
        [0, n.y + n.tilt],
        [400, n.y],
      ]);
      const design = garmentDesign([own, other], [drawn]);
      const there = continuationsOf(design, 'line-1').find((c) => c.over === 'side seam');
      if (!there) return;
      const alone = { ...design, lines: [continuedLine(there, 'line-2' as LineId)] };
      const again = continuationsOf(alone, 'line-2').find((c) => c.over === 'side seam');
      if (!again) throw new Error('it cannot be continued back');
      const ends = lineEndsOf(deriveGarment(design).pieces[0]!, design);
      const nearest = Math.min(...ends.map((e) => distance(e.at, again.at)));
      const mouth = own.darts[0]?.kind === 'single' ? own.darts[0].mouth : null;
      // The mouth's edge is shaped for the folded dart: it reaches a little beyond the straight mouth.
      const isInMouth =
        mouth !== null && ends.some((e) => e.at[1] > mouth[0][1] - 2 && e.at[1] < mouth[1][1] + 2);
      if (!isInMouth) {
        compared += 1;
        expect(nearest).toBeLessThan(1e-3);
      }
    }),
    { seed: 11, numRuns: 250 },
  );
  expect(compared).toBeGreaterThan(180);
});
