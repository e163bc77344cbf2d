import { checkLay } from '../check/checkLay';
import type { LayJob, LayPlan } from '../layPlan';
import type { Lay } from './lay';
import { LaySpace } from './laySpace';
import { noPlan, planFrom } from './planFrom';
import { searchAll } from './searchAll';
import { tooWide } from './tooWide';

/**
 * Search work in one nominal second: pair look-ups and the like, as counted by LaySpace.work. Measured once on a 2-core
 * machine under Node 20; fixed since, so that a budget in seconds is the same number of steps everywhere.
 */
export const WORK_PER_SECOND = 150e6;

/** A lay search that can be run in slices. The same job gives the same plans in the same order, however it is sliced. */
export interface LaySearch {
  /**
   * The shortest plan so far; every one passed checkLay. There is one from the start, but where all is to be laid on one's own
   * cloth it stays empty (nothing placed, no problems) until a plan with all pieces on it is found.
   */
  readonly best: LayPlan;
  /** Share of the budget used, 0..1. */
  readonly progress: number;
  /** Budget used up, or nothing left to gain. */
  readonly done: boolean;
  /** Search on for about this much work (WORK_PER_SECOND is a second's). @returns whether `best` has changed */
  step(work: number): boolean;
}

/** @throws RangeError for a job no cloth could be laid for: the caller's mistake */
function assertSound(job: LayJob): void {
  const isMeasure = (v: number): boolean => Number.isFinite(v) && v >= 0;
  if (!isMeasure(job.width) || job.width === 0)
    throw new RangeError(`cloth ${job.width} mm wide cannot be laid`);
  if (!isMeasure(job.margin)) throw new RangeError(`a margin of ${job.margin} mm makes no sense`);
  if (!isMeasure(job.repeat.along) || !isMeasure(job.repeat.across))
    throw new RangeError(`a repeat of ${job.repeat.along} by ${job.repeat.across} mm makes no sense`);
  if (!isMeasure(job.gap)) throw new RangeError(`a gap of ${job.gap} mm between pieces makes no sense`);
  if (!isMeasure(job.seconds)) throw new RangeError(`a budget of ${job.seconds} s makes no sense`);
  for (const p of job.pieces) {
    const isFinite =
      p.cutting.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)) && Number.isFinite(p.grainAngle);
    if (!isFinite || p.cutting.length < 3)
      throw new RangeError(`the cutting line of panel ${p.number} cannot be laid`);
  }
}

/** Rounding of doubles at cloth size, mm. */
const ROUNDING = 1e-9;

/** Work between two checks of what was found: small improvements come in quick succession. */
const OFFER_EVERY = WORK_PER_SECOND / 25;

/** What the exact check costs per corner of the pieces, in work. */
const CHECK_WORK = 500;

class RunningSearch implements LaySearch {
  best: LayPlan;
  done = false;
  private readonly space: LaySpace;
  private readonly budget: number;
  /** The shortest lay found since the last one was checked, and the work at which it will be. */
  private found: Lay | null = null;
  private nextOffer = 0;
  private readonly corners: number;
  private readonly run: Generator<Lay | null>;

  constructor(space: LaySpace) {
    this.space = space;
    this.budget = space.job.seconds * WORK_PER_SECOND;
    this.best = noPlan(space.job, []);
    this.corners = space.job.pieces.reduce((sum, p) => sum + p.cutting.length, 0);
    this.run = searchAll(space, this.budget);
    while (!this.done && !this.hasBegun) this.advance();
  }

  /** On one's own cloth there may be no plan at all. */
  private get hasBegun(): boolean {
    return this.best.placed.length > 0 || this.space.mostLength < Infinity;
  }

  get progress(): number {
    return this.done ? 1 : this.budget === 0 ? 0 : Math.min(1, this.space.meter.work / this.budget);
  }

  step(work: number): boolean {
    const until = this.space.meter.work + work;
    const before = this.best;
    while (!this.done && this.space.meter.work < until) this.advance();
    return this.best !== before;
  }

  private advance(): void {
    const next = this.run.next();
    const { meter } = this.space;
    if (next.value && next.value.length < (this.found?.length ?? Infinity)) this.found = next.value;
    this.done = next.done === true;
    if (this.found && (this.done || meter.work >= this.nextOffer || this.best.placed.length === 0)) {
      this.offer(this.found);
      this.found = null;
      this.nextOffer = meter.work + OFFER_EVERY;
    }
    if (!this.done) return;
    const { job } = this.space;
    if (!this.hasBegun)
      throw new Error(`no sound first lay for ${job.pieces.length} pieces of ${job.colourName}`);
  }

  /** Nothing becomes `best` without passing the exact check. */
  private offer(lay: Lay): void {
    const { length, placed } = this.best;
    if (lay.length > this.space.mostLength + ROUNDING || (placed.length > 0 && lay.length >= length)) return;
    this.space.meter.work += CHECK_WORK * this.corners;
    if (checkLay(this.space.job, this.space.placements(lay.state)).length === 0)
      this.best = planFrom(this.space, lay);
  }
}

/**
 * Begin to lay the pieces of one colour. The first plan is there at once (see LaySearch.best).
 * @throws RangeError for a job that makes no sense (see LayJob)
 */
export function startLay(job: LayJob): LaySearch {
  assertSound(job);
  const settled = (best: LayPlan): LaySearch => ({ best, progress: 1, done: true, step: () => false });
  if (job.pieces.length === 0) return settled(noPlan(job, []));
  const space = new LaySpace(job);
  if (space.turns.every((turns) => turns.length > 0)) return new RunningSearch(space);
  // that a panel does not fit one's own cloth is no problem: it is bought
  return settled(noPlan(job, job.within ? [] : tooWide(space)));
}

/** The best plan within the job's budget. Same job, same plan, to the last bit. @throws RangeError as startLay */
export function planLay(job: LayJob): LayPlan {
  const search = startLay(job);
  while (!search.done) search.step(WORK_PER_SECOND);
  return search.best;
}
