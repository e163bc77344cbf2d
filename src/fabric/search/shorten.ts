import { kicked } from './kick';
import { isShortest, layOf } from './lay';
import type { Lay } from './lay';
import type { LaySpace, LayState } from './laySpace';
import { copyState } from './laySpace';
import { Separation } from './separation';
import { TUNING } from './tuning';

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

interface Found {
  readonly lay: Lay;
  readonly rounds: number;
}

/** One length, tried from a lay and, `starts` − 1 times, from near misses with two pieces swapped. */
function* tryLength(
  space: LaySpace,
  first: LayState,
  length: number,
  random: () => number,
  until: number,
  { starts, patience }: { readonly starts: number; readonly patience: number },
): Generator<null, Found | null> {
  const misses: { readonly state: LayState; readonly total: number }[] = [];
  let start = first;
  for (let k = 0; k < starts && space.meter.work < until; k += 1) {
    const separation = new Separation(space, start, length, random);
    const lay = yield* separated(separation, space, { patience, strikes: 1 }, until);
    if (lay) return { lay, rounds: separation.rounds };
    misses.push({ state: separation.state, total: separation.total });
    misses.sort((a, b) => a.total - b.total);
    start = kicked(space, length, misses[Math.floor(random() ** 2 * misses.length)]!.state, random);
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
  if (first.length <= most || most < space.leastLength) return first;
  const effort = { starts: Infinity, patience: TUNING.patience };
  const found = yield* tryLength(space, first.state, most, random, until, effort);
  if (!found) return first;
  yield found.lay;
  return found.lay;
}

/** How much larger the next step may be after one that took so many rounds. */
const easeOf = (rounds: number): number => (rounds < 8 ? 1.6 : rounds < 25 ? 1.15 : rounds < 60 ? 0.8 : 0.6);

/**
 * Shorten a lay by large steps: take length off, drive the overlap out; take off more after what was easy, less after failure.
 * Yields each shorter lay, and null after every other piece moved.
 */
export function* explore(
  space: LaySpace,
  first: Lay,
  random: () => number,
  until: number,
): Generator<Lay | null, Lay> {
  let best = first;
  let share = TUNING.stepMost;
  while (space.meter.work < until && !isShortest(space, best)) {
    const length = Math.max(space.leastLength, best.length * (1 - share));
    const start = squeezed(space, best, length, random);
    const effort =
      share <= TUNING.stepLeast
        ? { starts: TUNING.starts, patience: TUNING.patience }
        : { starts: 1, patience: TUNING.quick };
    const found = yield* tryLength(space, start, length, random, until, effort);
    share = share * (found ? easeOf(found.rounds) : TUNING.stepShrink);
    share = Math.min(TUNING.stepMost, Math.max(TUNING.stepLeast, share));
    if (!found) continue;
    best = found.lay;
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
  const effort = { patience: TUNING.lastPatience, strikes: TUNING.lastStrikes };
  let best = first;
  while (space.meter.work < until && !isShortest(space, best)) {
    const part = (space.meter.work - from) / (until - from);
    const share = TUNING.lastFirst * (1 - part) + TUNING.lastLast * part;
    const length = Math.max(space.leastLength, best.length * (1 - share));
    const separation = new Separation(space, squeezed(space, best, length, random), length, random);
    const found = yield* separated(separation, space, effort, until);
    if (!found) continue;
    best = found;
    yield best;
  }
  return best;
}
