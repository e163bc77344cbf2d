import { expect, test } from 'vitest';
import { checkGarment, deriveGarment } from '../../src/garment';
import { type Pt, distance, nearestOnPath, pathLength } from '../../src/geometry';
import {
  type DartChoice,
  dartChoices,
  dartOutcome,
  routeThrough,
  swingChoices,
  treatDart,
} from '../../src/panels';
import type { Design, PieceId } from '../../src/pattern';
import { dart, design, panelLine, piece, rectangle } from '../making/designs';

const FRONT = 'front' as PieceId;
const BUST = dart([300, 90], [200, 100], [300, 110]);

const withLine = (...points: Pt[]): Design =>
  design([piece(rectangle(300, 400), { darts: [BUST] })], [panelLine(points, 0)]);
const kinds = (d: Design): string[] => dartChoices(d, FRONT, 0).map((c) => c.kind);
const choice = (d: Design, kind: DartChoice['kind']): DartChoice =>
  dartChoices(d, FRONT, 0).find((c) => c.kind === kind)!;

test('a line within 25 mm of the point is offered to be led through it, one farther off is not', () => {
  // about one inch: a dart lesson handout after a college text (the digit from memory)
  expect(kinds(withLine([176, 0], [176, 400]))).toEqual(['keep', 'through']);
  expect(kinds(withLine([174, 0], [174, 400]))).toEqual(['keep']);
});

test('a line across the dart may swallow it with ease or a short dart, or be led through its point', () => {
  expect(kinds(withLine([230, 0], [230, 400]))).toEqual(['keep', 'swallow', 'swallow', 'through']);
});

test('a line that ends in the mouth is led down the middle of the dart', () => {
  const d = withLine([0, 100], [300, 104]);
  expect(kinds(d)).toContain('through');
  const after = choice(d, 'through').apply(d);
  const { path } = after.lines[0]!;
  expect(nearestOnPath(path, [200, 100]).distance).toBeLessThan(1e-9);
  expect(distance(path.at(-1)!.at(-1)!, [300, 100])).toBeLessThan(15);
  const garment = deriveGarment(after);
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.panels.every((p) => p.darts.length === 0)).toBe(true);
});

test('taking the offered cure leaves no dart, equal seams and the line’s ends where they were', () => {
  const d = withLine([210, 0], [210, 400]);
  const after = choice(d, 'through').apply(d);
  const garment = deriveGarment(after);
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.panels.flatMap((p) => p.darts)).toEqual([]);
  expect(garment.seams[0]!.lengthA).toBeCloseTo(garment.seams[0]!.lengthB, 6);
  const { path } = after.lines[0]!;
  expect([path[0]![0], path.at(-1)!.at(-1)]).toEqual([
    [210, 0],
    [210, 400],
  ]);
  expect(dartOutcome(after, FRONT, 0)).toMatchObject({ sewn: [], eased: 0 });
  expect(dartOutcome(after, FRONT, 0)!.swallowed).toBeCloseTo(2 * Math.atan(0.1), 9);
  expect(dartChoices(after, FRONT, 0).find((c) => c.apply(after) === after)?.kind).toBe('swallow');
});

test('a line that stops at the point is led on down the dart, which makes a seam of both', () => {
  const d = withLine([0, 100], [200, 100]);
  expect(kinds(d)).toEqual(['keep', 'through']);
  const garment = deriveGarment(choice(d, 'through').apply(d));
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.panels).toHaveLength(2);
  expect(garment.problems.map((p) => p.code)).not.toContain('line-ends-in-the-open');
  expect(garment.seams[0]!.lengthA).toBeCloseTo(200 + Math.hypot(100, 10), 6);
});

test('a line led through a point stays smooth there', () => {
  const path = routeThrough(
    [
      [
        [210, 0],
        [210, 400],
      ],
    ],
    BUST,
    rectangle(300, 400),
  );
  const [before, after] = [path[0]!, path[1]!];
  const [p, q] = [before.at(-2)!, after[1]!];
  expect((200 - p[0]) * (q[1] - 100) - (100 - p[1]) * (q[0] - 200)).toBeCloseTo(0, 6);
  expect(pathLength(path)).toBeLessThan(402);
});

test('keeping again undoes what was done', () => {
  const d = withLine([200, 0], [200, 100], [200, 400]);
  const closed = treatDart(d, FRONT, 0, { kind: 'close', remainder: 'ease' });
  expect(choice(closed, 'keep').apply(closed)).toEqual(d);
});

test('a dart swung to another place keeps its angle, and lines and colours on the turned part go along', () => {
  const d = {
    ...withLine([250, 0], [250, 60]),
    marks: [{ piece: FRONT, at: [290, 20] as const, colour: 'slate' as never }],
  };
  const swings = swingChoices(d, FRONT, 0);
  expect(swings.length).toBeGreaterThan(4);
  expect(swings.some((c) => c.place.startsWith('end of line 1'))).toBe(true);
  for (const swing of swings.filter((c) => c.share === 1)) {
    const after = swing.apply(d);
    const [whole, before] = [deriveGarment(after).pieces[0]!.whole, deriveGarment(d).pieces[0]!.whole];
    expect(whole.area).toBeCloseTo(before.area, 4);
    expect(dartOutcome(after, FRONT, 0)!.sewn[0]!.angle).toBeCloseTo(2 * Math.atan(0.1), 9);
    // longer only where the new dart opened under it
    expect(pathLength(after.lines[0]!.path)).toBeGreaterThan(60 - 1e-6);
    const back = dartChoices(after, FRONT, 0)[0]!.apply(after);
    expect(back.pieces).toEqual(d.pieces);
    expect(distance(back.marks[0]!.at, [290, 20])).toBeLessThan(1e-6);
    expect(distance(back.lines[0]!.path[0]![0], [250, 0])).toBeLessThan(1e-6);
    expect(pathLength(back.lines[0]!.path)).toBeCloseTo(60, 6);
  }
});

test('a dart split in two has two darts of half the angle', () => {
  const d = withLine([50, 0], [50, 400]);
  const half = swingChoices(d, FRONT, 0).find((c) => c.share === 0.5)!;
  const { sewn } = dartOutcome(half.apply(d), FRONT, 0)!;
  expect(sewn.map((s) => s.angle)).toEqual([Math.atan(0.1), Math.atan(0.1)].map((a) => expect.closeTo(a, 9)));
});
