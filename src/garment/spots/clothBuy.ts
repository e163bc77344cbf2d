import { type ClothPlan, type LayJob, WORK_PER_SECOND, costOf, startCloth } from '../../fabric';
import type { ColourId, Design } from '../../pattern';

/** What one cloth comes to, read from a plan that passed the exact check. */
export interface ClothBuy {
  readonly colour: ColourId;
  readonly name: string;
  /** Length the plan on bought cloth uses, mm. */
  readonly length: number;
  /** What to ask for at the counter, mm. */
  readonly buy: number;
  /** In the user's money; null without a price. */
  readonly cost: number | null;
  /** Numbers of panels that are wider than the cloth: while there are any there is no plan, and length and buy are 0. */
  readonly misfits: readonly number[];
}

/** How well cloth is laid: the first lay, a short search, or a longer one. Plans are compared with plans of the same care only. */
export type Care = 'quick' | 'better' | 'best';

/** Nominal seconds of search for each care. */
export const CARE_SECONDS: Readonly<Record<Care, number>> = { quick: 0, better: 0.4, best: 2 };

/** Search work between two yields, in nominal seconds: a cancelled search ends after one more of these. */
const SLICE_SECONDS = 0.02;

/** Lay one cloth; every yield is a chance to leave off. */
export type LayCloth = (job: LayJob, care: Care) => Generator<undefined, ClothBuy>;

/** Panels that no plan can be had for; where one is the reason, it alone. */
function misfitsOf(job: LayJob, { own, bought }: ClothPlan): readonly number[] {
  const laid = own.reduce((count, plan) => count + plan.placed.length, bought.placed.length);
  if (laid === job.pieces.length) return [];
  const said = bought.problems.flatMap((p) => (p.code === 'panel-wider-than-cloth' ? [p.facts.panel] : []));
  return said.length > 0 ? said : [...new Set(job.pieces.map(({ number }) => number))];
}

/** How the cloths of a design are laid: on one's own pieces of cloth first, as the lay plans shown elsewhere are. */
export const clothLayer = ({ remnants, colours }: Pick<Design, 'remnants' | 'colours'>): LayCloth =>
  function* lay(job, care) {
    const search = startCloth({ ...job, seconds: CARE_SECONDS[care] }, remnants);
    while (care !== 'quick' && !search.done) {
      yield;
      search.step(SLICE_SECONDS * WORK_PER_SECOND);
    }
    const { length, buy } = search.best.bought;
    const price = colours.find(({ id }) => id === job.colour)?.price ?? null;
    return {
      colour: job.colour,
      name: job.colourName,
      length,
      buy,
      cost: price === null ? null : costOf(buy, price),
      misfits: misfitsOf(job, search.best),
    };
  };

/** Run a search to its end without ever leaving off. */
export function finish<T>(search: Generator<unknown, T>): T {
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
  }
}
