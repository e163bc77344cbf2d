import { bottomLeftSteps } from './bottomLeft';
import { layOf } from './lay';
import type { Lay } from './lay';
import type { LaySpace } from './laySpace';
import { seededRandom } from './random';
import { rowPlan } from './rowPlan';
import { firstOrder, searchOrders } from './searchOrders';
import { compress, explore, fitInto } from './shorten';

/** Shares of the budget: other orders, shortening by big steps; the rest goes into small steps. */
const ORDERS_SHARE = 0.08;
const EXPLORE_SHARE = 0.75;

/** More different shapes (pieces and turns) than this are laid once and not searched: their pairs would fill the memory. */
const MOST_SHAPES = 120;

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
  if (space.shapes.length > MOST_SHAPES) return;
  best = yield* searchOrders(space, best, random, budget * ORDERS_SHARE);
  best = yield* fitInto(space, best, random, budget);
  if (best.length > space.mostLength) return;
  best = yield* explore(space, best, random, budget * (ORDERS_SHARE + EXPLORE_SHARE));
  yield* compress(space, best, random, budget);
}
