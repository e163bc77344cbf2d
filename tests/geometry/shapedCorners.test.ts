import { expect, test } from 'vitest';
import {
  type CornerShape,
  type Polyline,
  type Ring,
  asOuterRing,
  directionAt,
  flattenRing,
  nearestOnPath,
  offsetRing,
  pathThrough,
  reversePath,
  signedArea,
  transformPath,
  whereInRing,
} from '../../src/geometry';
import { chordRing, meetings } from '../../src/geometry/simplicity';
import { convexRing, curvedRing, simpleRing, starRing } from './randomRings';
import { randomFrom } from './randomDrawings';

const straight = (...points: Polyline): Ring => pathThrough(points, true);
const rounded = (ring: Ring): number[][] => ring.map((c) => c[0].map((v) => Math.round(v * 1000) / 1000 + 0));
const square = (of: 'before' | 'after', reach: number): CornerShape => ({ kind: 'square end', of, reach });
const mirrored = (across: 'before' | 'after'): CornerShape => ({ kind: 'mirrored', across });

function cut(
  ring: Ring,
  widths: readonly number[],
  corners: readonly (readonly [number, CornerShape])[],
): Ring {
  const found = offsetRing(ring, widths, { corners: new Map(corners) });
  expect(found).toHaveLength(1);
  return found[0]!.ring;
}

const RECTANGLE = straight([0, 0], [100, 0], [100, 200], [0, 200]);

test('at a right angle a square end is the mitre itself', () => {
  const ring = cut(RECTANGLE, [15, 15, 15, 15], [[1, square('before', 15)]]);
  expect(rounded(ring)).toEqual([
    [-15, -15],
    [115, -15],
    [115, 215],
    [-15, 215],
  ]);
});

test('a square end that is agreed to run on farther than the other strip ends in a step', () => {
  const ring = cut(RECTANGLE, [15, 10, 10, 10], [[1, square('before', 16)]]);
  expect(rounded(ring)).toEqual([
    [-10, -15],
    [116, -15],
    [116, 0],
    [110, 0],
    [110, 210],
    [-10, 210],
  ]);
});

test('square ends of a 60° parallelogram: at the sharp corner the point is cut off, at the blunt one cloth is added', () => {
  // by hand: 15 / sin 60° = 17.3205 beyond each end of the top edge, square to it
  const shift = 200 / Math.sqrt(3);
  const ring = cut(
    straight([0, 0], [100, 0], [100 + shift, 200], [shift, 200]),
    [15, 15, 15, 15],
    [
      [1, square('before', 15 / Math.sin(Math.PI / 3))],
      [0, square('after', 15 / Math.sin(Math.PI / 3))],
    ],
  );
  const points = rounded(ring);
  for (const p of [
    [-17.321, -15],
    [117.321, -15],
    [117.321, 0],
    [-17.321, 0],
  ])
    expect(points).toContainEqual(p);
  expect(points).toHaveLength(6);
});

test('the sides of a flared and of a tapered strip are mirrored at its fold', () => {
  // by hand: the side leans 1 in 4, so its cutting line is 15·√17/4 mm out along the fold, and 10 mm nearer or farther 40 mm away from it
  const out = (15 * Math.sqrt(17)) / 4;
  const near = (v: number): number => Math.round(v * 1000) / 1000;
  const atHem = (...points: Polyline): number[][] => {
    const shapes = [
      [2, mirrored('after')],
      [3, mirrored('before')],
    ] as const;
    return rounded(cut(straight(...points), [15, 15, 40, 15], shapes)).filter(([, y]) => y! >= 199.999);
  };
  const sorted = (points: number[][]): number[][] => points.toSorted(([a], [b]) => b! - a!);
  expect(sorted(atHem([0, 0], [100, 0], [150, 200], [-50, 200]))).toEqual([
    [near(150 + out), 200],
    [near(140 + out), 240],
    [near(-40 - out), 240],
    [near(-50 - out), 200],
  ]);
  expect(sorted(atHem([-50, 0], [150, 0], [100, 200], [0, 200]))).toEqual([
    [near(110 + out), 240],
    [near(100 + out), 200],
    [near(-out), 200],
    [near(-10 - out), 240],
  ]);
});

test('mirrored sides that meet before the strip is full end it in their crossing', () => {
  const ring = cut(
    straight([45, 0], [55, 0], [100, 60], [0, 60]),
    [0, 0, 100, 0],
    [
      [2, mirrored('after')],
      [3, mirrored('before')],
    ],
  );
  // by hand: both sides lean 45 in 60 and are 100 apart at the fold: they cross 50 · 60 / 45 mm beyond it
  expect(Math.max(...flattenRing(ring).map((p) => p[1]))).toBeCloseTo(60 + 200 / 3, 6);
});

test('shaped corners lie in the same place on a ring that is turned, mirrored or begun elsewhere', () => {
  const ring = straight([0, 0], [100, 0], [160, 200], [-20, 220]);
  const widths = [15, 12, 40, 15];
  const shapes = [
    [1, square('before', 18)],
    [2, mirrored('after')],
    [3, mirrored('before')],
  ] as const;
  const area = signedArea(cut(ring, widths, shapes));
  const turned = transformPath(ring, [Math.cos(1), Math.sin(1), -Math.sin(1), Math.cos(1), 7, -9]);
  expect(signedArea(cut(turned, widths, shapes))).toBeCloseTo(area, 6);
  const begun = [...ring.slice(2), ...ring.slice(0, 2)];
  const begunShapes = shapes.map(([i, s]) => [(i + 2) % 4, s] as const);
  expect(signedArea(cut(begun, [...widths.slice(2), ...widths.slice(0, 2)], begunShapes))).toBeCloseTo(
    area,
    6,
  );
  const mirror = asOuterRing(transformPath(ring, [-1, 0, 0, 1, 0, 0]));
  expect(mirror).toEqual(reversePath(transformPath(ring, [-1, 0, 0, 1, 0, 0])));
  const swapped = shapes.map(([i, s]): readonly [number, CornerShape] => {
    const other = (w: 'before' | 'after') => (w === 'before' ? 'after' : 'before');
    return [
      (4 - i) % 4,
      s.kind === 'mirrored' ? { ...s, across: other(s.across) } : { ...s, of: other(s.of) },
    ];
  });
  expect(signedArea(cut(mirror, [...widths].reverse(), swapped))).toBeCloseTo(area, 6);
});

const turnAt = (ring: Ring, i: number): number => {
  const [[ux, uy], [vx, vy]] = [directionAt(ring.at(i - 1)!, 1), directionAt(ring[i]!, 0)];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
};

for (const [name, make] of Object.entries({ convexRing, starRing, curvedRing })) {
  test(`whatever corners of random rings (${name}) are shaped, the result is simple and holds the ring`, () => {
    let shaped = 0;
    for (let seed = 1; seed <= 600; seed += 1) {
      const random = randomFrom(seed);
      const ring = simpleRing(make, random);
      const own = 2 + 28 * random();
      const widths = ring.map(() => (random() < 0.6 ? own : 40 * random()));
      const corners = new Map<number, CornerShape>();
      ring.forEach((_, i) => {
        const turn = turnAt(ring, i);
        if (turn < 0.35 || turn > 2.79 || random() < 0.3) return;
        const [before, after] = [widths.at(i - 1)!, widths[i]!];
        const of = random() < 0.5 ? 'before' : 'after';
        const reach = Math.min(
          (of === 'before' ? after : before) / Math.sin(turn),
          4 * Math.max(before, after),
        );
        corners.set(i, random() < 0.5 ? mirrored(of) : square(of, reach * (1 + (random() < 0.3 ? 0.3 : 0))));
      });
      const found = offsetRing(ring, widths, { corners });
      shaped += corners.size;
      expect(meetings(found.map((o) => chordRing(o.ring, 0.02)))).toEqual([]);
      const outer = found[0]!.ring;
      expect(signedArea(outer)).toBeGreaterThan(signedArea(ring) * (1 - 1e-9));
      const points = flattenRing(outer);
      const out = flattenRing(ring).filter(
        (p) => whereInRing(p, points) === 'outside' && nearestOnPath(outer, p).distance > 0.03,
      );
      expect(out, `seed ${seed}`).toEqual([]);
    }
    expect(shaped).toBeGreaterThan(1000);
  });
}
