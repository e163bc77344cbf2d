import { problem } from '../../pattern';
import type { Problem } from '../../pattern';
import { bottomLeft } from './bottomLeft';
import { checkLay } from '../check/checkLay';
import { lengthToBuy } from '../shopping/counter';
import { layOf } from './lay';
import type { Lay } from './lay';
import type { LayJob, LayPlan } from '../layPlan';
import { LaySpace } from './laySpace';
import { rowPlan } from './rowPlan';
import { seededRandom } from './random';
import { firstOrder, searchOrders } from './searchOrders';
import { compress, explore } from './shorten';

/**
 * Search work in one nominal second: pair look-ups and the like, as counted by LaySpace.work. Measured once on a 2-core
 * machine under Node 20; fixed since, so that a budget in seconds is the same number of steps everywhere.
 */
export const WORK_PER_SECOND = 60e6;

/** Shares of the budget: other orders, shortening by big steps; the rest goes into small steps. */
const ORDERS_SHARE = 0.08;
const EXPLORE_SHARE = 0.75;

/** A lay search that can be run in slices. The same job gives the same plans in the same order, however it is sliced. */
export interface LaySearch {
  /** The shortest plan so far; there is one from the start, and every one passed checkLay. */
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
  if (!isMeasure(job.gap)) throw new RangeError(`a gap of ${job.gap} mm between pieces makes no sense`);
  if (!isMeasure(job.seconds)) throw new RangeError(`a budget of ${job.seconds} s makes no sense`);
  for (const p of job.pieces) {
    const isFinite =
      p.cutting.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)) && Number.isFinite(p.grainAngle);
    if (!isFinite || p.cutting.length < 3)
      throw new RangeError(`the cutting line of panel ${p.number} cannot be laid`);
  }
}

/** One problem per panel that fits the cloth in none of its turns. */
function tooWide(space: LaySpace): Problem[] {
  const { job } = space;
  const said = new Set<string>();
  return job.pieces.flatMap((piece, i) => {
    if (space.turns[i]!.length > 0 || said.has(piece.panel)) return [];
    said.add(piece.panel);
    const facts = {
      panel: piece.number,
      across: space.widthNeeded[i]!,
      width: job.width,
      colour: job.colourName,
    };
    return [problem('panel-wider-than-cloth', facts)];
  });
}

const noPlan = (job: LayJob, problems: readonly Problem[]): LayPlan => ({
  colour: job.colour,
  width: job.width,
  layering: job.layering,
  within: job.within,
  length: 0,
  buy: 0,
  density: 0,
  seconds: job.seconds,
  placed: [],
  problems,
});

function planFrom(space: LaySpace, lay: Lay): LayPlan {
  const { job } = space;
  return {
    ...noPlan(job, []),
    length: lay.length,
    buy: lengthToBuy(lay.length, job),
    density: space.area / (lay.length * job.width),
    placed: space.placements(lay.state),
  };
}

/** More different shapes (pieces and turns) than this are laid once and not searched: their pairs would fill the memory. */
const MOST_SHAPES = 120;

/** The first lays; the search goes on from the shortest that is sound. */
const firstLays = (space: LaySpace): Lay[] =>
  [layOf(space, bottomLeft(space, firstOrder(space))), layOf(space, rowPlan(space))].sort(
    (a, b) => a.length - b.length,
  );

function* searchAll(
  space: LaySpace,
  first: Lay,
  random: () => number,
  from: number,
  budget: number,
): Generator<Lay | null> {
  const exploreFrom = from + budget * ORDERS_SHARE;
  const compressFrom = from + budget * (ORDERS_SHARE + EXPLORE_SHARE);
  let best = yield* searchOrders(space, first, random, exploreFrom);
  best = yield* explore(space, best, random, compressFrom);
  yield* compress(space, best, random, from + budget);
}

class RunningSearch implements LaySearch {
  best: LayPlan;
  done: boolean;
  private readonly space: LaySpace;
  private readonly from: number;
  private readonly budget: number;
  private readonly run: Generator<Lay | null>;

  constructor(space: LaySpace) {
    this.space = space;
    this.budget = space.job.seconds * WORK_PER_SECOND;
    this.done = this.budget === 0 || space.shapes.length > MOST_SHAPES;
    const sound = firstLays(space).find(
      (lay) => checkLay(space.job, space.placements(lay.state)).length === 0,
    );
    if (!sound)
      throw new Error(`no sound first lay for ${space.job.colourName}: ${JSON.stringify(space.job)}`);
    this.best = planFrom(space, sound);
    this.from = space.meter.work;
    this.run = searchAll(space, sound, seededRandom(space.job.seed), this.from, this.budget);
  }

  get progress(): number {
    return this.done ? 1 : Math.min(1, (this.space.meter.work - this.from) / this.budget);
  }

  step(work: number): boolean {
    const until = this.space.meter.work + work;
    const before = this.best;
    while (!this.done && this.space.meter.work < until) {
      const next = this.run.next();
      if (next.done) this.done = true;
      else if (next.value && next.value.length < this.best.length) this.offer(next.value);
    }
    return this.best !== before;
  }

  /** Nothing becomes `best` without passing the exact check. */
  private offer(lay: Lay): void {
    if (checkLay(this.space.job, this.space.placements(lay.state)).length === 0)
      this.best = planFrom(this.space, lay);
  }
}

/**
 * Begin to lay the pieces of one colour. The first plan is there at once.
 * @throws RangeError for a job that makes no sense (see LayJob)
 */
export function startLay(job: LayJob): LaySearch {
  assertSound(job);
  const settled = (best: LayPlan): LaySearch => ({ best, progress: 1, done: true, step: () => false });
  if (job.pieces.length === 0) return settled(noPlan(job, []));
  const space = new LaySpace(job);
  const problems = tooWide(space);
  return problems.length > 0 ? settled(noPlan(job, problems)) : new RunningSearch(space);
}

/** The best plan within the job's budget. Same job, same plan, to the last bit. @throws RangeError as startLay */
export function planLay(job: LayJob): LayPlan {
  const search = startLay(job);
  while (!search.done) search.step(WORK_PER_SECOND);
  return search.best;
}
