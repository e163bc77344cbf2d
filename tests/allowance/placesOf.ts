/** Patterns of match marks as a sewist compares them. */
import { SEEN_APART } from '../../src/allowance';
import type { Garment } from '../../src/garment';
import type { Seam } from '../../src/panels';

/** A mark by how far from its seam's start it is, mm, and how many strokes it has. */
export interface Place {
  readonly at: number;
  readonly marks: number;
}
/** Marks of a seam on its first side, from its start. */
export const placesOf = (garment: Garment, seam: Seam): Place[] =>
  garment.cutPieces
    .find((c) => c.panel === seam.a)!
    .notches.filter((n) => n.seam === seam.id)
    .map((n) => ({ at: n.along!, marks: n.marks }))
    .sort((p, q) => p.at - q.at);
export const backwards = (p: readonly Place[], length: number): Place[] =>
  p.map(({ at, marks }) => ({ at: length - at, marks })).reverse();
/** Whether two rows of marks would be taken for each other. */
export const isAlike = (p: readonly Place[], q: readonly Place[]): boolean =>
  p.length === q.length &&
  p.every((m, i) => m.marks === q[i]!.marks && Math.abs(m.at - q[i]!.at) < SEEN_APART);
