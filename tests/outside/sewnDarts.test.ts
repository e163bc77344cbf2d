/**
 * Darts closed in panels, held against Clipper 2 (clipper2-ts, a general-purpose geometry library from the registry) and plain complex numbers:
 * the parts of a bodice cut apart by hand, one of them turned, joined by the library. The bodices are invented.
 * Facts: the angle at the point is what a dart takes in, and a line that takes it must reach its point (encyclopedia "Dart (sewing)"; ICAR
 * e-course, dart lesson); both edges of a seam agree to 1/16 in (Threads no. 200).
 */
import { Clipper, FillRule } from 'clipper2-ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { dart, design, panelLine, piece, ringThrough } from '../making/designs';

type Point = readonly [number, number];

/** Integers for the library: a ten-thousandth of a mm. */
const GRID = 10_000;
const onGrid = (points: readonly Point[]) =>
  points.map(([x, y]) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) }));

/** Area that lies in one of the shapes only, mm². */
function differenceOf(ours: readonly Point[], parts: readonly (readonly Point[])[]): number {
  const union = Clipper.union(parts.map(onGrid), [], FillRule.NonZero);
  const xor = Clipper.xor([onGrid(ours)], union, FillRule.NonZero);
  return xor.reduce((sum, p) => sum + Math.abs(Clipper.area(p)), 0) / GRID ** 2;
}

const away = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
const along = (a: Point, b: Point, t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];

/** (p − about) · e^{i angle} + about */
const turned = ([x, y]: Point, [cx, cy]: Point, angle: number): Point => [
  cx + (x - cx) * Math.cos(angle) - (y - cy) * Math.sin(angle),
  cy + (x - cx) * Math.sin(angle) + (y - cy) * Math.cos(angle),
];

const shoelace = (points: readonly Point[]): number =>
  points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return sum + (x * v - y * u) / 2;
  }, 0);

/** Distance from the point at which an upright line at x meets the leg from the point to the mouth end. */
const metAt = (x: number, point: Point, mouth: Point): number =>
  away(point, mouth) * ((x - point[0]) / (mouth[0] - point[0]));

const bodices = fc.record({
  lean: fc.double({ min: -40, max: 40, noNaN: true }),
  x: fc.double({ min: 120, max: 200, noNaN: true }),
  down: fc.double({ min: 0.3, max: 0.7, noNaN: true }),
  half: fc.double({ min: 5, max: 22, noNaN: true }),
  beside: fc.double({ min: 2, max: 24, noNaN: true }),
});

test('a panel whose dart is closed by a line beside the point is the union of its parts, one turned about the point', () => {
  fc.assert(
    fc.property(bodices, ({ lean, x, down, half, beside }) => {
      const [top, bottom]: [Point, Point] = [
        [300, 0],
        [300 + lean, 400],
      ];
      const point: Point = [x, down * 400];
      // legs of equal length: the mouth lies evenly about the foot of the point on the edge
      const [ex, ey] = [bottom[0] - top[0], bottom[1] - top[1]];
      const foot = ((point[0] - top[0]) * ex + (point[1] - top[1]) * ey) / (ex * ex + ey * ey);
      const step = half / away(top, bottom);
      const mouth = [along(top, bottom, foot - step), along(top, bottom, foot + step)] as const;
      const px = x + beside;
      const outline = ringThrough([[0, 0], top, bottom, [0, 400]]);
      const d = dart(mouth[0], point, mouth[1], { treatment: { kind: 'close', remainder: 'ease' } });
      const garment = deriveGarment(
        design(
          [piece(outline, { darts: [d] })],
          [
            panelLine(
              [
                [px, -5],
                [px, 405],
              ],
              0,
            ),
          ],
        ),
      );
      const closed = garment.panels.find((p) => p.closings.some((c) => c.how === 'closed'))!;
      expect(closed).toBeDefined();

      // by hand: the line meets both legs at the mean of the two distances, and runs straight from there to its ends
      const out = (metAt(px, point, mouth[0]) + metAt(px, point, mouth[1])) / 2;
      const onLeg = mouth.map((m) => along(point, m, out / away(point, m))) as [Point, Point];
      const edgeAt = (far: Point, from: Point, y: number): Point =>
        along(from, far, (y - from[1]) / (far[1] - from[1]));
      const a = edgeAt([px, -5], onLeg[0], 0);
      const b = edgeAt([px, 405], onLeg[1], 400);
      const upper: Point[] = [a, top, mouth[0], onLeg[0]];
      const lower: Point[] = [onLeg[1], mouth[1], bottom, b];
      const angle =
        Math.atan2(mouth[1][1] - point[1], mouth[1][0] - point[0]) -
        Math.atan2(mouth[0][1] - point[1], mouth[0][0] - point[0]);
      const upperTurns = Math.abs(shoelace(upper)) < Math.abs(shoelace(lower));
      const parts = upperTurns
        ? [upper.map((p) => turned(p, point, angle)), lower]
        : [upper, lower.map((p) => turned(p, point, -angle))];
      const difference = differenceOf(
        closed.ring.map((c) => c[0]),
        parts,
      );
      expect(difference).toBeLessThan(0.02);
      expect(closed.area).toBeCloseTo(Math.abs(shoelace(upper)) + Math.abs(shoelace(lower)), 3);
      expect((closed.closings[0]!.angle * 180) / Math.PI).toBeCloseTo((angle * 180) / Math.PI, 6);

      // what is eased in on the other side is the chord of the wedge where the line crosses it
      const [seam] = garment.seams;
      const chord = 2 * out * Math.sin(angle / 2);
      expect(seam!.eased[0]!.width).toBeCloseTo(chord, 3);
      expect(Math.abs(seam!.lengthA - seam!.lengthB)).toBeCloseTo(chord, 3);
    }),
    { numRuns: 150, seed: 5 },
  );
});

test('seams over a closed dart agree far within the trade’s 1/16 in but for the ease that is told', () => {
  const d = dart([300, 90], [200, 100], [300, 110], { treatment: { kind: 'close', remainder: 'ease' } });
  const outline = ringThrough([
    [0, 0],
    [300, 0],
    [300, 400],
    [0, 400],
  ]);
  for (const px of [200, 201, 205, 210, 220]) {
    const [seam] = deriveGarment(
      design(
        [piece(outline, { darts: [d] })],
        [
          panelLine(
            [
              [px, 0],
              [px, 400],
            ],
            0,
          ),
        ],
      ),
    ).seams;
    const told = seam!.eased.reduce((sum, e) => sum + e.width, 0);
    expect(Math.abs(Math.abs(seam!.lengthA - seam!.lengthB) - told)).toBeLessThan(25.4 / 16 / 1000);
  }
});
