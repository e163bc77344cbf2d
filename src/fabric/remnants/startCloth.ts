import type { Remnant } from '../../pattern';
import type { ClothPlan, LayJob } from '../layPlan';
import { startLay } from '../search/startLay';

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

/** Everything from bought cloth. */
function startBought(job: LayJob): ClothSearch {
  const search = startLay(job);
  let best: ClothPlan = { own: [], bought: search.best };
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
      if (isBetter) best = { own: [], bought: search.best };
      return isBetter;
    },
  };
}

/**
 * Begin to lay the pieces of one colour: all on what is bought; one’s own cloth is not laid on yet. A first plan is there at once.
 * @param remnants one's own pieces of cloth, washed; those of other colours are left alone
 * @throws RangeError as startLay
 */
export function startCloth(job: LayJob, remnants: readonly Remnant[]): ClothSearch {
  void remnants;
  return startBought(job);
}
