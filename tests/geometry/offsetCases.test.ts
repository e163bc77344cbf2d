import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  asOuterRing,
  offsetRing,
  signedArea,
  transformPath,
  type Matrix,
  type OffsetRing,
  type Ring,
} from '../../src/geometry';
import { checkOffset } from '../../src/geometry/checkOffset';
import { combRing, convexRing, curvedRing, simpleRing, someWidths, starRing } from './randomRings';
import { randomFrom } from './randomDrawings';

const areas = (offsets: readonly OffsetRing[]): number[] => offsets.map((o) => signedArea(o.ring));

/** How long one test may take on a busy machine, ms. */
const PATIENCE = 60_000;
const makers = { convexRing, starRing, combRing, curvedRing };
test.each(Object.entries(makers))(
  'random rings (%s) keep every distance, in and out, one width or many',
  (_, make) => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const random = randomFrom(seed);
      const ring = simpleRing(make, random);
      const widths = someWidths(random, ring);
      const result = offsetRing(ring, widths);
      expect({ seed, faults: checkOffset(ring, widths, result, { every: 15 }) }).toEqual({
        seed,
        faults: [],
      });
    }
  },
  PATIENCE,
);

test('the same ring gives the same bytes, and another start the same shape', () => {
  const random = randomFrom(77);
  for (let i = 0; i < 20; i += 1) {
    const ring = simpleRing(curvedRing, random);
    const widths = someWidths(random, ring);
    const first = offsetRing(ring, widths);
    expect(JSON.stringify(offsetRing(ring, widths))).toBe(JSON.stringify(first));
    const k = Math.floor(ring.length / 2);
    const rolled = offsetRing(
      [...ring.slice(k), ...ring.slice(0, k)],
      [...widths.slice(k), ...widths.slice(0, k)],
    );
    areas(rolled).forEach((a, j) =>
      expect(Math.abs(a - areas(first)[j]!)).toBeLessThan(0.5 + 1e-4 * Math.abs(a)),
    );
  }
});

interface Case {
  readonly situation: string;
  readonly ring: Ring;
  readonly widths: readonly number[];
}

const folder = new URL('../cases/offset/', import.meta.url);
const cases = readdirSync(folder).map(
  (file) => JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as Case,
);
const ways: readonly { readonly name: string; readonly matrix: Matrix; readonly scale: number }[] = [
  { name: 'as found', matrix: [1, 0, 0, 1, 0, 0], scale: 1 },
  { name: 'mirrored', matrix: [-1, 0, 0, 1, 0, 0], scale: 1 },
  {
    name: 'turned by 37°',
    matrix: [Math.cos(0.6458), Math.sin(0.6458), -Math.sin(0.6458), Math.cos(0.6458), 300, -200],
    scale: 1,
  },
  { name: 'half as big', matrix: [0.5, 0, 0, 0.5, 0, 0], scale: 0.5 },
];

/** The case moved, kept a ring of positive area, its widths with it. */
function transformed(c: Case, matrix: Matrix, scale: number): { ring: Ring; widths: number[] } {
  const moved = transformPath(c.ring, matrix);
  const ring = asOuterRing(moved);
  const widths = c.widths.map((w) => w * scale);
  return { ring, widths: ring === moved ? widths : widths.reverse() };
}

test.each(cases)(
  'case: $situation',
  (c) => {
    for (const { name, matrix, scale } of ways) {
      const { ring, widths } = transformed(c, matrix, scale);
      for (const start of [0, 1, ring.length - 1]) {
        const rolled = [...ring.slice(start), ...ring.slice(0, start)];
        const rolledWidths = [...widths.slice(start), ...widths.slice(0, start)];
        const faults = checkOffset(rolled, rolledWidths, offsetRing(rolled, rolledWidths), {
          every: 8 * scale,
        });
        expect({ name, start, faults }).toEqual({ name, start, faults: [] });
      }
    }
  },
  PATIENCE,
);
