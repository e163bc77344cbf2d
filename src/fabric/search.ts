import { bottomLeft } from './bottomLeft';
import type { LaySpace, LayState } from './laySpace';
import { copyState } from './laySpace';
import { Separation } from './separation';

/** A sound lay and its length, mm. */
export interface Lay {
  readonly state: LayState;
  readonly length: number;
}

const byArea = (space: LaySpace) => (i: number): number => space.shapes[space.turns[i]![0]!]!.area;
const byLength = (space: LaySpace) => (i: number): number => space.shapes[space.turns[i]![0]!]!.length;
const byWidth = (space: LaySpace) => (i: number): number => space.shapes[space.turns[i]![0]!]!.width;

/** Piece indices, the one with the largest measure first. */
export function orderBy(space: LaySpace, measure: (piece: number) => number): number[] {
  return Array.from({ length: space.count }, (_, i) => i).sort((i, j) => measure(j) - measure(i) || i - j);
}

export const firstOrder = (space: LaySpace): number[] => orderBy(space, byArea(space));

export const layOf = (space: LaySpace, state: LayState): Lay => ({ state, length: space.lengthOf(state) });

/** Bottom-left lays from other orders: a few sorted ones, then the best with two pieces swapped or one moved. */
export function* searchOrders(space: LaySpace, best: Lay, random: () => number, until: number): Generator<Lay | null, Lay> {
  let order = firstOrder(space);
  const tries = [byLength(space), byWidth(space), (i: number) => byLength(space)(i) + byWidth(space)(i)];
  let bestHere = best.length;
  while (space.work < until && best.length > space.leastLength * (1 + 1e-9)) {
    const sorted = tries.shift();
    const next = sorted ? orderBy(space, sorted) : changed(order, random);
    const lay = layOf(space, bottomLeft(space, next));
    if (lay.length <= bestHere) [order, bestHere] = [next, lay.length];
    if (lay.length < best.length - 1e-9) {
      best = lay;
      yield lay;
    } else yield null;
  }
  return best;
}

function changed(order: readonly number[], random: () => number): number[] {
  const out = [...order];
  const pick = (): number => Math.floor(random() * out.length);
  const [i, j] = [pick(), pick()];
  if (random() < 0.5) [out[i], out[j]] = [out[j]!, out[i]!];
  else out.splice(j, 0, out.splice(i, 1)[0]!);
  return out;
}

/** The lay squeezed to a shorter length: everything right of a random cut moves left by the difference. */
function squeezed(space: LaySpace, lay: Lay, length: number, random: () => number): LayState {
  const state = copyState(lay.state);
  const cut = random() * lay.length;
  for (let i = 0; i < space.count; i += 1) {
    const middle = state.x[i]! + space.shapes[state.shape[i]!]!.length / 2;
    if (middle > cut) state.x[i] = state.x[i]! - (lay.length - length);
  }
  return state;
}

/** Two big pieces of different size change places. */
function kicked(space: LaySpace, from: LayState, random: () => number): LayState {
  const state = copyState(from);
  const order = firstOrder(space);
  const big = order.slice(0, Math.max(2, Math.ceil(order.length * 0.6)));
  const i = big[(random() * big.length) | 0]!;
  const area = byArea(space);
  const unlike = order.filter((j) => j !== i && Math.abs(area(j) - area(i)) > 0.02 * area(i));
  const pool = unlike.length > 0 ? unlike.slice(0, Math.max(1, Math.ceil(unlike.length * 0.6))) : order.filter((j) => j !== i);
  if (pool.length === 0) return state;
  const j = pool[(random() * pool.length) | 0]!;
  const mid = (k: number): [number, number] => {
    const s = space.shapes[state.shape[k]!]!;
    return [state.x[k]! + s.length / 2, state.y[k]! + s.width / 2];
  };
  const [a, b] = [mid(i), mid(j)];
  const put = (k: number, [x, y]: [number, number]): void => {
    const s = space.shapes[state.shape[k]!]!;
    state.x[k] = x - s.length / 2;
    state.y[k] = y - s.width / 2;
  };
  put(i, b);
  put(j, a);
  return state;
}

interface Miss {
  readonly state: LayState;
  readonly total: number;
}

/** Shorten by about a percent at a time; where that fails, go on from a near miss with two pieces swapped. */
export function* explore(space: LaySpace, best: Lay, random: () => number, until: number): Generator<Lay | null, Lay> {
  while (space.work < until && best.length > space.leastLength * (1 + 1e-9)) {
    const length = Math.max(space.leastLength, best.length * (1 - 0.001 - 0.009 * random() ));
    let start = squeezed(space, best, length, random);
    const misses: Miss[] = [];
    let found: Lay | null = null;
    while (!found && space.work < until) {
      const separation = new Separation(space, start, length, random);
      const run = separation.run(20, 3);
      let step = run.next();
      while (!step.done && space.work < until) {
        yield null;
        step = run.next();
      }
      if (step.done && step.value) found = layOf(space, separation.state);
      else {
        misses.push({ state: separation.state, total: separation.total });
        misses.sort((a, b) => a.total - b.total);
        const r = random();
        start = kicked(space, misses[Math.floor(r * r * Math.min(misses.length, 10))]!.state, random);
      }
    }
    if (!found) return best;
    best = found;
    yield best;
  }
  return best;
}

/** Shorten the best lay by less and less. */
export function* compress(space: LaySpace, best: Lay, random: () => number, from: number, until: number): Generator<Lay | null, Lay> {
  while (space.work < until && best.length > space.leastLength * (1 + 1e-9)) {
    const part = Math.min(1, (space.work - from) / (until - from));
    const rate = 0.0005 * (1 - part) + 0.00001 * part;
    const length = Math.max(space.leastLength, best.length * (1 - rate));
    const separation = new Separation(space, squeezed(space, best, length, random), length, random);
    const run = separation.run(10, 3);
    let step = run.next();
    while (!step.done && space.work < until) {
      yield null;
      step = run.next();
    }
    if (step.done && step.value) {
      best = layOf(space, separation.state);
      yield best;
    }
  }
  return best;
}
