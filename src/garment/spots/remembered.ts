import type { LayJob } from '../../fabric';
import type { Care, ClothBuy, LayCloth } from './clothBuy';
import { jobKey } from './jobKey';

/** As many results are kept: a long drag with a search for spots at each rest has some hundred. */
const KEPT = 600;

/** A laying that knows what it has laid. */
export interface RememberedLay extends LayCloth {
  /** Whether a job laid with this care need not be laid again. */
  readonly knows: (job: LayJob, care: Care) => boolean;
}

/**
 * The same laying, each job once: while one line moves most cloths stay what they are, and a hand goes back and forth.
 * @param lay must give the same result for the same job and care
 */
export function remembered(lay: LayCloth): RememberedLay {
  const known = new Map<string, ClothBuy>();
  const keyOf = (job: LayJob, care: Care): string => `${care} ${jobKey(job)}`;
  function* layOnce(job: LayJob, care: Care): Generator<undefined, ClothBuy> {
    const key = keyOf(job, care);
    const hit = known.get(key);
    if (hit) return hit;
    const buy = yield* lay(job, care);
    known.set(key, buy);
    if (known.size > KEPT) known.delete(known.keys().next().value!);
    return buy;
  }
  return Object.assign(layOnce, { knows: (job: LayJob, care: Care) => known.has(keyOf(job, care)) });
}
