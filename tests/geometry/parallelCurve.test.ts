import { expect, test } from 'vitest';
import {
  curvatureAt,
  directionAt,
  endOfCurve,
  flattenPath,
  isCubic,
  pointAt,
  type Cubic,
  type Curve,
  type Pt,
} from '../../src/geometry';
import { parallelCurve } from '../../src/geometry/parallelCurve';
import { OFFSET_FIT } from '../../src/geometry';
import { randomFrom } from './randomDrawings';

const besideStart = (c: Curve, w: number): Pt => {
  const [d, p] = [directionAt(c, 0), c[0]];
  return [p[0] + d[1] * w, p[1] - d[0] * w];
};

/** Distance from p to a curve by close chords: shares no search with the code under test. */
function distanceByChords(c: Curve, [x, y]: Pt): number {
  const points = flattenPath([c], 1e-4).points;
  let least = Infinity;
  for (let k = 1; k < points.length; k += 1) {
    const [[ax, ay], [bx, by]] = [points[k - 1]!, points[k]!];
    const l2 = (bx - ax) ** 2 + (by - ay) ** 2;
    const t = l2 > 0 ? Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / l2)) : 0;
    least = Math.min(least, Math.hypot(ax + t * (bx - ax) - x, ay + t * (by - ay) - y));
  }
  return least;
}

function randomCubic(random: () => number): Cubic {
  const point = (): Pt => [random() * 300, random() * 300];
  const c: Cubic = [point(), point(), point(), point()];
  const kind = random();
  if (kind < 0.1) return [c[0], c[0], c[2], c[3]];
  if (kind < 0.2) return [c[0], c[1], c[3], c[3]];
  return c;
}

test('the parallel of a line is exact', () => {
  expect(
    parallelCurve(
      [
        [0, 0],
        [30, 40],
      ],
      10,
    ),
  ).toEqual({
    pieces: [
      [
        [8, -6],
        [38, 34],
      ],
    ],
    swallows: false,
  });
});

test('wild cubics, loops and hairpins included, are followed within the promised distance', () => {
  const random = randomFrom(5);
  for (let i = 0; i < 250; i += 1) {
    const c = randomCubic(random);
    const width = (random() - 0.4) * 60;
    const { pieces } = parallelCurve(c, width);
    for (const piece of pieces.filter(isCubic)) {
      for (const t of [0.1, 0.25, 0.4, 0.5, 0.65, 0.8, 0.95]) {
        const away = distanceByChords(c, pointAt(piece, t)) - Math.abs(width);
        expect({ i, t, isFar: away > OFFSET_FIT }).toEqual({ i, t, isFar: false });
      }
    }
  }
}, 60_000);

test('pieces join end to start, begin square to the curve and run in its direction', () => {
  const random = randomFrom(6);
  for (let i = 0; i < 200; i += 1) {
    const c = randomCubic(random);
    const { pieces, swallows } = parallelCurve(c, 10);
    pieces.slice(1).forEach((p, k) => expect(p[0]).toBe(endOfCurve(pieces[k]!)));
    if (swallows) continue;
    const start = besideStart(c, 10);
    expect(Math.hypot(pieces[0]![0][0] - start[0], pieces[0]![0][1] - start[1])).toBeLessThan(1e-6);
    const [d, e] = [directionAt(c, 0), directionAt(pieces[0]!, 0)];
    expect(d[0] * e[0] + d[1] * e[1]).toBeGreaterThan(0.999);
  }
});

test('gentle garment curves need one cubic, a half turn no more than four', () => {
  const hip: Cubic = [
    [0, 0],
    [10, 60],
    [12, 140],
    [0, 200],
  ];
  expect(parallelCurve(hip, 10).pieces).toHaveLength(1);
  expect(parallelCurve(hip, -10).pieces).toHaveLength(1);
  const armhole: Cubic = [
    [0, 0],
    [0, 90],
    [100, 90],
    [100, 0],
  ];
  expect(parallelCurve(armhole, 15).pieces.length).toBeLessThanOrEqual(4);
});

test('a bend tighter than the width is replaced along the centres of curvature', () => {
  const tight: Cubic = [
    [0, 0],
    [40, 30],
    [60, 30],
    [100, 0],
  ];
  const width = Math.sign(-curvatureAt(tight, 0.5)) * 200;
  const { pieces, swallows } = parallelCurve(tight, width);
  expect(swallows).toBe(true);
  for (const piece of pieces.filter((p) => !isCubic(p)))
    expect(distanceByChords(tight, piece[0])).toBeLessThan(200.001);
});

test('a straight cubic without handles has a straight parallel', () => {
  const c: Cubic = [
    [17.41, 231.25],
    [17.41, 231.25],
    [-148.4, 96.67],
    [-148.4, 96.67],
  ];
  const { pieces, swallows } = parallelCurve(c, -32.9);
  expect(swallows).toBe(false);
  for (const piece of pieces) expect(distanceByChords(c, pointAt(piece, 0.5))).toBeCloseTo(32.9, 6);
});
