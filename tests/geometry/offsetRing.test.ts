import { expect, test } from 'vitest';
import {
  endOfCurve,
  offsetRing,
  pathThrough,
  reversePath,
  signedArea,
  transformPath,
  type Curve,
  type Matrix,
  type OffsetRing,
  type Polyline,
  type Pt,
  type Ring,
} from '../../src/geometry';
import { checkOffset } from '../../src/geometry/checkOffset';

const straight = (...points: Polyline): Ring => pathThrough(points, true);
const rectangle = straight([0, 0], [100, 0], [100, 60], [0, 60]);
const all = (ring: Ring, width: number): number[] => ring.map(() => width);
const corners = (offset: OffsetRing): number[][] =>
  offset.ring.map((c) => c[0].map((v) => Math.round(v * 1000) / 1000 + 0));
const areas = (offsets: readonly OffsetRing[]): number[] => offsets.map((o) => signedArea(o.ring));
const only = (offsets: readonly OffsetRing[]): OffsetRing => {
  expect(offsets).toHaveLength(1);
  return offsets[0]!;
};

/** Circle of four cubics. */
function circle(r: number, [x, y]: Pt = [0, 0]): Ring {
  const k = 0.5522847498 * r;
  const quarter: Curve = [
    [r, 0],
    [r, k],
    [k, r],
    [0, r],
  ];
  const turned = (c: Curve, m: Matrix): Curve => transformPath([c], m)[0]!;
  const turns: Matrix[] = [
    [1, 0, 0, 1, x, y],
    [0, 1, -1, 0, x, y],
    [-1, 0, 0, -1, x, y],
    [0, -1, 1, 0, x, y],
  ];
  return turns.map((m) => turned(quarter, m));
}

test('straight edges move out exactly and meet in mitres, one curve per edge', () => {
  const { ring, origins } = only(offsetRing(rectangle, [15, 10, 40, 0]));
  expect(corners({ ring, origins })).toEqual([
    [0, -15],
    [110, -15],
    [110, 100],
    [0, 100],
  ]);
  expect(origins).toEqual([0, 1, 2, 3]);
});

test('a negative width moves edges inwards', () => {
  expect(corners(only(offsetRing(rectangle, all(rectangle, -15))))).toEqual([
    [15, 15],
    [85, 15],
    [85, 45],
    [15, 45],
  ]);
});

test('widths of 0 all round give the ring back', () => {
  const { ring, origins } = only(offsetRing(rectangle, all(rectangle, 0)));
  expect(ring).toEqual(rectangle);
  expect(origins).toEqual([0, 1, 2, 3]);
});

test('an inset wider than half the ring leaves nothing', () => {
  expect(offsetRing(rectangle, all(rectangle, -30.5))).toEqual([]);
  expect(offsetRing(circle(20), all(circle(20), -21))).toEqual([]);
});

test('an inset falls apart at a narrow waist, largest part first', () => {
  const waisted = straight(
    [0, 0],
    [100, 0],
    [100, 40],
    [130, 40],
    [130, 0],
    [200, 0],
    [200, 100],
    [130, 100],
    [130, 60],
    [100, 60],
    [100, 100],
    [0, 100],
  );
  const found = areas(offsetRing(waisted, all(waisted, -12)));
  expect(found).toHaveLength(2);
  expect(found[0]).toBeCloseTo(76 * 76, 6);
  expect(found[1]).toBeCloseTo(46 * 76, 6);
});

test('for a hole outwards means into the hole', () => {
  const hole = reversePath(rectangle);
  const { ring, origins } = only(offsetRing(hole, [5, 10, 5, 10]));
  expect(signedArea(ring)).toBeCloseTo(-(100 - 10) * (60 - 20), 6); // its first curve is the upright at x = 0
  const outer = only(offsetRing(hole, all(hole, -5)));
  expect(signedArea(outer.ring)).toBeCloseTo(-110 * 70, 6);
  origins.forEach((o, i) => {
    const [source, moved] = [hole[o]!, ring[i]!];
    const along = (c: Curve): Pt => [
      Math.sign(endOfCurve(c)[0] - c[0][0]),
      Math.sign(endOfCurve(c)[1] - c[0][1]),
    ];
    expect(along(moved)).toEqual(along(source));
  });
});

test('a gap that closes up leaves its opening as a ring of negative area', () => {
  const jar = straight(
    [0, 0],
    [100, 0],
    [100, 100],
    [60, 100],
    [60, 80],
    [80, 80],
    [80, 20],
    [20, 20],
    [20, 80],
    [55, 80],
    [55, 100],
    [0, 100],
  );
  expect(areas(offsetRing(jar, all(jar, 5)))).toEqual([110 * 110, -50 * 50]);
});

test('a narrow slot is swallowed and its bottom with it', () => {
  const slotted = straight([0, 0], [100, 0], [100, 100], [60, 100], [60, 20], [40, 20], [40, 100], [0, 100]);
  expect(areas(offsetRing(slotted, all(slotted, 9)))).toEqual([118 * 118 - 2 * 80]);
  expect(areas(offsetRing(slotted, all(slotted, 11)))).toEqual([122 * 122]);
});

test('the width changes along a straight run in a step square to it', () => {
  const run = straight([0, 0], [50, 0], [100, 0], [100, 60], [0, 60]);
  const found = only(offsetRing(run, [10, 25, 10, 10, 10]));
  expect(corners(found)).toEqual([
    [-10, -10],
    [50, -10],
    [50, -25],
    [110, -25],
    [110, 70],
    [-10, 70],
  ]);
});

test('at a blunt corner the wider side keeps its width to its very end', () => {
  const blunt = straight([0, 0], [100, 0], [190, 20], [190, 150], [0, 150]);
  const widths = [40, 10, 10, 10, 10];
  const found = only(offsetRing(blunt, widths));
  expect(checkOffset(blunt, widths, [found])).toEqual([]);
  expect(corners(found)).toContainEqual([100, -40]);
});

test('a step bigger than the neighbouring edge passes over it', () => {
  const run = straight([0, 0], [50, 0], [53, 0], [100, 0], [100, 60], [0, 60]);
  const widths = [10, 0, 40, 10, 10, 10];
  expect(checkOffset(run, widths, offsetRing(run, widths))).toEqual([]);
});

test('a sharp point is cut off square where its mitre would reach past the limit', () => {
  const dart = straight([0, 0], [200, -4], [200, 4]);
  const [w, limit] = [10, 4];
  const spike = straight([0, -20], [200, -10], [0, 0]);
  const { ring } = only(offsetRing(spike, all(spike, w), { mitreLimit: limit }));
  const xs = ring.map((c) => c[0][0]);
  expect(Math.max(...xs)).toBeCloseTo(200 + limit * w, 6);
  expect(ring.filter((c) => Math.abs(c[0][0] - 240) < 1e-6)).toHaveLength(2);
  expect(checkOffset(dart, all(dart, w), offsetRing(dart, all(dart, w)))).toEqual([]);
});

test('the mitre limit counts from the wider of both widths', () => {
  const spike = straight([0, -20], [200, -10], [0, 0]);
  const { ring } = only(offsetRing(spike, [10, 4, 4]));
  const tip = ring.filter((c) => c[0][0] > 200).map((c) => Math.hypot(c[0][0] - 200, c[0][1] + 10));
  expect(Math.max(...tip)).toBeGreaterThanOrEqual(40);
  expect(Math.max(...tip)).toBeLessThan(42);
});

test('a slit of almost no width closes without a trace', () => {
  const slit = straight([0, 0], [100, 0], [100, 50.05], [20, 50], [100, 49.95 + 0.2], [100, 100], [0, 100]);
  const outside = only(offsetRing(slit, all(slit, 10)));
  expect(signedArea(outside.ring)).toBeCloseTo(120 * 120, 6);
  const inside = offsetRing(slit, all(slit, -10));
  expect(checkOffset(slit, all(slit, -10), inside)).toEqual([]);
});

test('edges of 0.02 mm, collinear neighbours and doubled points do no harm', () => {
  const fussy = straight(
    [0, 0],
    [30, 0],
    [30.02, 0],
    [100, 0],
    [100, 0.02],
    [100, 60],
    [99.98, 60.02],
    [0, 60],
  );
  for (const width of [15, -15, 0.5]) {
    expect(checkOffset(fussy, all(fussy, width), offsetRing(fussy, all(fussy, width)))).toEqual([]);
  }
  const doubled: Ring = [
    ...rectangle.slice(0, 2),
    [
      [100, 60],
      [100, 60],
    ],
    [
      [100, 60],
      [100, 60],
      [100, 60],
      [100, 60],
    ],
    ...rectangle.slice(2),
  ];
  expect(areas(offsetRing(doubled, all(doubled, 15)))).toEqual([11700]);
});

test('a circle grows to a circle of few cubics', () => {
  for (const width of [10, -10, 90, -45]) {
    const { ring } = only(offsetRing(circle(50), all(circle(50), width)));
    expect(Math.abs(Math.sqrt(signedArea(ring) / Math.PI) - (50 + width))).toBeLessThan(0.02);
    expect(ring.length).toBeLessThanOrEqual(12);
    expect(checkOffset(circle(50), all(circle(50), width), [{ ring, origins: [] }])).toEqual([]);
  }
});

test('curves that join smoothly stay joined, without mitres in between', () => {
  const { ring, origins } = only(offsetRing(circle(50), all(circle(50), 10)));
  expect(ring.every((c) => c.length === 4)).toBe(true);
  expect(origins.every((o, i) => i === 0 || o >= origins[i - 1]!)).toBe(true);
});

test('a concave curve tighter than the width is swallowed', () => {
  const r = 8;
  const k = 0.5522847498 * r;
  const bitten: Ring = [
    [
      [0, 0],
      [100, 0],
    ],
    [
      [100, 0],
      [100, 60],
    ],
    [
      [100, 60],
      [58, 60],
    ],
    [
      [58, 60],
      [58, 60 - k],
      [50 + k, 52],
      [50, 52],
    ],
    [
      [50, 52],
      [50 - k, 52],
      [42, 60 - k],
      [42, 60],
    ],
    [
      [42, 60],
      [0, 60],
    ],
    [
      [0, 60],
      [0, 0],
    ],
  ];
  for (const width of [4, 7.9, 8, 8.1, 12, 30]) {
    const found = only(offsetRing(bitten, all(bitten, width)));
    expect(checkOffset(bitten, all(bitten, width), [found])).toEqual([]);
  }
  const swallowed = only(offsetRing(bitten, all(bitten, 30)));
  expect(signedArea(swallowed.ring)).toBeGreaterThan(160 * 120 - 1);
});

test('handles of no length, of a hair, and cusps work', () => {
  const odd: Ring = [
    [
      [0, 0],
      [0, 0],
      [60, -30],
      [100, 0],
    ],
    [
      [100, 0],
      [130, 30],
      [100, 100],
      [100, 100],
    ],
    [
      [100, 100],
      [99.9995, 100.0004],
      [40, 120],
      [0, 100],
    ],
    [
      [0, 100],
      [0, 100],
      [0, 0],
      [0, 0],
    ],
  ];
  for (const width of [10, -10, 30]) {
    expect(checkOffset(odd, all(odd, width), offsetRing(odd, all(odd, width)))).toEqual([]);
  }
  const cusped: Ring = [
    [
      [0, 0],
      [100, 80],
      [0, 80],
      [100, 0],
    ],
    [
      [100, 0],
      [100, 200],
    ],
    [
      [100, 200],
      [0, 200],
    ],
    [
      [0, 200],
      [0, 0],
    ],
  ];
  for (const width of [5, -5])
    expect(checkOffset(cusped, all(cusped, width), offsetRing(cusped, all(cusped, width)))).toEqual([]);
});

test('a caller that passes unusable widths or limits is told so', () => {
  expect(() => offsetRing(rectangle, [1, 2, 3])).toThrow(RangeError);
  expect(() => offsetRing(rectangle, [1, 2, 3, NaN])).toThrow('finite');
  expect(() => offsetRing(rectangle, [1, 2, 3, 4], { mitreLimit: 0.5 })).toThrow('mitre limit');
});

test('an empty ring and one without area have no neighbour inside', () => {
  expect(offsetRing([], [])).toEqual([]);
  const flat = straight([0, 0], [100, 0]);
  expect(offsetRing(flat, [-5, -5])).toEqual([]);
});
