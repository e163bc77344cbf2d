import type { Pt } from '../geometry';
import { type Base, type Reach, type WholePiece } from '../pattern';
import { type Axis, axisValue, basePlace } from './axis';
import { type Lost, isLost, missed, sayBase } from './lost';

/** Two bases closer than this, mm, leave nothing to take a share of. */
const LEAST_BETWEEN = 1e-6;
/** Farther off than so many times their distance, two bases measure nothing that can be kept. */
export const MOST_SHARE = 10;

/** The bases of a reach: one to measure from, two to lie between. */
export type Bases = readonly [Base] | readonly [Base, Base];

export const basesOf = (reach: Reach): Bases => (reach.kind === 'from' ? [reach.base] : reach.bases);

/** Where a reach comes to lie on an axis, mm. */
export function reachOn(whole: WholePiece, axis: Axis, reach: Reach): number | Lost {
  if (reach.kind === 'from') {
    const from = basePlace(whole, axis, reach.base);
    return isLost(from) ? from : from.place + from.sign * reach.by;
  }
  const [a, b] = reach.bases.map((base) => basePlace(whole, axis, base));
  if (isLost(a)) return a;
  if (isLost(b)) return b;
  return a!.place + (b!.place - a!.place) * reach.share;
}

/** A length without the dust of reckoning: a billionth of a millimetre is kept. */
const withoutDust = (mm: number): number => Math.round(mm * 1e9) / 1e9 + 0;

/** The reach from given bases that comes to lie at a point; lost where the bases give none. */
export function measureReach(whole: WholePiece, axis: Axis, bases: Bases, p: Pt): Reach | Lost {
  const value = axisValue(whole, axis, p);
  const from = basePlace(whole, axis, bases[0]);
  if (isLost(from)) return from;
  if (bases.length === 1)
    return { kind: 'from', base: bases[0], by: withoutDust(from.sign * (value - from.place)) };
  const to = basePlace(whole, axis, bases[1]);
  if (isLost(to)) return to;
  const span = to.place - from.place;
  if (Math.abs(span) < LEAST_BETWEEN) return missed(sayBase(bases[1]));
  const share = (value - from.place) / span;
  return Math.abs(share) > MOST_SHARE ? missed(sayBase(bases[1])) : { kind: 'between', bases, share };
}
