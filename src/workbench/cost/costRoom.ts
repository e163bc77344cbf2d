import type { BenchStore } from '../store/benchStore';
import { CostClient, type CostListener, nextFrame } from './costClient';
import { heard, movedOn } from './costReading';
import { type Followed, follow } from './followed';

/**
 * Follow what is moved on the bench, and keep what it comes to in the bench's state (`cost`). Costs the drag nothing but handing the
 * changed lines to the worker, and taking in its answers once a frame.
 * @returns a function that stops it
 */
export function keepCost(
  bench: BenchStore,
  makeClient = (listener: CostListener) => new CostClient(listener),
  later = nextFrame,
): () => void {
  let followed: Followed | null = null;
  let waiting: Parameters<CostListener>[] = [];
  // several answers may come in one frame: they are taken in together, so that the screen is worked out once
  const takeIn = (): void => {
    const { cost, set } = bench.getState();
    const next = cost && waiting.reduce((reading, [message, asked]) => heard(reading, message, asked), cost);
    waiting = [];
    if (next !== cost) set({ cost: next });
  };
  const client = makeClient((...answer) => {
    if (waiting.length === 0) later(takeIn);
    waiting.push(answer);
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
