import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Pt,
  distance,
  flattenRing,
  isInRing,
  nearestOnPath,
  pathLength,
  signedArea,
  startOf,
} from '../../src/geometry';
import { type FoldedShut, type WholePiece, dartLegLengths, foldShut, openOut } from '../../src/pattern';
import { darted } from '../making/dartedPieces';
import { doubleDart, piece, rectangle, dart } from '../making/designs';

const NET = { kind: 'net', outer: 15 } as const;
const RUNS = { seed: 23, numRuns: 200 };
const spots = fc.array(fc.tuple(fc.integer({ min: -200, max: 200 }), fc.integer({ min: -200, max: 200 })), {
  minLength: 15,
  maxLength: 15,
});

const areaOf = (shut: FoldedShut): number => shut.parts.reduce((sum, p) => sum + signedArea(p.ring), 0);

/** Places of the piece well away from its outline and from every line it is parted at. */
function insidePlaces(whole: WholePiece, all: readonly (readonly [number, number])[]): Pt[] {
  const corners = flattenRing(whole.stitching);
  return all
    .map(([x, y]): Pt => [x + 0.37, y + 0.71])
    .filter((p) => isInRing(p, corners) && nearestOnPath(whole.stitching, p).distance > 2);
}

test('shut, a dart’s mouth ends meet, the parts keep their area, and places map there and back', () => {
  let tried = 0;
  fc.assert(
    fc.property(darted(0), spots, (d, all) => {
      const { whole } = openOut(d.piece, NET);
      const placed = whole.darts[0]!;
      const shut = foldShut(whole, placed);
      if (!shut || placed.kind !== 'single') return;
      tried += 1;
      expect(areaOf(shut)).toBeCloseTo(whole.area, 2);
      expect(distance(shut.toShut(placed.mouth[0]), shut.toShut(placed.mouth[1]))).toBeLessThan(1e-6);
      expect(shut.toShut(placed.point)).toEqual(placed.point);
      expect(pathLength(shut.seam)).toBeCloseTo(dartLegLengths(placed)[0]!, 6);
      const wedge = [placed.mouth[0], placed.point, placed.mouth[1]];
      for (const p of insidePlaces(whole, all)) {
        if (isInRing(p, wedge)) expect(nearestOnPath(shut.seam, shut.toShut(p)).distance).toBeLessThan(1e-6);
        else expect(distance(shut.toFlat(shut.toShut(p)), p)).toBeLessThan(1e-6);
      }
    }),
    RUNS,
  );
  expect(tried).toBeGreaterThan(180);
});

test('a straight line drawn over a shut dart meets both legs equally far from the point on the flat piece', () => {
  let crossed = 0;
  fc.assert(
    fc.property(darted(0), fc.double({ min: 0.2, max: 0.9, noNaN: true }), (d, along) => {
      const { whole } = openOut(d.piece, NET);
      const placed = whole.darts[0]!;
      const shut = foldShut(whole, placed);
      if (!shut || placed.kind !== 'single') return;
      const { point, mouth } = placed;
      const foot = startOf(shut.seam);
      const at: Pt = [point[0] + (foot[0] - point[0]) * along, point[1] + (foot[1] - point[1]) * along];
      const u: Pt = [foot[0] - point[0], foot[1] - point[1]];
      const across: Pt = [(-u[1] / Math.hypot(...u)) * 6, (u[0] / Math.hypot(...u)) * 6];
      const line = [
        [
          [at[0] - across[0], at[1] - across[1]],
          [at[0] + across[0], at[1] + across[1]],
        ],
      ] as const;
      const flat = shut.pathToFlat(line);
      expect(flat).toHaveLength(2);
      const inner = [flat[0]!.path.at(-1)!.at(-1)!, flat[1]!.path[0]![0]];
      expect(distance(inner[0]!, point)).toBeCloseTo(distance(inner[1]!, point), 5);
      for (const p of inner)
        expect(Math.min(...mouth.map((m) => nearestOnPath([[point, m]], p).distance))).toBeLessThan(1e-6);
      const back = flat.flatMap((part) => shut.pathToShut(part.path));
      expect(back.reduce((sum, part) => sum + pathLength(part.path), 0)).toBeCloseTo(12, 5);
      crossed += 1;
    }),
    RUNS,
  );
  expect(crossed).toBeGreaterThan(180);
});

test('the slit keeps 60 degrees from the legs and clear of other darts', () => {
  const { whole } = openOut(
    piece(rectangle(300, 400, [-150, -200]), {
      darts: [dart([-10, 200], [0, 60], [10, 200]), dart([60, 200], [70, 90], [80, 200])],
    }),
    NET,
  );
  const shut = foldShut(whole, whole.darts[0]!)!;
  const [from, to] = shut.slit;
  const angle = (p: Pt): number => Math.atan2(p[1] - from[1], p[0] - from[0]);
  for (const m of [
    [-10, 200],
    [10, 200],
  ] as Pt[]) {
    const apart = Math.abs(Math.atan2(Math.sin(angle(to) - angle(m)), Math.cos(angle(to) - angle(m))));
    expect(apart).toBeGreaterThan(Math.PI / 3 - 1e-9);
  }
  // The smaller part turns, and it is the one without the other dart.
  const turned = shut.parts.find((p) => p.turned)!;
  expect(signedArea(turned.ring)).toBeLessThan(signedArea(shut.parts.find((p) => !p.turned)!.ring));
});

test('a double-pointed dart is folded shut end by end, the half of the piece it lies in', () => {
  const { whole } = openOut(
    piece(rectangle(300, 400, [-150, -200]), { darts: [doubleDart([40, -90], [52, 0], [40, 100], [28, 0])] }),
    NET,
  );
  const dart = whole.darts[0]!;
  const [upper, lower] = [foldShut(whole, dart, 0)!, foldShut(whole, dart, 1)!];
  expect(upper.parts).toHaveLength(2);
  expect(areaOf(upper)).toBeCloseTo(300 * 200 - 12 * 90, 4);
  expect(areaOf(lower)).toBeCloseTo(300 * 200 - 12 * 100, 4);
  for (const [shut, way, length] of [
    [upper, -1, 90],
    [lower, 1, 100],
  ] as const) {
    expect(distance(shut.toShut([28, way * 1e-7]), shut.toShut([52, way * 1e-7]))).toBeLessThan(1e-5);
    expect(pathLength(shut.seam)).toBeCloseTo(Math.hypot(12, length), 6);
    const places = [
      [-100, 100],
      [-100, 150],
      [100, 120],
      [100, 50],
      [130, 10],
      [60, 5],
    ] as const;
    for (const [x, y] of places)
      expect(distance(shut.toFlat(shut.toShut([x, way * y])), [x, way * y])).toBeLessThan(1e-6);
  }
});
