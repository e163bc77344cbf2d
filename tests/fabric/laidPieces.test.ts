import { expect, test } from 'vitest';
import {
  type ClothPiece,
  type LayPlan,
  type Placement,
  laidPieces,
  placedOutline,
  placementMatrix,
} from '../../src/fabric';
import { type Polyline, type Pt, applyMatrix, isInRing } from '../../src/geometry';
import type { PanelId } from '../../src/panels';
import type { ColourId } from '../../src/pattern';

/** A right triangle beside the y axis, its grain along y: no mirror image of itself. */
const TRIANGLE: Polyline = [
  [0, 0],
  [200, 0],
  [0, 400],
];
const TRAPEZE: Polyline = [
  [-100, 0],
  [100, 0],
  [150, 300],
  [-150, 300],
];

const piece = (over: Partial<ClothPiece> = {}): ClothPiece => ({
  panel: 'p' as PanelId,
  number: 7,
  copy: 1,
  flipped: false,
  cutting: TRIANGLE,
  grainAngle: 90,
  ...over,
});

const plan = (placed: readonly Placement[], over: Partial<LayPlan> = {}): LayPlan => ({
  colour: 'c' as ColourId,
  width: 1400,
  layering: 'single',
  within: null,
  length: 500,
  buy: 500,
  density: 0.5,
  seconds: 1,
  placed,
  problems: [],
  ...over,
});

const at = (x: number, y: number, rotation: number, flipped = false, copy = 1): Placement => ({
  panel: 'p' as PanelId,
  copy,
  x,
  y,
  rotation,
  flipped,
});

/** Both lists hold the same points, whatever comes first. */
function expectSame(a: Polyline, b: Polyline): void {
  expect(a).toHaveLength(b.length);
  for (const p of a)
    expect(Math.min(...b.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1])))).toBeLessThan(1e-6);
}

test('a placement’s matrix moves points just as the exact check places them', () => {
  for (const flipped of [false, true])
    for (const rotation of [0, 90, -90, 180, 37]) {
      const p = piece({ flipped });
      const placed = at(120, 80, rotation, flipped);
      const m = placementMatrix(placed);
      expectSame(
        TRIANGLE.map((q) => applyMatrix(m, q)),
        placedOutline(p, placed),
      );
    }
});

test('number and arrow lie inside, the arrow along the cloth with its head as the grain was traced', () => {
  const [up] = laidPieces([piece()], plan([at(10, 300, -90)]));
  const [down] = laidPieces([piece()], plan([at(500, 300, 90)]));
  for (const laid of [up!, down!]) {
    expect(isInRing(laid.label.at, laid.outline)).toBe(true);
    expect(Math.abs(laid.grain[0][1] - laid.grain[1][1])).toBeLessThan(1e-9);
    expect(laid.cutFrom).toBe('single');
    expect(laid.folded).toBeNull();
    expect(laid.offGrain).toBe(0);
  }
  expect(up!.grain[1][0]).toBeGreaterThan(up!.grain[0][0]);
  expect(down!.grain[1][0]).toBeLessThan(down!.grain[0][0]);
});

test('a piece off its grain says by how much, mirrored or not', () => {
  const straight = laidPieces([piece()], plan([at(10, 300, -60)]))[0]!;
  const mirrored = laidPieces([piece({ flipped: true })], plan([at(10, 300, 60, true)]))[0]!;
  expect(straight.offGrain).toBeCloseTo(30, 9);
  expect(mirrored.offGrain).toBeCloseTo(30, 9);
});

test('of a pair on folded cloth one is seen, and the other lies under it', () => {
  const pieces = [piece(), piece({ copy: 2, flipped: true })];
  // Mirrored over y = 700: the second turned by 180° less the first’s turn.
  const laid = laidPieces(
    pieces,
    plan([at(10, 300, -90), at(10, 1100, -90, true, 2)], { layering: 'folded' }),
  );
  expect(laid.map((l) => l.cutFrom)).toEqual(['both', 'both']);
  expect(laid[1]!.folded).toBeNull();
  const { outline } = laid[0]!.folded!;
  expectSame(
    outline,
    laid[1]!.outline.map(([x, y]): Pt => [x, y - 700]),
  );
  expectSame(
    outline,
    laid[0]!.outline.map(([x, y]): Pt => [x, 700 - y]),
  );
});

test('a piece of one layer is seen from the wrong side on the upper one, so its printed piece lies face down', () => {
  const upper = laidPieces([piece()], plan([at(10, 300, -90)], { layering: 'folded' }))[0]!;
  const lower = laidPieces([piece()], plan([at(10, 1100, -90)], { layering: 'folded' }))[0]!;
  expect([upper.cutFrom, upper.folded!.faceDown]).toEqual(['upper', true]);
  expect([lower.cutFrom, lower.folded!.faceDown]).toEqual(['lower', false]);
});

test('of a piece on the fold the half above it is seen, from the fold on', () => {
  const onFold = piece({
    cutting: TRAPEZE,
    middle: [
      [0, 0],
      [0, 300],
    ],
  });
  for (const rotation of [-90, 90]) {
    const [laid] = laidPieces([onFold], plan([at(310, 700, rotation)], { layering: 'folded' }));
    expect(laid!.cutFrom).toBe('fold');
    const { outline, label } = laid!.folded!;
    const ys = outline.map((p) => p[1]);
    expect(Math.min(...ys)).toBeCloseTo(0, 9);
    expect(Math.max(...ys)).toBeCloseTo(150, 9);
    expect(isInRing(label.at, outline)).toBe(true);
  }
});

test('what is placed but not among the pieces is left out', () => {
  expect(laidPieces([piece()], plan([at(0, 0, 0, false, 2)]))).toEqual([]);
});
