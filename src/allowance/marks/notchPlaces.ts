import type { Seam } from '../../panels';
import type { MarkPattern, MarkPlace } from './markPattern';

/** The marks of a seam, on the shorter side as sewn, and between which of them darts are eased in. */
export interface SeamMarks {
  readonly places: MarkPattern;
  /** Indices of the two marks on either side of what is eased in; null where nothing is. */
  readonly eased: readonly [number, number] | null;
}

export const NO_MARKS: SeamMarks = { places: [], eased: null };

/** A mark of a seam on one of its sides: how far from the seam's start as sewn, mm, and how much is eased in beside it, mm. */
export interface SeamPlace {
  readonly at: number;
  readonly marks: MarkPlace['marks'];
  readonly ease: number | null;
}

/** How much is eased in at a seam, mm: on one side of it, or on both together. */
export const easedOn = ({ eased }: Seam, side: 'a' | 'b' | null): number =>
  eased.reduce((sum, e) => sum + (side === null || e.side === side ? e.width : 0), 0);

/**
 * The marks of a seam on one of its sides. Both sides have theirs at equal lengths, but that the ends of darts eased in on one side lie
 * between two marks there, and any other difference of length is spread evenly.
 */
export function notchPlaces(seam: Seam, { places, eased }: SeamMarks, side: 'a' | 'b'): readonly SeamPlace[] {
  const own = side === 'a' ? seam.lengthA : seam.lengthB;
  const extra = easedOn(seam, side);
  const [plainA, plainB] = [seam.lengthA - easedOn(seam, 'a'), seam.lengthB - easedOn(seam, 'b')];
  const common = Math.min(plainA, plainB);
  const stretch = common > 0 ? (own - extra) / common : 1;
  return places.map(({ at, marks }, i): SeamPlace => ({
    at: at * stretch + (eased && i >= eased[1] ? extra : 0),
    marks,
    ease: eased && (i === eased[0] || i === eased[1]) ? easedOn(seam, null) : null,
  }));
}
