import { bottomLeftSteps } from './bottomLeft';
import { layOf } from './lay';
import type { Lay } from './lay';
import type { LaySpace } from './laySpace';
import { seededRandom } from './random';
import { rowPlan } from './rowPlan';
import { TUNING } from './tuning';
import { firstOrder, searchOrders } from './searchOrders';
import { compress, explore, fitInto } from './shorten';

/** The first lays: in rows, and bottom-left with the large pieces first. Yields each, and null in between. */
function* firstLays(space: LaySpace): Generator<Lay | null, Lay> {
  const rows = layOf(space, rowPlan(space));
  yield rows;
  const steps = bottomLeftSteps(space, firstOrder(space));
  let step = steps.next();
  for (; !step.done; step = steps.next()) yield null;
  const lay = layOf(space, step.value);
  yield lay;
  return lay.length < rows.length ? lay : rows;
}

/**
 * Lay after lay until the budget (work) is used up or nothing is left to gain. Yields each new lay, which may be longer than
 * the cloth or than others before, and null in between, often. The first two come whatever the budget is.
 */
export function* searchAll(space: LaySpace, budget: number): Generator<Lay | null> {
  const random = seededRandom(space.job.seed);
  let best = yield* firstLays(space);
  best = yield* searchOrders(space, best, random, budget * TUNING.orders);
  best = yield* fitInto(space, best, random, budget);
  if (best.length > space.mostLength) return;
  best = yield* explore(space, best, random, budget * (TUNING.orders + TUNING.explore));
  yield* compress(space, best, random, budget);
}
