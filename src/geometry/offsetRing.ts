import type { Ring } from './types';

/** A ring beside another one; origins[i] is the index of the source curve that curve i runs along (for a corner, the curve before it). */
export interface OffsetRing {
  readonly ring: Ring;
  readonly origins: readonly number[];
}

export interface OffsetOptions {
  /** A mitre reaching farther than this many times the wider width is cut off square across its tip. Default 4. */
  readonly mitreLimit?: number;
}

/**
 * Move every curve of a ring outwards by its own width (negative: inwards), corners mitred, swallowed stretches and
 * concave loops removed. For a ring with negative signedArea (a hole) 'outwards' still means away from the material,
 * that is into the hole.
 * @param ring   n curves, simple
 * @param widths n widths, mm
 * @returns usually one ring; none when the inset swallows everything, several when it falls apart; largest first
 */
export function offsetRing(_ring: Ring, _widths: readonly number[], _options: OffsetOptions = {}): readonly OffsetRing[] {
  throw new Error('being written');
}
