import type { ClothPlan, ClothShape, LayJob, LayPlan } from '../layPlan';
import { seededRandom } from '../search/random';
import { startLay, WORK_PER_SECOND } from '../search/startLay';
import type { LaySearch } from '../search/startLay';
import { restOf } from './fillCloths';
import type { Fill } from './fillCloths';
import { FillSpace } from './fillSpace';
import { compareClothPlans, jobFor, plansOf, thinnedPlan } from './ownPlan';
import { searchFills } from './searchFills';

/** Share of a job's budget spent on what to lay on one's own cloth; the rest is laid with a budget of its own. */
const FILL_SHARE = 0.25;
/** Density of bought cloth while there is no plan of it. */
const USUAL_DENSITY = 0.75;
/** Work of one slice of a lay search: about 20 ms. */
const SLICE = WORK_PER_SECOND / 50;
/** What the first plan of a rest counts for. */
const FIRST_PLAN = WORK_PER_SECOND / 20;

/** A way to use one's own cloth, and the first plan of what is left over. */
interface Candidate {
  readonly fill: Fill;
  readonly plan: ClothPlan;
}

/**
 * Lays pieces on one's own cloth first and the rest on bought cloth. Never ends with more bought than the search that has no cloth of
 * one's own: where its rest could be longer than that one's plan, that search is run too.
 */
export class ClothSearcher {
  best: ClothPlan;
  /** Work done, and what it will be at most. */
  spent = 0;
  private readonly job: LayJob;
  private readonly space: FillSpace;
  private readonly movable: readonly number[];
  private readonly withoutOwn: LaySearch;

  /** @param movable pieces (indices) that may lie on one's own cloth */
  constructor(job: LayJob, cloths: readonly ClothShape[], movable: readonly number[]) {
    this.job = job;
    this.movable = movable;
    this.withoutOwn = startLay(job);
    this.best = { own: [], bought: this.withoutOwn.best };
    this.space = new FillSpace(job, cloths);
    const first = this.fills(0);
    for (let next = first.next(); ; next = first.next()) {
      if (!next.done) continue;
      for (const { fill } of next.value) this.offer(this.quick(fill) ?? this.best);
      break;
    }
  }

  get mostWork(): number {
    return this.job.seconds * WORK_PER_SECOND * (2 + FILL_SHARE);
  }

  private offer(plan: ClothPlan): boolean {
    const isBetter = compareClothPlans(plan, this.best) < 0;
    if (isBetter) this.best = plan;
    return isBetter;
  }

  /** The whole search. Yields after each slice of work. */
  *run(): Generator<void, void> {
    const candidate = yield* this.chosenFill();
    if (!candidate) return yield* this.search(this.withoutOwn, []);
    this.offer(candidate.plan);
    const { fill, plan } = candidate;
    const rest = restOf(this.space, fill);
    if (rest.length === 0) return;
    const bought = startLay(jobFor(this.job, rest));
    this.offer({ own: plan.own, bought: bought.best });
    yield* this.search(bought, plan.own);
    if (bought.best.length <= this.leastLength() && bought.best.placed.length > 0) return;
    yield* this.search(this.withoutOwn, []);
    const thinned = thinnedPlan(this.job, this.withoutOwn.best, rest);
    if (thinned) this.offer({ own: plan.own, bought: thinned });
  }

  /** Run a search to its end; its plans go with these on one's own cloth. */
  private *search(search: LaySearch, own: readonly LayPlan[]): Generator<void, void> {
    while (!search.done) {
      if (search.step(SLICE)) this.offer({ own, bought: search.best });
      this.spent += SLICE;
      yield;
    }
    this.offer({ own, bought: search.best });
  }

  /** No plan of all pieces on bought cloth can be shorter, mm. */
  private leastLength(): number {
    const { width, margin, pieces } = this.job;
    const area = pieces.reduce((sum, _, i) => sum + this.space.areaOf(i), 0);
    const longest = this.space.turns.map((forms) => Math.min(...forms.map(({ length }) => length)));
    return Math.max(area / (width - 2 * margin), ...longest);
  }

  private quick(fill: Fill): ClothPlan | null {
    const own = plansOf(this.space, fill);
    if (!own) return null;
    const rest = jobFor(this.job, restOf(this.space, fill));
    this.spent += FIRST_PLAN;
    return { own, bought: startLay({ ...rest, seconds: 0 }).best };
  }

  /** Good fills, found with so many nominal seconds; the first order is always laid. */
  private fills(seconds: number): ReturnType<typeof searchFills> {
    const { space, withoutOwn, job } = this;
    const density = withoutOwn.best.density || USUAL_DENSITY;
    const until = space.meter.work + seconds * WORK_PER_SECOND;
    return searchFills(space, this.movable, density, seededRandom(job.seed), until);
  }

  /** The best use of one's own cloth, judged by first plans of what it leaves; null where none is worth it. */
  private *chosenFill(): Generator<void, Candidate | null> {
    const { space } = this;
    const search = this.fills(FILL_SHARE * this.job.seconds);
    const before = this.spent - space.meter.work;
    let next = search.next();
    for (; !next.done; next = search.next()) {
      this.spent = before + space.meter.work;
      yield;
    }
    const candidates: Candidate[] = [
      { fill: space.cloths.map(() => []), plan: { own: [], bought: this.withoutOwn.best } },
    ];
    for (const { fill } of next.value) {
      yield;
      const plan = this.quick(fill);
      if (plan) candidates.push({ fill, plan });
    }
    const [best] = candidates.sort((a, b) => compareClothPlans(a.plan, b.plan));
    const chosen = yield* this.withFewerCloths(best!);
    return chosen.plan.own.length > 0 ? chosen : null;
  }

  /** Cloths that save nothing worth it are left whole, the one with the least on it first. */
  private *withFewerCloths(candidate: Candidate): Generator<void, Candidate> {
    let now = candidate;
    const areaOn = (c: number): number =>
      candidate.fill[c]!.reduce((sum, { piece }) => sum + this.space.areaOf(piece), 0);
    const touched = this.space.cloths.map((_, c) => c).filter((c) => candidate.fill[c]!.length > 0);
    for (const c of touched.sort((a, b) => areaOn(a) - areaOn(b))) {
      yield;
      const fill = now.fill.map((laid, i) => (i === c ? [] : laid));
      const plan = this.quick(fill);
      if (plan && compareClothPlans(plan, now.plan) < 0) now = { fill, plan };
    }
    return now;
  }
}
