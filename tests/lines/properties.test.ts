import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Curve,
  type Path,
  type Pt,
  distance,
  endOf,
  nearestOnPath,
  pointAtLength,
  startOf,
} from '../../src/geometry';
import { groundFor, lieOf, moveLevel, retie, settle, settleLines, tieGround } from '../../src/lines';
import { replacePiece } from '../../src/panels';
import { type Design, type PanelLine, type WholePiece, openedPiece, sewnEdge } from '../../src/pattern';
import { FRONT, type Measures, front, halfFront, line, measures, pathOf, tiedAll } from './ground';

const share = fc.double({ min: 0.02, max: 0.98, noNaN: true });
const SETTINGS = { seed: 20261, numRuns: 100 };

const wholeOf = (m: Measures): WholePiece => openedPiece(halfFront(m), front(m, [])).whole;

/** The point at a share of an edge, by name. */
function onEdge(whole: WholePiece, name: string, t: number): Pt {
  const edge = whole.edges.findIndex((e) => e.name === name);
  const { path, length } = sewnEdge(whole, edge);
  return pointAtLength(path, length * t).point;
}

/** A straight or curved path between two points. */
const between = (a: Pt, b: Pt, bow: number): Path => {
  if (Math.abs(bow) < 5) return [[a, b]];
  const n: Pt = [a[1] - b[1], b[0] - a[0]];
  const at = (t: number): Pt => [
    a[0] + (b[0] - a[0]) * t + (n[0] * bow) / 400,
    a[1] + (b[1] - a[1]) * t + (n[1] * bow) / 400,
  ];
  return [[a, at(1 / 3), at(2 / 3), b] as Curve];
};

interface Drawn {
  readonly m: Measures;
  readonly d: Design;
}

/** A half front with a line across, one from it to the hem, and curves between edges and those lines. */
const drawn: fc.Arbitrary<Drawn> = fc
  .record({
    m: measures,
    square: share,
    upright: share,
    ends: fc.array(share, { minLength: 4, maxLength: 4 }),
    bows: fc.array(fc.double({ min: -60, max: 60, noNaN: true }), { minLength: 2, maxLength: 2 }),
  })
  .map(({ m, square, upright, ends, bows }) => {
    const whole = wholeOf(m);
    const side = onEdge(whole, 'side seam', square);
    const x = Math.min(side[0], m.hem) * upright;
    const across = line([[[0, side[1]], side]], 1);
    const down = line(
      [
        [
          [x, side[1]],
          [x, m.length],
        ],
      ],
      2,
    );
    const yoke = line(
      between(onEdge(whole, 'armhole', ends[0]!), [0, 80 + (side[1] - 80) * ends[1]!], bows[0]!),
      3,
    );
    const dropped = line(
      between(onEdge(whole, 'shoulder', ends[2]!), [side[0] * ends[3]!, side[1]], bows[1]!),
      4,
    );
    return { m, d: front(m, [across, down, yoke, dropped]) };
  });

const points = (path: Path): Pt[] => path.flatMap((c) => [...c]);
const farthest = (a: Path, b: Path): number =>
  Math.max(...points(a).map((p, i) => distance(p, points(b)[i]!)));

test('tying lines and settling them at once moves nothing by more than a millionth of a millimetre', () => {
  fc.assert(
    fc.property(drawn, ({ d }) => {
      const after = settle(tiedAll(d));
      expect(after.problems).toEqual([]);
      after.design.lines.forEach((l, i) => {
        expect(l.ties).not.toBeNull();
        expect(farthest(l.path, d.lines[i]!.path)).toBeLessThan(1e-6);
      });
    }),
    SETTINGS,
  );
});

test('settling twice changes nothing: the very same design comes back', () => {
  fc.assert(
    fc.property(drawn, fc.double({ min: -30, max: 30, noNaN: true }), ({ d }, by) => {
      const once = settleLines(moveLevel(settleLines(tiedAll(d)), FRONT, 'waist', by));
      const again = settleLines({ ...once });
      expect(again.lines.every((l, i) => l === once.lines[i])).toBe(true);
    }),
    SETTINGS,
  );
});

test('moving a level moves a line tied to it by as much along the grain, and lines tied to others not at all', () => {
  let met = 0;
  fc.assert(
    fc.property(drawn, fc.double({ min: -25, max: 25, noNaN: true }), ({ d }, by) => {
      const before = settleLines(tiedAll(d));
      const held = before.lines[0]!.ties!.nodes.find((n) => n !== null)!;
      fc.pre(held.kind === 'edge' && held.along === 'grain' && held.reach.kind === 'from');
      const name = held.reach.base.kind === 'level' ? held.reach.base.name : '';
      const { design: after, problems } = settle(moveLevel(before, FRONT, name, by));
      fc.pre(!problems.some((p) => p.code === 'tie-lost' && p.facts.line === 'line-1'));
      const [a, b] = [pathOf(before), pathOf(after)];
      met += 1;
      expect(startOf(b)[1] - startOf(a)[1]).toBeCloseTo(by, 6);
      expect(endOf(b)[1] - endOf(a)[1]).toBeCloseTo(by, 6);
      const other = name === 'bust' ? 'hip' : 'bust';
      expect(settleLines(moveLevel(before, FRONT, other, by)).lines[0]!.path).toEqual(a);
    }),
    SETTINGS,
  );
  expect(met).toBe(SETTINGS.numRuns);
});

test('what is untied, or stays, is the very same object, and so is the design when nothing moves', () => {
  fc.assert(
    fc.property(drawn, fc.double({ min: 1, max: 20, noNaN: true }), ({ d }, by) => {
      expect(settleLines(d)).toBe(d);
      const tiedOnes = tiedAll(d);
      const some: Design = {
        ...tiedOnes,
        lines: tiedOnes.lines.map((l, i): PanelLine => (i === 2 ? { ...l, ties: null } : l)),
      };
      const after = settleLines(moveLevel(some, FRONT, 'waist', by));
      expect(after.lines[2]).toBe(some.lines[2]);
    }),
    SETTINGS,
  );
});

test('lines tied to lines stay joined when levels move: no end comes loose', () => {
  fc.assert(
    fc.property(drawn, fc.double({ min: -25, max: 25, noNaN: true }), ({ d }, by) => {
      const { design: after, problems } = settle(
        moveLevel(moveLevel(settleLines(tiedAll(d)), FRONT, 'waist', by), FRONT, 'hip', by / 2),
      );
      fc.pre(problems.length === 0);
      const [across, down, , dropped] = after.lines.map((l) => l.path);
      expect(nearestOnPath(across!, startOf(down!)).distance).toBeLessThan(1e-6);
      expect(nearestOnPath(across!, endOf(dropped!)).distance).toBeLessThan(1e-6);
      const whole = openedPiece(after.pieces[0]!, after).whole;
      for (const p of [endOf(across!), endOf(down!), startOf(dropped!)])
        expect(nearestOnPath(whole.stitching, p).distance).toBeLessThan(1e-6);
    }),
    SETTINGS,
  );
});

/** Every reach of a design's ties as a share, where it can be one. */
function byShares(d: Design): Design {
  const text = JSON.stringify(d.lines);
  const waist = '{"kind":"level","name":"waist"}';
  expect(text).not.toContain('undefined');
  return {
    ...d,
    lines: d.lines.map((l) => {
      if (l.id !== 'line-1') return l;
      const side = { kind: 'edge end', name: 'side seam', nth: 0, end: 'last' } as const;
      return {
        ...l,
        ties: {
          run: l.ties!.run,
          nodes: l.ties!.nodes.map((n) =>
            n?.kind === 'edge'
              ? {
                  ...n,
                  along: 'grain' as const,
                  reach: { kind: 'between' as const, bases: [JSON.parse(waist), side] as never, share: 0.4 },
                }
              : n,
          ),
        },
      };
    }),
  };
}

test('a piece grown as a whole takes lines tied by shares with it exactly; so many mm stay so many mm', () => {
  const grown = fc.double({ min: 0.8, max: 1.3, noNaN: true });
  const at = fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 }));
  fc.assert(
    fc.property(measures, share, share, grown, at, (m, s, t, k, moved) => {
      const whole = wholeOf(m);
      const side = onEdge(whole, 'side seam', 0.6);
      const lines = [
        line([[[0, side[1]], side]], 1),
        line(between(onEdge(whole, 'shoulder', s), onEdge(whole, 'hem', t / 2), 40), 2),
        line(
          [
            [
              [60, side[1]],
              [60, m.length],
            ],
          ],
          3,
        ),
      ];
      const d = settleLines(byShares(tiedAll(front(m, lines))));
      const { design: after, untied, lost } = replacePiece(d, FRONT, halfFront(m, k, moved));
      expect([untied, lost]).toEqual([[], []]);
      for (const n of [1, 2]) {
        const like = pathOf(d, n).map((c) => c.map(([x, y]): Pt => [moved[0] + x * k, moved[1] + y * k]));
        expect(farthest(pathOf(after, n), like as unknown as Path)).toBeLessThan(1e-5);
      }
      // 60 mm from the centre, whatever the size.
      expect(startOf(pathOf(after, 3))[0] - moved[0]).toBeCloseTo(60, 6);
    }),
    SETTINGS,
  );
});

test('a line dragged somewhere else is tied anew there: it lies where the hand left it, with the same kind of bases', () => {
  fc.assert(
    fc.property(drawn, share, ({ m, d }, to) => {
      const before = settleLines(tiedAll(d));
      const side = onEdge(wholeOf(m), 'side seam', to);
      const path: Path = [[[0, side[1]], side]];
      const { ground, others } = groundFor(before, before.lines[0]!)!;
      const ties = retie(ground, others, before.lines[0]!.ties!, path)!;
      const now = before.lines[0]!.ties!.nodes[1]!;
      expect(lieOf(tieGround(before, FRONT)!, path)).toBe('across');
      expect(ties.run).toEqual(before.lines[0]!.ties!.run);
      if (now.kind === 'edge' && ties.nodes[1]!.kind === 'edge')
        expect({ along: ties.nodes[1]!.along, kind: ties.nodes[1]!.reach.kind }).toEqual({
          along: now.along,
          kind: now.reach.kind,
        });
      const after = settleLines({
        ...before,
        lines: before.lines.map((l, i) => (i === 0 ? { ...l, path, ties } : l)),
      });
      expect(farthest(pathOf(after), path)).toBeLessThan(1e-6);
    }),
    SETTINGS,
  );
});
