import { PLAN_STAYS } from '../../geometry';
import type { ClothPlan } from '../layPlan';
import { compareCloths } from '../remnants/compareClothPlans';

const ownLength = ({ own }: ClothPlan): number => own.reduce((sum, { length }) => sum + length, 0);

/**
 * Whether one way to cut the pieces of a colour is better than another: in the order the search itself goes by (more of them placed,
 * less bought, less of one's own cut into), then by the length taken of one's own.
 */
export function isBetterCloth(plan: ClothPlan, than: ClothPlan | null): boolean {
  if (!than) return true;
  const order = compareCloths(plan, than);
  if (order !== 0) return order < 0;
  const bought = than.bought.length - plan.bought.length;
  if (Math.abs(bought) > PLAN_STAYS) return bought > 0;
  return ownLength(than) - ownLength(plan) > PLAN_STAYS;
}
