import { signedArea } from './area';
import { flattenRing } from './flatten';
import { pathLength } from './path';
import { CHORD_SAGITTA } from './tolerances';
import type { Polyline, Ring } from './types';

/** Share of a ring's area that its chords may lose. */
const AREA_SHARE = 2e-5;
/** Chords are never finer than this, mm: it keeps the number of points finite for rings with next to no area. */
const FINEST = 1e-5;

/**
 * Corner points of a ring whose shoelace area agrees with the true one to AREA_SHARE, and which stay within CHORD_SAGITTA
 * of it; for figures that somebody else will measure. An arc's chords lose 2/3 of sagitta × length (circular segment).
 */
export function flattenForArea(ring: Ring): Polyline {
  const around = pathLength(ring);
  const allowed = (AREA_SHARE * Math.abs(signedArea(ring)) * 1.5) / (around || 1);
  return flattenRing(ring, Math.min(CHORD_SAGITTA, Math.max(FINEST, allowed)));
}
