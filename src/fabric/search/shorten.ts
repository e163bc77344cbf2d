import { isShortest, layOf, orderBy } from './lay';
import type { Lay } from './lay';
import type { LaySpace, LayState } from './laySpace';
import { copyState } from './laySpace';
import { Separation } from './separation';

/** How hard one length is tried: see Separation.run, and from how many starts. */
const EXPLORE = { patience: 200, strikes: 1, starts: 2 };
const COMPRESS = { patience: 20, strikes: 2 };

/** Share of the length taken off at once while exploring: at first and at most, at least, after success, after failure. */
const STEP = { most: 0.02, least: 0.001, grow: 1.2, shrink: 0.6 };
/** The same at the beginning and at the end of the last part. */
const LAST_STEPS = { first: 0.0005, last: 0.00001 };

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

/** Share of the pieces that count as big. */
const BIG = 0.6;

/** Two big pieces of different size change places (their middles do): a way out where small moves lead nowhere. */
function kicked(space: LaySpace, from: LayState, random: () => number): LayState {
  const state = copyState(from);
  const order = orderBy(space, (s) => s.area);
  const pick = (of: readonly number[]): number => of[Math.floor(random() * of.length)]!;
  const bigOf = (of: readonly number[]): readonly number[] =>
    of.slice(0, Math.max(1, Math.ceil(of.length * BIG)));
  const shapeOf = (k: number): LaySpace['shapes'][number] => space.shapes[state.shape[k]!]!;
  const i = pick(bigOf(order));
  const unlike = order.filter((j) => Math.abs(shapeOf(j).area - shapeOf(i).area) > 0.02 * shapeOf(i).area);
  if (unlike.length === 0) return state;
  const j = pick(bigOf(unlike));
  const dx = state.x[j]! - state.x[i]! + (shapeOf(j).length - shapeOf(i).length) / 2;
  const dy = state.y[j]! - state.y[i]! + (shapeOf(j).width - shapeOf(i).width) / 2;
  state.x[i] = state.x[i]! + dx;
  state.y[i] = state.y[i]! + dy;
  state.x[j] = state.x[j]! - dx;
  state.y[j] = state.y[j]! - dy;
  return state;
}

interface Effort {
  readonly patience: number;
  readonly strikes: number;
}

/** Drive the overlap out at a length; null when it could not be done, or the budget ended. */
function* separated(
  separation: Separation,
  space: LaySpace,
  { patience, strikes }: Effort,
  until: number,
): Generator<null, Lay | null> {
  const run = separation.run(patience, strikes);
  for (let step = run.next(); space.meter.work < until; step = run.next()) {
    if (step.done) return step.value ? layOf(space, separation.state) : null;
    yield null;
  }
  return null;
}

/** One length, tried from the squeezed lay and then from near misses with two pieces swapped. */
function* tryLength(
  space: LaySpace,
  best: Lay,
  length: number,
  random: () => number,
  until: number,
): Generator<null, Lay | null> {
  const misses: { readonly state: LayState; readonly total: number }[] = [];
  let start = squeezed(space, best, length, random);
  for (let k = 0; k < EXPLORE.starts && space.meter.work < until; k += 1) {
    const separation = new Separation(space, start, length, random);
    const found = yield* separated(separation, space, EXPLORE, until);
    if (found) return found;
    misses.push({ state: separation.state, total: separation.total });
    misses.sort((a, b) => a.total - b.total);
    start = kicked(space, misses[Math.floor(random() ** 2 * misses.length)]!.state, random);
  }
  return null;
}

/** Bring a lay that is longer than the cloth onto it, if it can be done. Yields as explore does. */
export function* fitInto(
  space: LaySpace,
  first: Lay,
  random: () => number,
  until: number,
): Generator<Lay | null, Lay> {
  const most = space.mostLength;
  while (first.length > most && space.meter.work < until && most >= space.leastLength) {
    const found = yield* tryLength(space, first, most, random, until);
    if (!found) continue;
    yield found;
    return found;
  }
  return first;
}

/**
 * Shorten a lay by large steps: take length off, drive the overlap out; take off more after success, less after failure.
 * Yields each shorter lay, and null after every other piece moved.
 */
export function* explore(
  space: LaySpace,
  first: Lay,
  random: () => number,
  until: number,
): Generator<Lay | null, Lay> {
  let best = first;
  let share = STEP.most;
  while (space.meter.work < until && !isShortest(space, best)) {
    const length = Math.max(space.leastLength, best.length * (1 - share));
    const found = yield* tryLength(space, best, length, random, until);
    share = found ? Math.min(STEP.most, share * STEP.grow) : Math.max(STEP.least, share * STEP.shrink);
    if (!found) continue;
    best = found;
    yield best;
  }
  return best;
}

/** Shorten a lay by less and less until the budget ends; yields as explore does. */
export function* compress(
  space: LaySpace,
  first: Lay,
  random: () => number,
  until: number,
): Generator<Lay | null, Lay> {
  const from = space.meter.work;
  let best = first;
  while (space.meter.work < until && !isShortest(space, best)) {
    const part = (space.meter.work - from) / (until - from);
    const share = LAST_STEPS.first * (1 - part) + LAST_STEPS.last * part;
    const length = Math.max(space.leastLength, best.length * (1 - share));
    const separation = new Separation(space, squeezed(space, best, length, random), length, random);
    const found = yield* separated(separation, space, COMPRESS, until);
    if (!found) continue;
    best = found;
    yield best;
  }
  return best;
}
