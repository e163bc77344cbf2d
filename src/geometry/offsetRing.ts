import { signedArea } from './area';
import { reverseCurve } from './curve';
import { borderOfPositive } from './offsetCleanUp';
import type { CornerShapes } from './joinStretches';
import { rawOffset, type OffsetCurve } from './rawOffset';
import { chordRing, meetings } from './simplicity';
import { CHORD_SAGITTA, SAME_POINT } from './tolerances';
import type { Ring } from './types';
import { distance } from './vector';

/** A ring beside another one; origins[i] is the index of the source curve that curve i runs along (for a corner, the curve before it). */
export interface OffsetRing {
  readonly ring: Ring;
  readonly origins: readonly number[];
}

export interface OffsetOptions {
  /** A mitre reaching farther than this many times the wider width is cut off square across its tip. At least 1; default 4. */
  readonly mitreLimit?: number;
  /** Convex corners of a ring with positive signedArea that are not mitred. Ignored where widths are negative. */
  readonly corners?: CornerShapes;
}

/**
 * Move every curve of a ring outwards by its own width (negative: inwards), corners mitred, swallowed stretches and
 * concave loops removed. For a ring with negative signedArea (a hole) 'outwards' still means away from the material,
 * that is into the hole.
 *
 * Lines move exactly; cubics are re-fitted within OFFSET_FIT. Where the width changes along a straight or nearly straight
 * run there is a step square to the wider side. Straight lengthenings at a mitre belong to the curve they lengthen.
 * The parallels are joined so that the winding number of the whole tells inside from outside (see offsetJoins); if
 * the joined curve is simple, which is tested exactly on its chords, it is the answer, else its border of
 * positive winding is.
 * @param ring   n curves, simple, at least 2
 * @param widths n widths, mm; widths of both signs in one ring are allowed, the negative strip then wins over a positive one
 * @returns usually one ring; none when the inset swallows everything, several when it falls apart; largest first. A gap
 *          that closes up and leaves an opening behind gives that opening as a ring of the other sign of signedArea
 * @throws RangeError if there are not n widths, or a width or the limit is not usable (a caller's mistake)
 */
export function offsetRing(
  ring: Ring,
  widths: readonly number[],
  options: OffsetOptions = {},
): readonly OffsetRing[] {
  const mitreLimit = options.mitreLimit ?? 4;
  if (ring.length !== widths.length)
    throw new RangeError(`${ring.length} curves but ${widths.length} widths`);
  if (!widths.every(Number.isFinite)) throw new RangeError('every width must be a finite number of mm');
  if (!(mitreLimit >= 1)) throw new RangeError(`a mitre limit must be at least 1, not ${mitreLimit}`);
  if (signedArea(ring) >= 0) return offsetOuter(ring, widths, mitreLimit, options.corners);
  const n = ring.length;
  const turned = ring.map(reverseCurve).reverse();
  const inwards = widths.map((w) => -w).reverse();
  return offsetOuter(turned, inwards, mitreLimit).map((r) => ({
    ring: r.ring.map(reverseCurve).reverse(),
    origins: r.origins.map((i) => n - 1 - i).reverse(),
  }));
}

function offsetOuter(
  ring: Ring,
  widths: readonly number[],
  mitreLimit: number,
  corners?: CornerShapes,
): OffsetRing[] {
  if (ring.length === 0) return [];
  if (widths.every((w) => w === 0)) return [{ ring, origins: ring.map((_, i) => i) }];
  const raw = rawOffset(ring, widths, mitreLimit, corners);
  if (raw.length === 0) return [];
  const curves = raw.map((r) => r.curve);
  const chords = chordRing(curves, CHORD_SAGITTA);
  const borders = meetings([chords]).length === 0 ? [raw] : borderOfPositive(raw, chords);
  const isClean = borders.length === 1 && borders[0] === raw;
  return borders
    .map((b) => ({ offset: asOffsetRing(b), area: signedArea(b.map((c) => c.curve)) }))
    .filter(({ offset, area }) => (isClean ? area > 0 : Math.abs(area) > thinnest(offset.ring)))
    .sort((a, b) => Math.abs(b.area) - Math.abs(a.area))
    .map(({ offset }) => offset);
}

const asOffsetRing = (curves: readonly OffsetCurve[]): OffsetRing => ({
  ring: curves.map((c) => c.curve),
  origins: curves.map((c) => c.origin),
});

/** Area of a sliver about as long as the ring and as wide as two points that count as one. */
function thinnest(ring: Ring): number {
  let around = 0;
  for (const c of ring) for (let i = 1; i < c.length; i += 1) around += distance(c[i - 1]!, c[i]!);
  return (around / 2) * SAME_POINT;
}
