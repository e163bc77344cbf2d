import type { ClothPlan, ClothShape, LayJob, LayPlan } from '../layPlan';
import { seededRandom } from '../search/random';
import { startLay, WORK_PER_SECOND } from '../search/startLay';
import { compareClothPlans } from './compareClothPlans';
import { FillSpace } from './fillSpace';
import { ontoFewerCloths, withFewerCloths, withLargerLeftOvers, withMorePieces } from './improveShared';
import { laidOut, restBeside, sharedOut } from './layRest';
import type { Shared, Steps } from './layRest';
import { jobFor, plansOf, thinnedPlan } from './ownPlan';
import { searchFills } from './searchFills';

/**
 * Shares of a job's budget, each beside what the rest is laid with: what to lay on one's own cloth, pushing further pieces onto it,
 * doing with fewer pieces of it, making what is left of it larger.
 */
const FILL_SHARE = 0.25;
const MORE_SHARE = 0.3;
const FEWER_SHARE = 0.3;
const TIDY_SHARE = 0.15;
/** Density of bought cloth while there is no plan of it. */
const USUAL_DENSITY = 0.75;

/**
 * Lays pieces on one's own cloth first and the rest on bought cloth. Never ends with more bought than the search that has no cloth of
 * one's own: where its rest could be longer than that one's plan, that search is run too.
 */
export class ClothSearcher {
  best: ClothPlan;
  /** Work done. */
  spent = 0;
  private readonly job: LayJob;
  private readonly space: FillSpace;
  private readonly movable: readonly number[];

  /** @param movable pieces (indices) that may lie on one's own cloth */
  constructor(job: LayJob, cloths: readonly ClothShape[], movable: readonly number[]) {
    this.job = job;
    this.movable = movable;
    this.best = { own: [], bought: { ...startLay({ ...job, seconds: 0 }).best, seconds: job.seconds } };
    this.space = new FillSpace(job, cloths);
    const first = this.fills(0);
    let next = first.next();
    while (!next.done) next = first.next();
    const [own] = next.value;
    if (own) this.offer({ own, bought: startLay({ ...jobFor(job, restBeside(job, own)), seconds: 0 }).best });
  }

  /** What the work will come to at most, but for first plans. */
  get mostWork(): number {
    return this.job.seconds * WORK_PER_SECOND * (2 + FILL_SHARE + MORE_SHARE + FEWER_SHARE + TIDY_SHARE);
  }

  /** @param enough 0: a plan that is just as good is taken too */
  private offer({ own, bought }: ClothPlan, enough = -Number.MIN_VALUE): void {
    // first plans of a rest have no budget of their own
    const plan = { own, bought: { ...bought, seconds: this.job.seconds } };
    if (compareClothPlans(plan, this.best) <= enough) this.best = plan;
  }

  /** The whole search. Yields after each slice of work. */
  *run(): Steps<void> {
    const { job } = this;
    const chosen = yield* this.chosen();
    this.offer(chosen.plan);
    if (chosen.own.length === 0) {
      yield* this.laid(job, []);
      return;
    }
    const { rest } = chosen;
    const own =
      job.seconds === 0
        ? chosen.own
        : yield* withLargerLeftOvers(chosen.own, job, TIDY_SHARE * job.seconds, this);
    this.offer({ own, bought: chosen.plan.bought }, 0);
    if (rest.length === 0) return;
    const bought = yield* this.laid(jobFor(job, rest), own);
    if (bought.placed.length > 0 && bought.length <= this.leastLength()) return;
    const whole = yield* this.laid(job, []);
    const thinned = thinnedPlan(job, whole, rest);
    if (thinned) this.offer({ own, bought: thinned });
  }

  /** The plan of a job on bought cloth within its budget; each one is offered together with these on one's own. */
  private laid(job: LayJob, own: readonly LayPlan[]): Steps<LayPlan> {
    return laidOut(job, this, (bought) => this.offer({ own, bought }));
  }

  /** No plan of all pieces on bought cloth can be shorter, mm. */
  private leastLength(): number {
    const { width, margin, pieces } = this.job;
    const area = pieces.reduce((total, _, i) => total + this.space.areaOf(i), 0);
    const longest = this.space.turns.map((forms) => Math.min(...forms.map(({ length }) => length)));
    return Math.max(area / (width - 2 * margin), ...longest);
  }

  /** Plans on one's own cloth with unlike rests, found with so many nominal seconds; the first order is always laid. Best first. */
  private *fills(seconds: number): Steps<readonly (readonly LayPlan[])[]> {
    const { space, best, job } = this;
    const density = best.bought.density || USUAL_DENSITY;
    const from = space.meter.work;
    const until = from + seconds * WORK_PER_SECOND;
    const before = this.spent;
    const search = searchFills(space, this.movable, density, seededRandom(job.seed), until);
    for (;;) {
      const next = search.next();
      this.spent = before + space.meter.work - from;
      if (next.done)
        return next.value.flatMap(({ fill }) => [plansOf(space, fill)]).filter((own) => own !== null);
      yield;
    }
  }

  /** The best use of one's own cloth, judged by first plans of what it leaves. */
  private *chosen(): Steps<Shared> {
    const { job, space } = this;
    let best = yield* sharedOut(job, [], this);
    for (const own of yield* this.fills(FILL_SHARE * job.seconds)) {
      const shared = yield* sharedOut(job, own, this);
      if (compareClothPlans(shared.plan, best.plan) < 0) best = shared;
    }
    // a quick look: nothing is searched
    if (job.seconds === 0) return yield* withFewerCloths(best, space, this);
    best = yield* withMorePieces(best, space, this.movable, MORE_SHARE * job.seconds, this);
    best = yield* withFewerCloths(best, space, this);
    return yield* ontoFewerCloths(best, space, FEWER_SHARE * job.seconds, this);
  }
}
