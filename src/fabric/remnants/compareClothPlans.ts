import { SAVED_LENGTH, signedAreaOfPoints } from '../../geometry';
import type { ClothPlan } from '../layPlan';

/** Pieces that have their place. */
export const placedIn = ({ own, bought }: ClothPlan): number =>
  own.reduce((sum, { placed }) => sum + placed.length, bought.placed.length);

const areaTouched = ({ own }: ClothPlan): number =>
  own.reduce((sum, { within }) => sum + Math.abs(signedAreaOfPoints(within!.outline)), 0);

/**
 * Negative where plan a of a colour is clearly better: more pieces have their place; less is bought, by a length worth it; fewer and
 * smaller pieces of one's own are cut into.
 */
export function compareCloths(a: ClothPlan, b: ClothPlan): number {
  const bought = a.bought.length - b.bought.length;
  return (
    placedIn(b) - placedIn(a) ||
    (Math.abs(bought) > SAVED_LENGTH ? bought : 0) ||
    a.own.length - b.own.length ||
    areaTouched(a) - areaTouched(b)
  );
}

/** As compareCloths; of plans that are as good the one that buys less, be it ever so little. */
export const compareClothPlans = (a: ClothPlan, b: ClothPlan): number =>
  compareCloths(a, b) || a.bought.length - b.bought.length;
