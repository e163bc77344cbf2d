import { problem } from '../../pattern';
import type { Problem, Remnant } from '../../pattern';
import type { ClothPlan, LayJob } from '../layPlan';
import { startLay, WORK_PER_SECOND } from '../search/startLay';
import { ownCloths } from './ownCloth';
import { ClothSearcher } from './searchCloth';

/** A search for how the pieces of one colour are cut, run in slices like a LaySearch; the same job and remnants give the same plans. */
export interface ClothSearch {
  /** The best so far; there is one from the start, and every plan in it passed checkLay. */
  readonly best: ClothPlan;
  /** Share of the budget used, 0..1. */
  readonly progress: number;
  /** Budget used up, or nothing left to gain. */
  readonly done: boolean;
  /** Search on for about this much work (WORK_PER_SECOND is a second's). @returns whether `best` has changed */
  step(work: number): boolean;
}

/** Everything from bought cloth. @param said what is put to the plan's problems */
function startBought(job: LayJob, said: readonly Problem[] = []): ClothSearch {
  const search = startLay(job);
  const planOf = (): ClothPlan => ({
    own: [],
    bought:
      said.length === 0 ? search.best : { ...search.best, problems: [...search.best.problems, ...said] },
  });
  let best = planOf();
  return {
    get best() {
      return best;
    },
    get progress() {
      return search.progress;
    },
    get done() {
      return search.done;
    },
    step(work) {
      const isBetter = search.step(work);
      if (isBetter) best = planOf();
      return isBetter;
    },
  };
}

/** A searcher in slices. */
class RunningClothSearch implements ClothSearch {
  done = false;
  private readonly searcher: ClothSearcher;
  private readonly run: Generator<void, void>;

  constructor(searcher: ClothSearcher) {
    this.searcher = searcher;
    this.run = searcher.run();
  }

  get best(): ClothPlan {
    return this.searcher.best;
  }

  get progress(): number {
    const { spent, mostWork } = this.searcher;
    return this.done ? 1 : mostWork === 0 ? 0 : Math.min(1, spent / mostWork);
  }

  step(work: number): boolean {
    const { searcher } = this;
    const [before, until] = [searcher.best, searcher.spent + work];
    while (!this.done && searcher.spent < until) this.done = this.run.next().done === true;
    return searcher.best !== before;
  }
}

/**
 * Begin to lay the pieces of one colour: on one's own cloth first, so that the least is bought, the rest on what is bought. A first
 * plan is there at once. Never more is bought in the end than without one's own cloth. Where a print's repeat holds the pieces, one's
 * own cloth is not laid on (where its print lies is not known), and the bought plan says so.
 * @param remnants one's own pieces of cloth, washed; those of other colours are left alone
 * @throws RangeError as startLay
 */
export function startCloth(job: LayJob, remnants: readonly Remnant[]): ClothSearch {
  // more of one kind than there are pieces are of no use
  const cloths = ownCloths(remnants, job.colour).filter(({ copy }) => copy <= job.pieces.length);
  if (cloths.length === 0 || job.pieces.length === 0) return startBought(job);
  const isPrinted = job.repeat.along > 0 || job.repeat.across > 0;
  const movable = job.pieces.flatMap((piece, i) => (isPrinted && piece.anchor ? [] : [i]));
  if (movable.length === 0)
    return startBought(job, [problem('own-cloth-printed', { colour: job.colourName })]);
  return new RunningClothSearch(new ClothSearcher(job, cloths, movable));
}

/** The best plan within the job's budget. Same job and remnants, same plan, to the last bit. @throws RangeError as startLay */
export function planCloth(job: LayJob, remnants: readonly Remnant[]): ClothPlan {
  const search = startCloth(job, remnants);
  while (!search.done) search.step(WORK_PER_SECOND);
  return search.best;
}
