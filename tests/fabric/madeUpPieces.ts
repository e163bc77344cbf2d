import { flattenRing } from '../../src/geometry';
import type { Curve, Polyline, Pt } from '../../src/geometry';
import type { PanelId } from '../../src/panels';
import type { ColourId } from '../../src/pattern';
import type { ClothPiece, LayJob } from '../../src/fabric';
import { seededRandom } from '../../src/fabric/search/random';

/** A lay job of made-up pieces; what is not given is plain: 1400 mm wide, no nap, no gap, nothing searched. */
export const jobOf = (pieces: readonly ClothPiece[], more: Partial<LayJob> = {}): LayJob => ({
  colour: 'c1' as ColourId,
  colourName: 'navy',
  width: 1400,
  margin: 0,
  layering: 'single',
  repeat: { along: 0, across: 0 },
  within: null,
  reserve: 0,
  nap: false,
  gap: 0,
  shrinkage: 0,
  units: 'cm',
  pieces,
  seconds: 0,
  seed: 1,
  ...more,
});

export const pieceOf = (number: number, cutting: Polyline, more: Partial<ClothPiece> = {}): ClothPiece => ({
  panel: `p${number}` as PanelId,
  number,
  copy: 1,
  flipped: false,
  cutting,
  grainAngle: 0,
  ...more,
});

/** Corner at x, y; its first side runs along +x. */
export const rectangle = (length: number, width: number, x = 0, y = 0): Pt[] => [
  [x, y],
  [x + length, y],
  [x + length, y + width],
  [x, y + width],
];

/**
 * A panel as slicing leaves it: four sides, some of them curved in or out (necklines, armholes, hips, panel lines), the
 * cutting line flattened as the allowance room does, so 50 to 300 corners.
 */
export function panelOutline(random: () => number, long = 350, wide = 220): Polyline {
  const r = (from: number, to: number): number => from + (to - from) * random();
  const [l, w] = [long * r(0.4, 1.6), wide * r(0.4, 1.6)];
  const corners: Pt[] = [
    [r(-0.1, 0.1) * l, r(-0.1, 0.1) * w],
    [l * r(0.85, 1.1), w * r(-0.15, 0.15)],
    [l * r(0.85, 1.1), w * r(0.8, 1.15)],
    [r(-0.1, 0.15) * l, w * r(0.8, 1.15)],
  ];
  const ring = corners.map((a, i): Curve => {
    const b = corners[(i + 1) % 4]!;
    if (random() < 0.35) return [a, b];
    const bow = r(-0.25, 0.3);
    const [nx, ny] = [(b[1] - a[1]) * bow, (a[0] - b[0]) * bow];
    const skew = r(0.2, 0.4);
    const at = (t: number): Pt => [a[0] + (b[0] - a[0]) * t + nx, a[1] + (b[1] - a[1]) * t + ny];
    return [a, at(skew), at(1 - r(0.2, 0.4)), b];
  });
  return flattenRing(ring);
}

/** A garment's panels of one colour: made-up outlines, grain at many angles, every third one a pair, traced anywhere. */
export function garmentPieces(seed: number, count: number): ClothPiece[] {
  const random = seededRandom(seed);
  const pieces: ClothPiece[] = [];
  for (let number = 1; pieces.length < count; number += 1) {
    const grainAngle = random() < 0.5 ? 90 : Math.round(random() * 360 - 180);
    const [x, y] = [random() * 1000, random() * 1000];
    const cutting = panelOutline(random).map((p): Pt => [p[0] + x, p[1] + y]);
    pieces.push(pieceOf(number, cutting, { grainAngle }));
    if (number % 3 === 0 && pieces.length < count)
      pieces.push(pieceOf(number, cutting, { grainAngle, copy: 2, flipped: true }));
  }
  return pieces;
}
