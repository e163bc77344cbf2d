import { expect, test } from 'vitest';
import { SEEN_APART } from '../../src/allowance';
import { deriveGarment } from '../../src/garment';
import type { Pt } from '../../src/geometry';
import type { Design } from '../../src/pattern';
import { lined, rectangle } from '../making/designs';
import { backwards, isAlike, placesOf } from './placesOf';

const grid = (columns: number, rows: number, width: number, height: number): Design =>
  lined(rectangle(columns * width, rows * height), [
    ...Array.from({ length: columns - 1 }, (_, i): Pt[] => [
      [(i + 1) * width, 0],
      [(i + 1) * width, rows * height],
    ]),
    ...Array.from({ length: rows - 1 }, (_, i): Pt[] => [
      [0, (i + 1) * height],
      [columns * width, (i + 1) * height],
    ]),
  ]);

test.each([
  ['3 by 3 squares', grid(3, 3, 100, 100)],
  ['4 by 4 squares', grid(4, 4, 100, 100)],
  ['5 by 5 squares', grid(5, 5, 140, 140)],
  ['5 by 5 small squares', grid(5, 5, 80, 80)],
  ['4 by 4 rectangles', grid(4, 4, 120, 80)],
  ['8 stripes of one width', grid(1, 8, 400, 60)],
  ['12 stripes of one width', grid(12, 1, 50, 700)],
])('no two seams of %s can be taken for each other', (_, d) => {
  const garment = deriveGarment(d);
  const all = garment.seams.map((s) => ({ length: s.lengthA, places: placesOf(garment, s) }));
  all.forEach((p, i) => {
    expect(p.places.length).toBeGreaterThanOrEqual(2);
    for (const q of all.slice(i + 1)) {
      if (Math.abs(p.length - q.length) > 8) continue;
      expect(isAlike(p.places, q.places)).toBe(false);
      expect(isAlike(backwards(p.places, p.length), q.places)).toBe(false);
    }
  });
});

/** The eight ways to lay a square down, as moves of the plane about its middle. */
const WAYS = [1, -1].flatMap((flip) =>
  [0, 1, 2, 3].map((quarter) => ([x, y]: Pt): Pt => {
    const [c, s] = [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ][quarter] as [number, number];
    return [c * x * flip - s * y, s * x * flip + c * y];
  }),
);

test('no square panel fits where it does not belong, or on itself turned or turned over: its marks tell', () => {
  const garment = deriveGarment(grid(4, 4, 100, 100));
  const marks = garment.cutPieces.map(({ notches, stitching }) => {
    const corners = stitching.map((c) => c[0]);
    const middle = [0, 1].map((k) => corners.reduce((sum, p) => sum + p[k]!, 0) / corners.length);
    return notches.map((n) => ({ at: [n.at[0] - middle[0]!, n.at[1] - middle[1]!] as Pt, marks: n.marks }));
  });
  const fits = (p: (typeof marks)[number], q: (typeof marks)[number], way: (at: Pt) => Pt): boolean =>
    p.length === q.length &&
    p.every((m) => {
      const to = way(m.at);
      return q.some((n) => n.marks === m.marks && Math.hypot(n.at[0] - to[0], n.at[1] - to[1]) < SEEN_APART);
    });
  marks.forEach((p, i) =>
    marks.forEach((q, k) =>
      WAYS.forEach((way, w) => expect(fits(p, q, way), `${i} ${k} ${w}`).toBe(i === k && w === 0)),
    ),
  );
});

test('on squares of 40 mm, too short for so many patterns, seams of one panel differ wherever they can', () => {
  const garment = deriveGarment(grid(3, 3, 40, 40));
  const all = garment.seams.map((s) => ({ seam: s, places: placesOf(garment, s) }));
  let alike = 0;
  all.forEach((p, i) => {
    expect(p.places.length).toBeGreaterThanOrEqual(1);
    expect(isAlike(p.places, backwards(p.places, p.seam.lengthA))).toBe(false);
    for (const q of all.slice(i + 1)) {
      const shared = [p.seam.a, p.seam.b].some((id) => id === q.seam.a || id === q.seam.b);
      const same = isAlike(p.places, q.places) || isAlike(backwards(p.places, p.seam.lengthA), q.places);
      if (shared && same) alike += 1;
    }
  });
  // patterns that fit on 40 mm are few: at most one pair of sides of one panel is left alike
  expect(alike).toBeLessThanOrEqual(1);
});
