import type { ClothPlan, LayJob, LayPlan } from '../layPlan';
import { startLay, WORK_PER_SECOND } from '../search/startLay';
import { firstCopies, jobFor } from './ownPlan';

/** Work of one slice of a lay search: about 20 ms. */
export const SLICE = WORK_PER_SECOND / 50;

/** What the beginning of a search counts for, which is done in one go. */
const BEGINNING = WORK_PER_SECOND / 10;

/** Counts work; yields after each slice of it. */
export type Steps<T> = Generator<void, T>;

/** Where work is counted. */
export interface Meter {
  spent: number;
}

/**
 * The plan of a job within its budget.
 * @param onBetter told of each plan, the first included
 * @param isEnough ends the search early
 */
export function* laidOut(
  job: LayJob,
  meter: Meter,
  onBetter: (plan: LayPlan) => void = () => undefined,
  isEnough: (plan: LayPlan) => boolean = () => false,
): Steps<LayPlan> {
  const search = startLay(job);
  onBetter(search.best);
  if (job.pieces.length > 0) {
    meter.spent += BEGINNING;
    yield;
  }
  while (!search.done && !isEnough(search.best)) {
    if (search.step(SLICE)) onBetter(search.best);
    meter.spent += SLICE;
    yield;
  }
  return search.best;
}

/** A way to cut a colour: plans on one's own cloth, and the first plan of the rest. */
export interface Shared {
  readonly own: readonly LayPlan[];
  /** Pieces (indices) that are bought for. */
  readonly rest: readonly number[];
  readonly plan: ClothPlan;
}

/** The pieces of a job that lie on none of the plans. */
export function restBeside(job: LayJob, own: readonly LayPlan[]): number[] {
  const laid = new Set(own.flatMap(({ placed }) => placed.map(({ panel, copy }) => `${panel} ${copy}`)));
  return job.pieces.flatMap(({ panel, copy }, i) => (laid.has(`${panel} ${copy}`) ? [] : [i]));
}

/** With plans on one's own cloth: the rest, quickly laid. */
export function* sharedOut(job: LayJob, plans: readonly LayPlan[], meter: Meter): Steps<Shared> {
  const own = firstCopies(plans);
  const rest = restBeside(job, own);
  const bought = yield* laidOut({ ...jobFor(job, rest), seconds: 0 }, meter);
  return { own, rest, plan: { own, bought } };
}
