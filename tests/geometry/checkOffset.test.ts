import { expect, test } from 'vitest';
import {
  offsetRing,
  pathThrough,
  transformPath,
  type OffsetRing,
  type Polyline,
  type Ring,
} from '../../src/geometry';
import { checkOffset } from '../../src/geometry/checkOffset';

const straight = (...points: Polyline): Ring => pathThrough(points, true);
const ring = straight([0, 0], [200, 0], [200, 120], [0, 120]);
const bulged: Ring = [
  [
    [0, 0],
    [60, -30],
    [140, -30],
    [200, 0],
  ],
  ...ring.slice(1),
];
const all = (width: number): number[] => [width, width, width, width];
const offset = (r: Ring): OffsetRing => ({ ring: r, origins: r.map((_, i) => i) });
const kinds = (source: Ring, widths: readonly number[], result: readonly OffsetRing[]): string[] => [
  ...new Set(checkOffset(source, widths, result).map((f) => f.kind)),
];

test('a right offset has no faults', () => {
  expect(checkOffset(bulged, all(15), offsetRing(bulged, all(15)))).toEqual([]);
  expect(checkOffset(bulged, all(-15), offsetRing(bulged, all(-15)))).toEqual([]);
});

test('a border too near is found where it is, and by how much', () => {
  const dented = straight([-15, -15], [215, -15], [215, 135], [100, 135], [90, 128], [80, 135], [-15, 135]);
  const [worst] = checkOffset(ring, all(15), [offset(dented)], { every: 1 });
  expect(worst?.kind).toBe('too near the source');
  expect(worst?.by).toBeCloseTo(7, 0);
  expect(worst?.at[0]).toBeCloseTo(90, 0);
});

test('a border too far out is found', () => {
  const knobbed = straight([-15, -15], [215, -15], [215, 135], [100, 135], [90, 145], [80, 135], [-15, 135]);
  expect(kinds(ring, all(15), [offset(knobbed)])).toContain('too far from the source');
});

test('a parallel curve half a millimetre off is found', () => {
  const [good] = offsetRing(bulged, all(15));
  const shifted = transformPath(good!.ring, [1, 0, 0, 1, 0, -0.5]);
  expect(kinds(bulged, all(15), [offset(shifted)])).toEqual(
    expect.arrayContaining(['too near the source', 'too far from the source', 'parallel is missing']),
  );
});

test('a missing ring, an inset on the wrong side and a source that sticks out are found', () => {
  expect(kinds(ring, all(-15), [])).toEqual(['parallel is missing']);
  expect(kinds(ring, all(-15), offsetRing(ring, all(15)))).toContain('on the wrong side of the source');
  const half = straight([-15, -15], [100, -15], [100, 135], [-15, 135]);
  expect(kinds(ring, all(15), [offset(half)])).toContain('source sticks out');
});

test('a ring that crosses itself or does not join up is found', () => {
  const bow = straight([-15, -15], [215, 135], [215, -15], [-15, 135]);
  expect(kinds(ring, all(15), [offset(bow)])).toContain('meets itself');
  const [good] = offsetRing(ring, all(15));
  const open = [
    ...good!.ring.slice(0, 3),
    [
      [-15, 135],
      [-15, -14],
    ] as const,
  ];
  expect(kinds(ring, all(15), [offset(open)])).toContain('does not join up');
});

test('a lost opening is found', () => {
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
  const widths = jar.map(() => 5);
  const [outer] = offsetRing(jar, widths);
  expect(kinds(jar, widths, [outer!])).toEqual(['parallel is missing']);
});

test('a mitre that should have been cut off is found', () => {
  const spike = straight([0, -20], [200, -10], [0, 0]);
  const widths = [10, 10, 10];
  expect(kinds(spike, widths, offsetRing(spike, widths, { mitreLimit: 8 }))).toContain(
    'too far from the source',
  );
  expect(checkOffset(spike, widths, offsetRing(spike, widths, { mitreLimit: 8 }), { mitreLimit: 8 })).toEqual(
    [],
  );
});
