/**
 * Straight lines through cubics, against paper.js 0.12.20, a reference library from the registry whose intersection code
 * (fat-line clipping) shares nothing with ours (turning points and bisection).
 */
import fc from 'fast-check';
import paper from 'paper/dist/paper-core';
import { beforeAll, expect, test } from 'vitest';
import { crossStraight, unit, type Cubic, type Pt } from '../../src/geometry';

beforeAll(() => paper.setup(new paper.Size(1, 1)));

const FAR = 2000;
// evenly spread: points lying on each other are a matter of definition, not of comparison
const mm = fc.noShrink(fc.noBias(fc.integer({ min: -300_000, max: 300_000 }))).map((n) => n / 1000);
const pt = fc.tuple(mm, mm);

function paperCrossings([a, b, c, d]: Cubic, o: Pt, [ux, uy]: Pt): Pt[] {
  const curve = new paper.Path({
    segments: [
      [[...a], [0, 0], [b[0] - a[0], b[1] - a[1]]],
      [[...d], [c[0] - d[0], c[1] - d[1]], [0, 0]],
    ],
    insert: false,
  });
  const line = new paper.Path({
    segments: [
      [o[0] - FAR * ux, o[1] - FAR * uy],
      [o[0] + FAR * ux, o[1] + FAR * uy],
    ],
    insert: false,
  });
  return curve.getIntersections(line).map(({ point }): Pt => [point.x, point.y]);
}

test('1,000 random cubics are met by straight lines where paper.js meets them, and as often', () => {
  let crossings = 0;
  fc.assert(
    fc.property(fc.tuple(pt, pt, pt, pt), pt, pt, (cubic, o, towards) => {
      fc.pre(Math.hypot(towards[0], towards[1]) > 1);
      const direction = unit(towards);
      const ours = crossStraight([cubic], o, direction);
      const theirs = paperCrossings(cubic, o, direction);
      expect(ours.length).toBe(theirs.length);
      for (const { point } of ours) {
        const near = Math.min(...theirs.map((p) => Math.hypot(p[0] - point[0], p[1] - point[1])));
        expect(near).toBeLessThan(1e-4);
      }
      crossings += ours.length;
    }),
    { seed: 2026, numRuns: 1000 },
  );
  console.log(`compared ${crossings} crossings`);
  expect(crossings).toBeGreaterThan(300);
});

test('every crossing lies on the straight line and in order along it', () => {
  fc.assert(
    fc.property(fc.tuple(pt, pt, pt, pt), pt, (cubic, o) => {
      const found = crossStraight([cubic], o, [0.6, 0.8]);
      for (const { point, along } of found) {
        expect(Math.hypot(o[0] + 0.6 * along - point[0], o[1] + 0.8 * along - point[1])).toBeLessThan(1e-6);
      }
      expect(found.map(({ along }) => along)).toEqual(found.map(({ along }) => along).sort((a, b) => a - b));
    }),
    { seed: 4, numRuns: 500 },
  );
});
