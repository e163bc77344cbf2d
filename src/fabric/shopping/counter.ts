import { MM_PER_INCH } from '../../pattern';
import type { Units } from '../../pattern';
import type { LayJob, LayPlan } from '../layPlan';

/**
 * Steps in which cloth is sold, mm: 10 cm (common practice, no source) or 1/8 yd = 4.5 in (a shop's yard table,
 * hookedonsewing.com, n.d.).
 */
export const COUNTER_STEP: Readonly<Record<Units, number>> = { cm: 100, in: 4.5 * MM_PER_INCH };

/** Usual usable widths, mm: 90, 115, 140, 150 cm (110–115 and 140–150 are common practice, no source); 36, 45, 54, 60 in (Threads no. 151). */
export const USUAL_WIDTHS: Readonly<Record<Units, readonly number[]>> = {
  cm: [900, 1150, 1400, 1500],
  in: [36, 45, 54, 60].map((inches) => inches * MM_PER_INCH),
};

/** A need this little (in steps) over a whole number of steps is rounding of doubles, not cloth. */
const STEP_ROUNDING = 1e-9;

/**
 * What to ask for at the counter, mm: need / (1 − s), rounded up to the next step.
 * @param length    needed when it is cut, mm
 * @param shrinkage along the length, percent, 0 ≤ s < 100
 * @throws RangeError for a length or shrinkage that makes no sense
 */
export function counterLength(length: number, shrinkage: number, units: Units): number {
  if (!(length >= 0 && length < Infinity)) throw new RangeError(`a length of ${length} mm cannot be bought`);
  if (!(shrinkage >= 0 && shrinkage < 100))
    throw new RangeError(`shrinkage must be from 0 to below 100 percent, not ${shrinkage}`);
  const step = COUNTER_STEP[units];
  return Math.max(0, Math.ceil(length / (1 - shrinkage / 100) / step - STEP_ROUNDING)) * step;
}

/** One column of the table on a pattern envelope's back. */
export interface WidthEntry {
  readonly width: number;
  /** The plan it is read from; buy 0 and a problem where a piece does not fit. */
  readonly plan: LayPlan;
}

/**
 * The same pieces laid on other widths.
 * @param plan how to lay a job (planLay, or a quicker one)
 */
export const widthTable = (
  job: LayJob,
  plan: (job: LayJob) => LayPlan,
  widths: readonly number[] = USUAL_WIDTHS[job.units],
): WidthEntry[] => widths.map((width) => ({ width, plan: plan({ ...job, width }) }));
