import { CLOTH_ROUNDING } from '../../geometry';
import type { FillSpace, LaidPiece } from './fillSpace';
import { freeSpot } from './freeSpot';

/** What lies on each of one's own cloths, in the order of FillSpace.cloths. */
export type Fill = readonly (readonly LaidPiece[])[];

/** In which order pieces are laid, and which cloth is tried first. Indices into the job's pieces and FillSpace.cloths, each once. */
export interface FillOrder {
  readonly pieces: readonly number[];
  readonly cloths: readonly number[];
}

const areaOn = (space: FillSpace, laid: readonly LaidPiece[]): number =>
  laid.reduce((sum, { piece }) => sum + space.areaOf(piece), 0);

/** One more piece, on the first cloth it fits; the same fill where it fits none. */
function withPiece(space: FillSpace, fill: Fill, piece: number, cloths: readonly number[]): Fill {
  for (const c of cloths) {
    const cloth = space.cloths[c]!;
    const laid = fill[c]!;
    if (areaOn(space, laid) + space.areaOf(piece) > cloth.area * (1 + CLOTH_ROUNDING)) continue;
    const spot = freeSpot(space, cloth, laid, piece);
    if (spot) return fill.map((own, i) => (i === c ? [...own, spot] : own));
  }
  return fill;
}

/**
 * Lay pieces one after another, each on the first of the cloths it fits; those that fit none are left over.
 * @param trail fills before each piece, as far as they are known already: they are not worked out again
 * @returns the fill before each piece, and last the whole one. Yields after each piece.
 */
export function* fillSteps(
  space: FillSpace,
  { pieces, cloths }: FillOrder,
  trail: readonly Fill[] = [],
): Generator<void, readonly Fill[]> {
  const out: Fill[] = trail.length > 0 ? [...trail] : [space.cloths.map(() => [])];
  for (const piece of pieces.slice(out.length - 1)) {
    out.push(withPiece(space, out.at(-1)!, piece, cloths));
    yield;
  }
  return out;
}

/** Pieces that lie on none of the cloths, in the job's order. */
export function restOf(space: FillSpace, fill: Fill): number[] {
  const laid = new Set(fill.flat().map(({ piece }) => piece));
  return space.turns.map((_, i) => i).filter((i) => !laid.has(i));
}
