import type { BenchStore } from '../store/benchStore';
import { CostClient, type CostListener } from './costClient';
import { heard, movedOn } from './costReading';
import { type Followed, follow } from './followed';

/**
 * Follow what is moved on the bench, and keep what it comes to in the bench's state (`cost`). Costs the drag nothing but handing the
 * changed lines to the worker.
 * @returns a function that stops it
 */
export function keepCost(
  bench: BenchStore,
  makeClient = (listener: CostListener) => new CostClient(listener),
): () => void {
  let followed: Followed | null = null;
  const client = makeClient((message, asked) => {
    const { cost, set } = bench.getState();
    if (!cost) return;
    const next = heard(cost, message, asked);
    if (next !== cost) set({ cost: next });
  });
  const look = (): void => {
    const next = follow(followed, bench.getState());
    if (next === followed) return;
    followed = next;
    const { cost, set } = bench.getState();
    if (!next) {
      client.stop();
      if (cost) set({ cost: null });
      return;
    }
    client.look(next);
    const reading = movedOn(cost, next);
    if (reading !== cost) set({ cost: reading });
  };
  look();
  const unsubscribe = bench.subscribe(look);
  return () => {
    unsubscribe();
    client.stop();
    bench.getState().set({ cost: null });
  };
}
