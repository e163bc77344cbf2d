import { orient2d } from 'robust-predicates';
import type { Pt } from './types';

/**
 * Which way a, b, c turn, sign exact (adaptive-precision predicate of Shewchuk, 1997, in robust-predicates).
 * Positive when the turn goes from +x towards +y, that is when the ring a b c has positive signedArea; 0 on one line.
 */
export const turn = (a: Pt, b: Pt, c: Pt): number => -orient2d(a[0], a[1], b[0], b[1], c[0], c[1]);

/** The same from bare numbers, for inner loops. */
export const turnOf = (ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number =>
  -orient2d(ax, ay, bx, by, cx, cy);
