import { performance } from 'node:perf_hooks';

/** Median of a list of numbers; NaN for none. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? NaN;
}

/** Times of `runs` calls after `warm` untimed ones, ms. The result of every call is kept alive until the end. */
export function timesOf(call: (run: number) => unknown, runs: number, warm = Math.ceil(runs / 4)): number[] {
  const kept: unknown[] = [];
  const times: number[] = [];
  for (let i = -warm; i < runs; i += 1) {
    const start = performance.now();
    kept.push(call(i + warm));
    if (i >= 0) times.push(performance.now() - start);
  }
  if (kept.length !== runs + warm) throw new Error('a call was lost');
  return times;
}

/** `median 1.23 ms (10th 1.10, 90th 1.50)`. */
export function sayTimes(times: readonly number[]): string {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.floor((sorted.length - 1) * share)] ?? NaN).toFixed(3);
  return `median ${at(0.5)} ms (10th ${at(0.1)}, 90th ${at(0.9)})`;
}
