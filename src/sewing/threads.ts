import type { OrderWish } from '../pattern';
import type { StepKey } from './plan';
import type { Task } from './task';

/** A task as the choice of threads sees it. */
export interface Threaded {
  readonly key: StepKey;
  readonly needs: readonly StepKey[];
  /** What thread it takes; null where any will do. */
  readonly thread: string | null;
  /** Tasks of one part of the job are sewn before those of the next. */
  readonly part: number;
}

/** Orders looked at for each number of changes: with more the search keeps the ones that are furthest. Fewer where there are many tasks. */
const keptOf = (tasks: number): number => Math.max(12, Math.min(400, Math.floor(8000 / tasks)));

interface State {
  readonly done: bigint;
  readonly order: readonly number[];
  readonly thread: string | null;
}

class Threads {
  readonly #tasks: readonly Threaded[];
  readonly #before: readonly bigint[];

  constructor(tasks: readonly Threaded[]) {
    this.#tasks = tasks;
    const bit = new Map(tasks.map((t, i) => [t.key, 1n << BigInt(i)] as const));
    const ofPart = (isEarlier: (part: number) => boolean): bigint =>
      tasks.reduce((set, t, i) => (isEarlier(t.part) ? set | (1n << BigInt(i)) : set), 0n);
    this.#before = tasks.map((t) =>
      t.needs.reduce(
        (set, key) => set | (bit.get(key) ?? 0n),
        ofPart((part) => part < t.part),
      ),
    );
  }

  #ready(done: bigint): number[] {
    return this.#tasks.flatMap((_, i) =>
      (done & (1n << BigInt(i))) === 0n && (done & this.#before[i]!) === this.#before[i]! ? [i] : [],
    );
  }

  /** All that can be sewn with one thread: nothing is lost by doing it at once. */
  withThread({ done, order }: State, thread: string | null): State {
    const own = [...order];
    let set = done;
    // once through is enough where every task comes after what it needs
    for (let count = -1; count !== own.length;) {
      count = own.length;
      this.#tasks.forEach((task, i) => {
        if (task.thread !== null && task.thread !== thread) return;
        const bit = 1n << BigInt(i);
        if ((set & bit) !== 0n || (set & this.#before[i]!) !== this.#before[i]!) return;
        own.push(i);
        set |= bit;
      });
    }
    return { done: set, order: own, thread };
  }

  /** Every state one change of thread further. */
  changed(state: State): State[] {
    const threads = new Set(this.#ready(state.done).map((i) => this.#tasks[i]!.thread));
    return [...threads].map((thread) => this.withThread(state, thread));
  }
}

/** Of several states only those that no other has got beyond. */
function furthest(states: readonly State[], most: number): State[] {
  const kept: State[] = [];
  const count = (s: State): number => s.order.length;
  for (const s of states.toSorted((p, q) => count(q) - count(p)))
    if (kept.length < most && !kept.some((k) => (k.done & s.done) === s.done)) kept.push(s);
  return kept;
}

/**
 * The order with the fewest changes of thread, by index. Exact as long as no more orders than are kept lead equally far (400 for up to
 * twenty tasks); beyond that it is a good one. Tasks in a ring of needs come last. Time grows with tasks², memory with tasks.
 */
export function fewestChanges(tasks: readonly Threaded[]): readonly number[] {
  const search = new Threads(tasks);
  let states = [search.withThread({ done: 0n, order: [], thread: null }, null)];
  for (;;) {
    const [best] = states as [State];
    const finished = states.find((s) => s.order.length === tasks.length);
    if (finished) return finished.order;
    const next = furthest(
      states.flatMap((s) => search.changed(s)),
      keptOf(tasks.length),
    );
    if (next.length === 0 || next[0]!.order.length === best.order.length)
      return [...best.order, ...[...tasks.keys()].filter((i) => !best.order.includes(i))];
    states = next;
  }
}

/** How often the thread is changed in an order of tasks. */
export function threadChanges(threads: readonly (string | null)[]): number {
  const own = threads.filter((t) => t !== null);
  return own.filter((t, i) => i > 0 && t !== own[i - 1]).length;
}

/**
 * Put tasks in the order with the fewest changes of thread. What is sewn within pieces, what sews them to each other and hems stay apart,
 * as they are in `order`.
 * @param wishes keys in the order in which they are wanted, where they are met
 */
export function byThreads(
  order: readonly Task[],
  isWithin: (task: Task) => boolean,
  threadOf: (task: Task) => string | null,
  wishes: readonly OrderWish[],
): readonly Task[] {
  let part = 0;
  const kindOf = (t: Task): string => (isWithin(t) ? 'within' : t.kind === 'hem' ? 'hem' : 'between');
  const threaded = order.map((task, i): Threaded => {
    if (i > 0 && kindOf(task) !== kindOf(order[i - 1]!)) part += 1;
    const wanted = wishes.filter((w) => w.later === task.key).map((w) => w.earlier);
    return {
      key: task.key,
      needs: [...task.needs.map((n) => n.key), ...wanted].filter((k) => k !== task.key),
      thread: threadOf(task),
      part,
    };
  });
  return fewestChanges(threaded).map((i) => order[i]!);
}
