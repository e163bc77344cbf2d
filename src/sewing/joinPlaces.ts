import type { EdgeRole } from '../neighbours';
import type { SewingWishes } from '../pattern';
import type { Because } from './plan';

export type Sleeves = SewingWishes['sleeves'];

/** Places of what is not a join, among the joins. */
export const HEM_PLACE = 100;
export const ZIP_PLACE = 13;

/**
 * Usual order of the seams between pieces, lowest first: centre seams with their zips, shoulders, sleeves (flat, or last into the closed
 * armhole), sides, legs, waist, then what is sewn on, then hems. Common practice, no source.
 */
const PLACES: Partial<Record<EdgeRole, number>> = {
  'centre front': 10,
  'centre back': 11,
  crotch: 12,
  zip: 12.5,
  shoulder: 20,
  neckline: 32,
  armhole: 40,
  'side seam': 50,
  'underarm seam': 55,
  'inside leg': 58,
  waist: 64,
};
/** Seams without a name of the trade are taken as those that make a piece from its parts: yokes, princess seams, gores. */
const PARTS = 15;
const ARMHOLE_SET_IN = 60;
/** What is sewn on where something else would end: cuffs and bands at hems. */
const SEWN_ON = 70;

export function joinPlace(role: EdgeRole | null, sleeves: Sleeves): number {
  if (role === null) return PARTS;
  return role === 'armhole' && sleeves === 'set in' ? ARMHOLE_SET_IN : (PLACES[role] ?? SEWN_ON);
}

/** Where an edge that is only finished has its place: a neckline when shoulders and zip are in, an armhole before or after the sides. */
export function finishPlace(role: EdgeRole | null, sleeves: Sleeves): number {
  if (role === 'neckline') return 30;
  if (role === 'armhole') return sleeves === 'flat' ? 34 : 62;
  return role === 'waist' ? 66 : 80;
}

type Kind = Because['kind'];
const CENTRES: readonly EdgeRole[] = ['centre front', 'centre back', 'crotch', 'zip'];

/**
 * Whether a seam of one role, where both end at a corner of the same piece, has to be sewn before one of another, and why. Null: either
 * may come first.
 */
export function mustPrecede(first: EdgeRole | null, later: EdgeRole | null, sleeves: Sleeves): Kind | null {
  if (later === null) return null;
  if (first === null) return CENTRES.includes(later) ? null : 'end is caught';
  const isSide = first === 'side seam' || first === 'underarm seam';
  if (later === 'armhole') {
    if (first === 'shoulder') return 'end is caught';
    return isSide && sleeves === 'set in' ? 'goes round it' : null;
  }
  if (later === 'side seam' || later === 'underarm seam')
    return first === 'armhole' && sleeves === 'flat' ? 'end is caught' : null;
  if (later === 'neckline') return first === 'shoulder' || CENTRES.includes(first) ? 'end is caught' : null;
  if (later === 'waist') return isSide ? 'goes round it' : CENTRES.includes(first) ? 'end is caught' : null;
  return later === 'inside leg' && first === 'crotch' ? 'end is caught' : null;
}
