import { bottomLeftSteps } from './bottomLeft';
import { isShortest, layOf, orderBy } from './lay';
import type { Lay } from './lay';
import type { LaySpace } from './laySpace';

/** The order of the first lay: large pieces first. */
export const firstOrder = (space: LaySpace): number[] => orderBy(space, (s) => s.area);

/** Two places swapped, or one piece moved to another place. */
function changed(order: readonly number[], random: () => number): number[] {
  const out = [...order];
  const pick = (): number => Math.floor(random() * out.length);
  const [i, j] = [pick(), pick()];
  if (random() < 0.5) [out[i], out[j]] = [out[j]!, out[i]!];
  else out.splice(j, 0, out.splice(i, 1)[0]!);
  return out;
}

/**
 * Bottom-left lays from other orders: a few sorted ones, then the best so far with a small change. Yields each lay that is
 * shorter than all before, and null after every other piece laid.
 * @param until the meter's reading at which it ends
 */
export function* searchOrders(
  space: LaySpace,
  first: Lay,
  random: () => number,
  until: number,
): Generator<Lay | null, Lay> {
  const sorted = [
    orderBy(space, (s) => s.length),
    orderBy(space, (s) => s.width),
    orderBy(space, (s) => s.length + s.width),
  ];
  let best = first;
  let order = firstOrder(space);
  while (space.meter.work < until && !isShortest(space, best)) {
    const next = sorted.shift() ?? changed(order, random);
    const steps = bottomLeftSteps(space, next);
    let step = steps.next();
    for (; !step.done; step = steps.next()) yield null;
    const lay = layOf(space, step.value);
    if (lay.length > best.length) continue;
    order = next;
    if (lay.length < best.length) yield lay;
    best = lay;
  }
  return best;
}
