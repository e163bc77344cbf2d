import { type Pt, dot, pathBox, subtract, unit } from '../geometry';
import type { WholePiece } from './wholePiece';

/** The grain as directions on the drawing: `along` runs down the page with the warp, `across` to the right with the weft. */
export interface GrainFrame {
  readonly along: Pt;
  readonly across: Pt;
}

/** Unit vectors, mm frame; `along` never points up the page. */
export function grainFrame(whole: Pick<WholePiece, 'grain'>): GrainFrame {
  const [x, y] = unit(subtract(whole.grain[1], whole.grain[0]));
  const up = y < -1e-9 || (Math.abs(y) <= 1e-9 && x < 0);
  const along: Pt = x === 0 && y === 0 ? [0, 1] : up ? [-x, -y] : [x, y];
  return { along, across: [along[1], -along[0]] };
}

/** Height of a point along the grain, mm, growing downwards. */
export const heightOf = (whole: Pick<WholePiece, 'grain'>, p: Pt): number => dot(p, grainFrame(whole).along);

/** Place of a point across the grain, mm, growing to the right of the drawing. */
export const placeAcross = (whole: Pick<WholePiece, 'grain'>, p: Pt): number =>
  dot(p, grainFrame(whole).across);

/** The point at a height and a place across the grain. */
export function pointInGrain(whole: Pick<WholePiece, 'grain'>, height: number, over: number): Pt {
  const { along, across } = grainFrame(whole);
  return [along[0] * height + across[0] * over, along[1] * height + across[1] * over];
}

/** How far across the grain a point lies from the middle of the piece (its fold, where it has one), mm; right as drawn is positive. */
export function acrossFromMiddle(whole: WholePiece, p: Pt): number {
  const { across } = grainFrame(whole);
  if (whole.foldLine) return dot(subtract(p, whole.foldLine[0]), across);
  const box = pathBox(whole.stitching);
  return dot(subtract(p, [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]), across);
}
