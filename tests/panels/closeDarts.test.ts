import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkGarment, deriveGarment } from '../../src/garment';
import { type Path, type Pt, distance, pathLength, signedArea } from '../../src/geometry';
import { sideOfSeam } from '../../src/panels';
import type { Dart, Design } from '../../src/pattern';
import { dart, design, panelLine, piece, rectangle, ringThrough } from '../making/designs';

const SWALLOWED = { treatment: { kind: 'close', remainder: 'ease' } } as const;

/** A side of a bodice, 300 wide, with a dart from its right edge. */
function bodice(d: Dart, line: readonly Pt[] | Path): Design {
  return design([piece(rectangle(300, 400), { darts: [d] })], [panelLine(line as Path, 0)]);
}

test('a line through the point takes the dart into its seam: closed beside it, gone on both panels', () => {
  const d = bodice(dart([300, 90], [200, 100], [300, 110], SWALLOWED), [
    [200, 0],
    [200, 100],
    [200, 400],
  ]);
  const garment = deriveGarment(d);
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.panels).toHaveLength(2);
  const [seam] = garment.seams;
  expect(seam!.lengthA).toBeCloseTo(400, 6);
  expect(seam!.lengthB).toBeCloseTo(400, 6);
  const closed = garment.panels.find((p) => p.closings.some((c) => c.how === 'closed'))!;
  expect(closed.darts).toEqual([]);
  expect((closed.closings[0]!.angle * 180) / Math.PI).toBeCloseTo((2 * (Math.atan(0.1) * 180)) / Math.PI, 9);
  expect(signedArea(closed.ring)).toBeCloseTo(closed.area, 6);
  expect(closed.area).toBeCloseTo(100 * 400 - 1000, 6);
  // the uncut edges keep their lengths: the side seam without its mouth, top and bottom whole
  const outer = closed.boundary.filter((e) => e.origin.kind === 'outline');
  expect(outer.map((e) => Math.round(pathLength(e.path) * 1e6) / 1e6).sort((a, b) => a - b)).toEqual([
    100, 100, 380,
  ]);
  expect(garment.plan.steps.some((s) => s.kind === 'dart')).toBe(false);
  expect(garment.problems.map((p) => p.code)).not.toContain('dart-not-swallowed');
});

test('a line beside the point closes the dart on one side, and eases its end in on the other', () => {
  const d = bodice(dart([300, 90], [200, 100], [300, 110], SWALLOWED), [
    [210, 0],
    [210, 400],
  ]);
  const garment = deriveGarment(d);
  expect(checkGarment(garment)).toEqual([]);
  const [seam] = garment.seams;
  // ten mm from the point the wedge is two mm wide
  expect(Math.abs(seam!.lengthA - seam!.lengthB)).toBeCloseTo(2, 6);
  expect(seam!.eased).toHaveLength(1);
  expect(seam!.eased[0]).toMatchObject({ width: expect.closeTo(2, 6), at: expect.closeTo(99, 1) });
  const notches = garment.cutPieces.flatMap((c) => c.notches.filter((n) => n.seam === seam!.id));
  // two on each side of the seam stand beside the ease; the others say nothing of it
  const beside = notches.flatMap((n) => n.ease ?? []);
  expect(beside).toEqual([2, 2, 2, 2].map((w) => expect.closeTo(w, 6)));
  expect(garment.plan.steps.at(-1)!.text).toContain('easing the fuller side in between the notches');
});

test('notches on both sides of an eased seam differ by the ease between them, and by nothing else', () => {
  const d = bodice(dart([300, 90], [200, 100], [300, 110], SWALLOWED), [
    [210, 0],
    [210, 400],
  ]);
  const garment = deriveGarment(d);
  const [seam] = garment.seams;
  const spread = garment.cutPieces.map((c) => {
    const [first, second] = c.notches.filter((n) => n.seam === seam!.id);
    return { panel: c.panel, first: first!, second: second! };
  });
  const along = spread.map(({ panel, first, second }) => {
    const side = panel === seam!.a ? 'a' : 'b';
    const edge = sideOfSeam(garment.panelById.get(panel)!, seam!, side)!;
    const reach = (p: Pt): number => {
      let sum = 0;
      const path = side === 'a' ? edge.path : [...edge.path].reverse().map(([p0, p1]) => [p1, p0] as const);
      for (const [p0, p1] of path as readonly (readonly [Pt, Pt])[]) {
        const whole = distance(p0, p1);
        if (distance(p0, p) + distance(p, p1) < whole + 1e-6) return sum + distance(p0, p);
        sum += whole;
      }
      return Number.NaN;
    };
    return [reach(first.at), reach(second.at)] as const;
  });
  expect(along[0]![0]).toBeCloseTo(along[1]![0], 6);
  expect(Math.abs(along[0]![1] - along[1]![1])).toBeCloseTo(2, 6);
});

test('what is left beyond the line may stay as a shorter dart', () => {
  const d = bodice(
    dart([300, 90], [200, 100], [300, 110], { treatment: { kind: 'close', remainder: 'dart' } }),
    [
      [240, 0],
      [240, 400],
    ],
  );
  const garment = deriveGarment(d);
  expect(checkGarment(garment)).toEqual([]);
  const [seam] = garment.seams;
  expect(seam!.lengthA).toBeCloseTo(seam!.lengthB, 6);
  expect(seam!.lengthA).toBeCloseTo(392, 6);
  expect(garment.panels.map((p) => p.darts.length).toSorted((a, b) => a - b)).toEqual([0, 1]);
  expect(garment.plan.steps.filter((s) => s.kind === 'dart')).toHaveLength(1);
});

test('a line down the middle of a dart makes its legs part of the seam', () => {
  const d = bodice(dart([140, 400], [150, 250], [160, 400], SWALLOWED), [
    [150, 0],
    [150, 250],
    [150, 400],
  ]);
  const garment = deriveGarment(d);
  expect(checkGarment(garment)).toEqual([]);
  const [seam] = garment.seams;
  expect(seam!.lengthA).toBeCloseTo(250 + Math.hypot(10, 150), 6);
  expect(seam!.lengthB).toBeCloseTo(seam!.lengthA, 9);
  expect(garment.panels.reduce((sum, p) => sum + signedArea(p.ring), 0)).toBeCloseTo(300 * 400 - 1500, 6);
});

test('a double-pointed dart goes into a line through both of its points', () => {
  const double = {
    kind: 'double',
    points: [
      [150, 100],
      [160, 200],
      [150, 300],
      [140, 200],
    ],
    legs: null,
    ...SWALLOWED,
  } as const;
  const garment = deriveGarment(
    bodice(double, [
      [150, 0],
      [150, 100],
      [150, 300],
      [150, 400],
    ]),
  );
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.seams[0]!.lengthA).toBeCloseTo(200 + 2 * Math.hypot(10, 100), 6);
  expect(garment.panels.every((p) => p.darts.length === 0)).toBe(true);
});

test('a dart that no line reaches stays a dart, and says so', () => {
  const garment = deriveGarment(
    bodice(dart([300, 90], [200, 100], [300, 110], SWALLOWED), [
      [100, 0],
      [100, 400],
    ]),
  );
  expect(garment.problems.map((p) => p.code)).toContain('dart-not-swallowed');
  expect(garment.plan.steps.filter((s) => s.kind === 'dart')).toHaveLength(1);
  expect(checkGarment(garment)).toEqual([]);
});

test('a line that only grazes a double-pointed dart leaves it a dart', () => {
  const double = {
    kind: 'double',
    points: [
      [150, 100],
      [160, 200],
      [150, 300],
      [140, 200],
    ],
    legs: null,
    ...SWALLOWED,
  } as const;
  const garment = deriveGarment(
    bodice(double, [
      [146, 0],
      [143, 400],
    ]),
  );
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.panels.flatMap((p) => p.closings)).toEqual([]);
  expect(garment.problems.map((p) => p.code)).toContain('dart-not-swallowed');
});

test('a dart with curved legs of unlike bow closes so that its sides meet at the line and at the mouth', () => {
  const point: Pt = [150, 200];
  const legs = [
    [
      [
        [130, 400],
        [136, 340],
        [143, 270],
        [150, 200],
      ],
    ],
    [
      [
        [150, 200],
        [154, 270],
        [160, 345],
        [171, 400],
      ],
    ],
  ] as const satisfies readonly [Path, Path];
  const d = dart([130, 400], point, [171, 400], { legs, ...SWALLOWED });
  const garment = deriveGarment(
    bodice(d, [
      [0, 320],
      [300, 324],
    ]),
  );
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.panels.some((p) => p.closings.some((c) => c.how === 'closed'))).toBe(true);
  const [seam] = garment.seams;
  const told = seam!.eased.reduce((sum, e) => sum + e.width, 0);
  // curved legs are met on chords that leave them by a thousandth
  expect(Math.abs(seam!.lengthA - seam!.lengthB)).toBeCloseTo(told, 3);
});

test('closing a dart in any panel keeps areas, uncut edges and seams, whatever the lines', () => {
  fc.assert(
    fc.property(
      fc.record({
        x: fc.double({ min: 120, max: 230, noNaN: true }),
        y: fc.double({ min: 80, max: 300, noNaN: true }),
        half: fc.double({ min: 4, max: 25, noNaN: true }),
        mouthAt: fc.double({ min: 80, max: 300, noNaN: true }),
        beside: fc.double({ min: 0, max: 40, noNaN: true }),
        lean: fc.double({ min: -60, max: 60, noNaN: true }),
        bend: fc.double({ min: -40, max: 40, noNaN: true }),
        corner: fc.double({ min: -30, max: 30, noNaN: true }),
        cross: fc.boolean(),
      }),
      ({ x, y, half, mouthAt, beside, lean, bend, corner, cross }) => {
        const outline = ringThrough([
          [0, 0],
          [300, corner],
          [300, 400],
          [0, 400],
        ]);
        const point: Pt = [x, y];
        const reach = Math.hypot(300 - x, mouthAt - y);
        // both mouth ends at one distance from the point, on the right edge as nearly as a straight edge allows
        const d = dart([300, mouthAt - half], point, [300, mouthAt + half], SWALLOWED);
        fc.pre(reach > 50 && mouthAt - half > corner + 5);
        const px = x + beside;
        const line: Path = [
          [
            [px + lean, Math.min(0, corner) - 5],
            [px + lean / 2 + bend, y / 2],
            [px, y / 2],
            [px, y],
          ],
          [
            [px, y],
            [px - lean / 2, 400],
          ],
        ];
        const lines = [panelLine(line, 0)];
        if (cross)
          lines.push(
            panelLine(
              [
                [0, 360],
                [300, 370],
              ],
              1,
            ),
          );
        const garment = deriveGarment(design([piece(outline, { darts: [d] })], lines));
        const faults = checkGarment(garment).filter(
          (f) => f.law !== 'nothing is cut smaller than it is sewn',
        );
        expect(faults).toEqual([]);
        const area = (g: typeof garment): number => g.panels.reduce((sum, p) => sum + p.area, 0);
        expect(area(garment)).toBeCloseTo(garment.pieces[0]!.whole.area, 3);
        if (!garment.panels.some((p) => p.closings.some((c) => c.how === 'closed'))) return;
        // two legs of unequal length leave a step at the mouth
        const legs = Math.abs(
          Math.hypot(300 - x, mouthAt - half - y) - Math.hypot(300 - x, mouthAt + half - y),
        );
        const { edgeOf, stitching, edges } = garment.pieces[0]!.whole;
        const right = edgeOf[stitching.findIndex((c) => c[0][0] === 300 && c[0][1] === corner)]!;
        const onRight = garment.panels
          .flatMap((p) => p.boundary)
          .filter((e) => e.origin.kind === 'outline' && e.origin.edge === right)
          .reduce((sum, e) => sum + pathLength(e.path), 0);
        expect(Math.abs(onRight - edges[right]!.length)).toBeLessThan(legs + 1e-4);
      },
    ),
    { numRuns: 1000, seed: 11 },
  );
});
