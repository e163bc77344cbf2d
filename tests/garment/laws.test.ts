import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Curve, type Path, type Polyline, type Pt, pathThrough, signedArea } from '../../src/geometry';
import { checkGarment, deriveGarment } from '../../src/garment';
import type { Design } from '../../src/pattern';
import { withLines } from '../../src/panels';
import { design, lined, panelLine, piece, rectangle, ringThrough } from '../making/designs';

const unit = fc.double({ min: 0, max: 1, noNaN: true });
const at: fc.Arbitrary<Pt> = fc.tuple(unit, unit).map(([x, y]): Pt => [x * 340 - 20, y * 340 - 20]);

/** A star round (150, 150): simple, often concave. */
const star = fc
  .array(fc.double({ min: 60, max: 150, noNaN: true }), { minLength: 4, maxLength: 14 })
  .map((radii) =>
    ringThrough(
      radii.map((r, i): Pt => {
        const turn = (2 * Math.PI * i) / radii.length;
        return [150 + r * Math.cos(turn), 150 + r * Math.sin(turn)];
      }),
    ),
  );
const straight = fc.tuple(at, at).map(([a, b]): Path => pathThrough([a, b], false));
const bent = fc.tuple(at, at, at, at).map(([a, b, c, d]): Path => [[a, b, c, d] satisfies Curve]);
const someLines = fc.array(fc.oneof(straight, bent), { maxLength: 7 });

test('whatever outline and lines are drawn, the garment obeys its laws', () => {
  fc.assert(
    fc.property(star, someLines, fc.constantFrom(0, 10, 15), (outline, lines, newSeam) => {
      const d = lined(outline, lines);
      const garment = deriveGarment({ ...d, allowances: { ...d.allowances, newSeam } });
      expect(checkGarment(garment)).toEqual([]);
    }),
    { seed: 5, numRuns: 400 },
  );
});

test('a half piece with mirrored and single-sided lines obeys them too', () => {
  fc.assert(
    fc.property(someLines, fc.array(fc.boolean(), { minLength: 7, maxLength: 7 }), (lines, once) => {
      const half = piece(rectangle(300, 300), {
        fold: [
          [0, 0],
          [0, 300],
        ],
      });
      const garment = deriveGarment(
        design(
          [half],
          lines.map((l, i) => panelLine(l, i, { once: once[i]! })),
        ),
      );
      expect(checkGarment(garment)).toEqual([]);
    }),
    { seed: 6, numRuns: 200 },
  );
});

const colourAt = (d: Design, [x, y]: Pt): string => {
  const { panels } = deriveGarment(d);
  return panels.toSorted(
    (p, q) => Math.hypot(p.spot.at[0] - x, p.spot.at[1] - y) - Math.hypot(q.spot.at[0] - x, q.spot.at[1] - y),
  )[0]!.colour;
};
const across = (y: number): Polyline => [
  [0, y],
  [300, y],
];

test('colours stay with their panels when a line moves over the mark, splits a panel, or is taken away', () => {
  const start = lined(rectangle(300, 300), [across(100)]);
  const [chalk, slate] = start.colours;
  const coloured: Design = {
    ...start,
    marks: [{ piece: start.pieces[0]!.id, at: [150, 110], colour: slate!.id }],
  };
  expect(colourAt(coloured, [150, 200])).toBe(slate!.id);
  const moved = withLines(coloured, [panelLine(across(180), 0)]);
  expect(colourAt(moved, [150, 240])).toBe(slate!.id);
  expect(colourAt(moved, [150, 90])).toBe(chalk!.id);
  const split = withLines(moved, [
    ...moved.lines,
    panelLine(
      [
        [150, 180],
        [150, 300],
      ],
      1,
    ),
  ]);
  expect(colourAt(split, [75, 240])).toBe(slate!.id);
  expect(colourAt(split, [225, 240])).toBe(slate!.id);
  const merged = withLines(split, [split.lines[1]!]);
  expect(deriveGarment(merged).panels.map((p) => p.colour)).toEqual([chalk!.id]);
});

test('a loose end is a problem placed at that end, with the way to reach the next edge', () => {
  const { problems } = deriveGarment(
    lined(rectangle(300, 300), [
      [
        [0, 100],
        [200, 100],
      ],
    ]),
  );
  const loose = problems.find((p) => p.code === 'line-ends-in-the-open')!;
  expect(loose.at).toEqual([200, 100]);
  expect(loose.facts).toMatchObject({ end: 'end', gap: 100, reach: [300, 100] });
});

test('a line near a dart point is hinted at, one across a dart is warned of', () => {
  const dart = {
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    mouth: [
      [300, 90],
      [300, 110],
    ],
    point: [200, 100],
  } as const;
  const codes = (line: Polyline) =>
    deriveGarment(lined(rectangle(300, 300), [line], { darts: [dart] })).problems.map((p) => p.code);
  expect(
    codes([
      [190, 0],
      [190, 300],
    ]),
  ).toContain('panel-line-near-dart');
  expect(
    codes([
      [230, 0],
      [270, 300],
    ]),
  ).toContain('line-crosses-dart');
  expect(
    codes([
      [250, 0],
      [250, 300],
    ]),
    'square across the dart, it meets both legs at equal distance',
  ).not.toContain('line-crosses-dart');
  expect(
    codes([
      [200, 0],
      [200, 300],
    ]),
  ).not.toContain('panel-line-near-dart');
  expect(
    codes([
      [100, 0],
      [100, 300],
    ]),
  ).not.toContain('panel-line-near-dart');
});

test('a panel line through a dart point leaves a stitching line that encloses what is sewn', () => {
  const dart = {
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    mouth: [
      [300, 90],
      [300, 110],
    ],
    point: [200, 100],
  } as const;
  const { panels } = deriveGarment(
    lined(
      rectangle(300, 300),
      [
        [
          [200, 0],
          [200, 300],
        ],
      ],
      { darts: [dart] },
    ),
  );
  for (const p of panels) expect(signedArea(p.netRing)).toBeCloseTo(p.area, 6);
  expect(panels.map((p) => p.area).sort((a, b) => a - b)).toEqual([
    expect.closeTo(29_000, 6),
    expect.closeTo(60_000, 6),
  ]);
});

test('a mirrored line that stops short of the fold is told how far the fold is', () => {
  const half = piece(rectangle(300, 300), {
    fold: [
      [0, 0],
      [0, 300],
    ],
  });
  const short = (once: boolean) =>
    deriveGarment(
      design(
        [half],
        [
          panelLine(
            [
              [300, 100],
              [3, 100],
            ],
            0,
            { once },
          ),
        ],
      ),
    ).problems.find((p) => p.code === 'line-ends-in-the-open')!.facts;
  expect(short(false)).toMatchObject({ gap: expect.closeTo(3, 9), reach: [expect.closeTo(0, 9), 100] });
  expect(short(true)).toMatchObject({ gap: expect.closeTo(303, 9) });
});
