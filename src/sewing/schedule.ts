import type { OrderWish } from '../pattern';
import type { StepKey } from './plan';
import type { Task } from './task';

/** An order of tasks, and the wishes that it cannot meet. */
export interface Schedule {
  readonly order: readonly Task[];
  readonly refused: readonly OrderWish[];
}

/** What comes right before what, by index. */
type Before = readonly ReadonlySet<number>[];

/** Whether one task comes somewhere before another. */
function leads(before: Before, from: number, to: number): boolean {
  const seen = new Set<number>();
  const waiting = [to];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (at === from) return true;
    if (seen.has(at)) continue;
    seen.add(at);
    waiting.push(...before[at]!);
  }
  return false;
}

/** Tasks in order: of those whose needs are met, the one with the lowest place; given by index, places all different. */
function inOrder(before: Before, places: readonly number[]): number[] {
  const after: number[][] = before.map(() => []);
  before.forEach((own, i) => own.forEach((k) => after[k]!.push(i)));
  const open = before.map((own) => own.size);
  const waiting = new Set(before.keys());
  const order: number[] = [];
  while (waiting.size > 0) {
    let next = -1;
    for (const i of waiting) if (open[i] === 0 && (next < 0 || places[i]! < places[next]!)) next = i;
    // needs in a ring: no plan of ours has them, but one step is better than none
    if (next < 0) next = [...waiting].reduce((p, q) => (places[q]! < places[p]! ? q : p));
    waiting.delete(next);
    order.push(next);
    for (const i of after[next]!) open[i] = open[i]! - 1;
  }
  return order;
}

/** Places in which whatever has to come before a task has come up to just before it: a step that is wanted earlier is moved, not those it passes. */
function pulledUp(before: Before, order: readonly number[]): number[] {
  const place = new Map(order.map((task, i) => [task, i] as const));
  const up = before.map((_, i) => place.get(i)!);
  for (let changed = true; changed;) {
    changed = false;
    before.forEach((own, i) => {
      for (const k of own)
        if (up[k]! > up[i]!) {
          up[k] = up[i]!;
          changed = true;
        }
    });
  }
  return up.map((u, i) => u + place.get(i)! / (order.length + 1));
}

/**
 * Put tasks in order: what they need comes before them, wishes are met where that can be (the last one wins where two contradict each
 * other), and what is left open goes by usual place.
 * @param tasks in their usual order; needs that no task answers are passed over
 * Time grows with tasks², memory with tasks and needs.
 */
export function schedule(tasks: readonly Task[], wishes: readonly OrderWish[]): Schedule {
  const index = new Map<StepKey, number>(tasks.map((t, i) => [t.key, i] as const));
  const before = tasks.map(
    (t, i) =>
      new Set(
        t.needs.flatMap(({ key }) => (index.has(key) && index.get(key) !== i ? [index.get(key)!] : [])),
      ),
  );
  const usual = inOrder(before, [...tasks.keys()]);
  const refused: OrderWish[] = [];
  for (const wish of wishes.toReversed()) {
    const [earlier, later] = [index.get(wish.earlier), index.get(wish.later)];
    if (earlier === undefined || later === undefined || earlier === later) continue;
    if (leads(before, later, earlier)) refused.push(wish);
    else before[later]!.add(earlier);
  }
  const order = wishes.length === 0 ? usual : inOrder(before, pulledUp(before, usual));
  return { order: order.map((i) => tasks[i]!), refused };
}
