import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Pt, distance, endOf, nearestOnPath, startOf } from '../../src/geometry';
import type { DartShape } from '../../src/pattern';
import { mendPath, passagesThrough } from '../../src/panels';

const single = (a: Pt, point: Pt, b: Pt): DartShape => ({ kind: 'single', mouth: [a, b], point, legs: null });

test('a line drawn straight across a dart breaks by the difference of its distances from the point', () => {
  const dart = single([300, 90], [200, 100], [300, 110]);
  const [passage] = passagesThrough(
    [
      [
        [230, 0],
        [270, 300],
      ],
    ],
    dart,
  );
  expect(passage).toBeDefined();
  expect(passage!.gap).toBeCloseTo(
    Math.abs(distance(passage!.enter.point, [200, 100]) - distance(passage!.leave.point, [200, 100])),
    6,
  );
  expect(
    passagesThrough(
      [
        [
          [250, 0],
          [250, 300],
        ],
      ],
      dart,
    )[0]!.gap,
  ).toBeLessThan(1e-9);
});

test('a mended line meets both legs equally far from the point, keeps its ends, and moves by half its break at most', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 0.8, noNaN: true }),
      fc.double({ min: 120, max: 300, noNaN: true }),
      fc.double({ min: 0.3, max: 0.8, noNaN: true }),
      fc.double({ min: -0.35, max: 0.35, noNaN: true }),
      fc.double({ min: 0, max: 6.28, noNaN: true }),
      (angle, reach, where, slant, heading) => {
        const point: Pt = [0, 0];
        const at = (r: number, a: number): Pt => [r * Math.cos(heading + a), r * Math.sin(heading + a)];
        const dart = single(at(reach, -angle / 2), point, at(reach, angle / 2));
        const middle = at(reach * where, 0);
        const along = (s: number): Pt => [
          middle[0] - s * Math.sin(heading + slant),
          middle[1] + s * Math.cos(heading + slant),
        ];
        const path = [[along(-400), along(400)]] as const;
        const before = passagesThrough(path, dart);
        fc.pre(before.length === 1 && before[0]!.gap > 1e-5);
        const mended = mendPath(path, dart);
        const [after] = passagesThrough(mended, dart);
        expect(after!.gap).toBeLessThan(1e-6);
        expect(startOf(mended)).toEqual(path[0][0]);
        expect(endOf(mended)).toEqual(path[0][1]);
        expect(mended).toHaveLength(3);
        for (const c of mended)
          for (const p of [c[0], c.at(-1)!])
            expect(nearestOnPath(path, p).distance).toBeLessThan(before[0]!.gap / 2 + 1e-6);
        expect(mendPath(mended, dart)).toBe(mended);
      },
    ),
    { numRuns: 400, seed: 3 },
  );
});

test('a double-pointed dart crossed on a slant is mended too, and one crossed symmetrically is left alone', () => {
  const dart: DartShape = {
    kind: 'double',
    points: [
      [100, 50],
      [110, 150],
      [100, 250],
      [90, 150],
    ],
    legs: null,
  };
  const flat = [
    [
      [0, 130],
      [200, 130],
    ],
  ] as const;
  expect(mendPath(flat, dart)).toBe(flat);
  const slanted = mendPath(
    [
      [
        [0, 90],
        [200, 170],
      ],
    ],
    dart,
  );
  expect(passagesThrough(slanted, dart)[0]!.gap).toBeLessThan(1e-6);
});

test('a line through the point, or clear of the dart, is left as drawn', () => {
  const dart = single([300, 90], [200, 100], [300, 110]);
  for (const x of [150, 200]) {
    const path = [
      [
        [x, 0],
        [x, 300],
      ],
    ] as const;
    expect(mendPath(path, dart)).toBe(path);
  }
});

test('curved legs are met equally far along both', () => {
  const dart: DartShape = {
    kind: 'single',
    mouth: [
      [300, 85],
      [300, 115],
    ],
    point: [180, 100],
    legs: [
      [
        [
          [300, 85],
          [260, 84],
          [220, 96],
          [180, 100],
        ],
      ],
      [
        [
          [180, 100],
          [220, 104],
          [260, 116],
          [300, 115],
        ],
      ],
    ],
  };
  const mended = mendPath(
    [
      [
        [230, 0],
        [270, 300],
      ],
    ],
    dart,
  );
  expect(passagesThrough(mended, dart)[0]!.gap).toBeLessThan(1e-3);
});
