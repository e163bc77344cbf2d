import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { curveCuts, lengthOffGrain, offGrainAngle, tellStep } from '../../src/garment/telling';
import { type Path, type Pt, pathThrough, reversePath } from '../../src/geometry';
import { lined, rectangle } from '../making/designs';

const square = [
  [0, 0],
  [0, 100],
] as const;

/** A quarter of a circle as a boundary in ring order: rounded where the cloth lies inside the circle. */
function quarter(radius: number): Path {
  const k = (4 / 3) * (Math.SQRT2 - 1) * radius;
  return [
    [
      [radius, 0],
      [radius, k],
      [k, radius],
      [0, radius],
    ],
  ];
}

// Concave allowance (too short): clip; convex (too full): notch wedges; stop about 1/8 in from the stitching; closer on tighter curves:
// sewingsupport.com; itch-to-stitch.com; booandlu.com (n.d.).
// By hand: a quarter circle of radius 80 with 15 mm allowance is 125.7 mm long. Outside it the cut edge has radius 95 and is 149.2 mm
// long, too full; inside it has radius 65 and is 102.1 mm, too short.
test('of the two edges of a curve the rounded one is notched and the hollow one clipped', () => {
  const rounded = curveCuts(quarter(80), 15);
  const hollow = curveCuts(reversePath(quarter(80)), 15);
  expect(rounded.map((c) => c.kind)).toEqual(['notch']);
  expect(hollow.map((c) => c.kind)).toEqual(['clip']);
  for (const [cut] of [rounded, hollow]) {
    expect(cut!.length).toBeCloseTo((Math.PI / 2) * 80, 1);
    expect(cut!.radius).toBeGreaterThan(79);
    expect(cut!.radius).toBeLessThan(81);
    expect(cut!.count).toBe(Math.round(cut!.length / cut!.spacing));
  }
});

test('cuts come closer on tighter curves; flat curves and straight edges need none', () => {
  const spacing = [40, 60, 90, 130].map((r) => curveCuts(quarter(r), 15)[0]!.spacing);
  expect(spacing).toEqual(spacing.toSorted((a, b) => a - b));
  expect(new Set(spacing).size).toBe(4);
  expect(curveCuts(quarter(600), 15)).toEqual([]);
  expect(
    curveCuts(
      pathThrough(
        [
          [0, 0],
          [100, 0],
        ],
        false,
      ),
      15,
    ),
  ).toEqual([]);
});

test('a curved seam tells which panel is clipped before pinning and which is notched after sewing', () => {
  const curve: Path = [
    [
      [0, 150],
      [60, 80],
      [100, 80],
      [150, 150],
    ],
    [
      [150, 150],
      [200, 220],
      [240, 220],
      [300, 150],
    ],
  ];
  const garment = deriveGarment(lined(rectangle(300, 300), [curve]));
  const [step] = garment.plan.steps.filter((s) => s.kind === 'seam');
  const { parts } = tellStep(garment, step!);
  const clip = parts.findIndex((p) => p.topic === 'clip' && /clip into the allowances? of/.test(p.text));
  const lay = parts.findIndex((p) => p.topic === 'lay');
  const notch = parts.findIndex((p) => p.topic === 'clip' && /wedges out of the allowances? of/.test(p.text));
  expect(clip).toBeGreaterThanOrEqual(0);
  expect(clip).toBeLessThan(lay);
  expect(notch).toBeGreaterThan(parts.findIndex((p) => p.topic === 'sew'));
  // an S-shaped seam is hollow for the one panel where it is rounded for the other: each is clipped once and notched once
  for (const index of [clip, notch])
    expect(parts[index]!.text).toMatch(/allowances of [12] \(chalk\) and [12] \(chalk\)/);
});

test('an edge counts as off the grain from 20 degrees off both warp and weft', () => {
  const at = (degrees: number): Pt => [
    Math.sin((degrees * Math.PI) / 180),
    Math.cos((degrees * Math.PI) / 180),
  ];
  const line = (degrees: number): Path => [
    [
      [0, 0],
      [at(degrees)[0] * 200, at(degrees)[1] * 200],
    ],
  ];
  for (const [degrees, off] of [
    [0, 0],
    [19, 0],
    [21, 200],
    [45, 200],
    [69, 200],
    [71, 0],
    [90, 0],
    [-30, 200],
    [160.5, 0],
    [159, 200],
  ] as const)
    expect([degrees, Math.round(lengthOffGrain(line(degrees), square))]).toEqual([degrees, off]);
  expect(offGrainAngle(at(45), square)).toBeCloseTo(Math.PI / 4, 9);
});

test('a seam on the bias is held: its panels are named', () => {
  const garment = deriveGarment(
    lined(rectangle(300, 300), [
      [
        [0, 0],
        [300, 300],
      ],
    ]),
  );
  const grain = tellStep(garment, garment.plan.steps[0]!).parts.filter((p) => p.topic === 'grain');
  expect(grain.map((p) => p.text).join(' ')).toMatch(/edges of 1 and 2 run off the grain for about 42\.4 cm/);
});
