import { SAME_LENGTH } from '../geometry';
import type { Layering } from '../pattern';
import type { LayPlan } from './layPlan';

/** What speaks for a way of laying, the weightiest first; `equal`: nothing does. */
export type LayeringReason = 'fits' | 'buy' | 'cuts' | 'length' | 'equal';

/** Cloth in one layer against the same cloth folded lengthwise. */
export interface LayeringChoice {
  readonly proposed: Layering;
  readonly because: LayeringReason;
  /** What the proposed way saves against the other, mm; below 0 where it costs that much and is proposed all the same. */
  readonly saves: { readonly buy: number; readonly length: number };
  /** Outlines to cut round: what is cut through both layers, or lies on the fold, counts once. Null where there is no plan. */
  readonly cuts: { readonly single: number | null; readonly folded: number | null };
}

const isPlan = ({ placed }: LayPlan): boolean => placed.length > 0;

/**
 * Outlines to cut round in a plan. On folded cloth both copies of a pair are cut at once; one layer is cut piece by piece. A piece on the fold
 * is cut once, as it would be in one layer.
 */
function cutsIn({ placed, layering }: LayPlan): number {
  if (layering === 'single') return placed.length;
  const seconds = placed.filter(({ panel, copy, flipped }) =>
    flipped ? placed.some((o) => o.panel === panel && !o.flipped && o.copy === copy - 1) : false,
  );
  return placed.length - seconds.length;
}

function reasonFor(
  single: LayPlan,
  folded: LayPlan,
  cuts: { readonly single: number; readonly folded: number },
): readonly [Layering, LayeringReason] {
  if (isPlan(single) !== isPlan(folded)) return [isPlan(single) ? 'single' : 'folded', 'fits'];
  const least = (a: number, b: number, why: LayeringReason): readonly [Layering, LayeringReason] => [
    a <= b ? 'single' : 'folded',
    why,
  ];
  if (Math.abs(single.buy - folded.buy) >= SAME_LENGTH) return least(single.buy, folded.buy, 'buy');
  if (cuts.single !== cuts.folded) return least(cuts.single, cuts.folded, 'cuts');
  if (Math.abs(single.length - folded.length) >= SAME_LENGTH)
    return least(single.length, folded.length, 'length');
  return ['single', 'equal'];
}

/**
 * Which of two plans of the same job is to be proposed, by what is bought first, then by the number of cuts, then by length; a plan goes
 * before none. Facts only: words are said where they are shown.
 * @throws RangeError where one of them was not laid as said
 */
export function compareLayerings(single: LayPlan, folded: LayPlan): LayeringChoice {
  if (single.layering !== 'single' || folded.layering !== 'folded')
    throw new RangeError('one plan in a single layer is compared with one on folded cloth');
  const cuts = { single: cutsIn(single), folded: cutsIn(folded) };
  const [proposed, because] = reasonFor(single, folded, cuts);
  const [own, other] = proposed === 'single' ? [single, folded] : [folded, single];
  const both = isPlan(single) && isPlan(folded);
  return {
    proposed,
    because,
    saves: both ? { buy: other.buy - own.buy, length: other.length - own.length } : { buy: 0, length: 0 },
    cuts: {
      single: isPlan(single) ? cuts.single : null,
      folded: isPlan(folded) ? cuts.folded : null,
    },
  };
}
