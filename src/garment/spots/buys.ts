import { type LayJob, layJobs, lengthToBuy } from '../../fabric';
import type { ColourId, Design } from '../../pattern';
import { deriveGarment } from '../deriveGarment';
import type { Care, ClothBuy, LayCloth } from './clothBuy';
import { jobKey } from './jobKey';

/** What one cloth comes to before and after; null where nothing is cut from it. */
export interface ClothChange {
  readonly colour: ColourId;
  readonly name: string;
  readonly before: ClothBuy | null;
  readonly after: ClothBuy | null;
}

/** A cloth of which other pieces are cut after a change than before it. */
export interface TouchedCloth {
  readonly colour: ColourId;
  readonly before: LayJob | null;
  readonly after: LayJob | null;
}

/** The lay jobs of a design; their budgets are given by the care they are laid with. */
export const jobsOf = (design: Design): readonly LayJob[] => layJobs(deriveGarment(design), { seconds: 0 });

/** The cloths whose pieces differ between two designs, in the order of colours; those that appear come last. */
export function touchedCloths(before: Design, after: Design): readonly TouchedCloth[] {
  if (before === after) return [];
  const [old, now] = [jobsOf(before), jobsOf(after)];
  const isSame = (a: LayJob, b: LayJob | undefined): boolean => b !== undefined && jobKey(a) === jobKey(b);
  const both = old.flatMap((job): TouchedCloth[] => {
    const other = now.find(({ colour }) => colour === job.colour);
    return isSame(job, other) ? [] : [{ colour: job.colour, before: job, after: other ?? null }];
  });
  const fresh = now.filter((job) => !old.some(({ colour }) => colour === job.colour));
  return [...both, ...fresh.map((job) => ({ colour: job.colour, before: null, after: job }))];
}

/** Lay one touched cloth as it was and as it is, with the same care. */
export function* layTouched(
  { colour, before, after }: TouchedCloth,
  care: Care,
  lay: LayCloth,
): Generator<undefined, ClothChange> {
  const was = before && (yield* lay(before, care));
  yield;
  const is = after && (yield* lay(after, care));
  return { colour, name: (is ?? was)!.name, before: was, after: is };
}

/**
 * What one touched cloth may be expected to come to with better plans, from a better plan of what was and quick plans of both: the
 * better plan of what is will be as much shorter than its quick one. Only a guess, to find out where better plans are worth the time.
 */
export function* expectedChange(cloth: TouchedCloth, lay: LayCloth): Generator<undefined, ClothChange> {
  const { before, after } = yield* layTouched(cloth, 'quick', lay);
  const better = cloth.before && (yield* lay(cloth.before, 'better'));
  const { colour } = cloth;
  const { name } = (after ?? before)!;
  if (!before || !better || !after || before.length === 0) return { colour, name, before: better, after };
  const length = (after.length * better.length) / before.length;
  const buy = lengthToBuy(length, cloth.after!);
  const cost = after.cost === null || after.buy === 0 ? after.cost : (after.cost * buy) / after.buy;
  return { colour, name, before: better, after: { ...after, length, buy, cost } };
}

/** How much more is bought afterwards, mm. */
export const moreToBuy = ({ before, after }: ClothChange): number => (after?.buy ?? 0) - (before?.buy ?? 0);

/** How much more it costs afterwards, in the user's money; null without a price. */
export function moreToPay({ before, after }: ClothChange): number | null {
  if ((before ?? after)!.cost === null) return null;
  return (after?.cost ?? 0) - (before?.cost ?? 0);
}

const misfits = (changes: readonly ClothChange[], of: 'before' | 'after'): number =>
  changes.reduce((count, change) => count + (change[of]?.misfits.length ?? 0), 0);

/** A difference in money this small is rounding. */
const NOTHING_TO_PAY = 1e-6;

/**
 * Whether a change is worth while: more panels fit their cloth; or as many fit, and it costs less (where all cloths that change
 * have a price), or else, as where they cost the same or nothing, less cloth is bought in all. What is bought goes in the steps of the
 * counter, so there is no small change.
 */
export function isCheaper(changes: readonly ClothChange[]): boolean {
  const fitting = misfits(changes, 'before') - misfits(changes, 'after');
  if (fitting !== 0) return fitting > 0;
  const other = changes.filter((change) => moreToBuy(change) !== 0);
  const pay = other.map(moreToPay);
  const sum = pay.every((p): p is number => p !== null) ? pay.reduce((all, p) => all + p, 0) : 0;
  if (Math.abs(sum) > NOTHING_TO_PAY) return sum < 0;
  return other.reduce((all, change) => all + moreToBuy(change), 0) < 0;
}
