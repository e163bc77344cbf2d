import { MM_PER_INCH } from '../../pattern';
import type { Colour, Units } from '../../pattern';
import type { LayJob } from '../layPlan';

/**
 * Steps in which cloth is sold, mm: 10 cm (common practice, no source) or 1/8 yd = 4.5 in (a shop's yard table,
 * hookedonsewing.com, n.d.).
 */
export const COUNTER_STEP: Readonly<Record<Units, number>> = { cm: 100, in: 4.5 * MM_PER_INCH };

/** A need this little (in steps) over a whole number of steps is rounding of doubles, not cloth. */
const STEP_ROUNDING = 1e-9;

/** What of a cloth decides how much more than its lay plan is bought. A LayJob is one. */
export interface BuyRule extends Pick<LayJob, 'shrinkage' | 'reserve' | 'units'> {
  /** When it is cut (after washing), mm. */
  readonly repeat: Pick<LayJob['repeat'], 'along'>;
}

/** How a length to ask for comes about. All mm; `laid + repeat + shrinkage + reserve + rounding = buy`. */
export interface BuySum {
  /** What the lay plan uses, when it is cut. */
  readonly laid: number;
  /** One full repeat, so that the cloth can be cut to begin with the motif the plan begins with; 0 without a repeat. */
  readonly repeat: number;
  /** What washing takes of all that. */
  readonly shrinkage: number;
  readonly reserve: number;
  /** Up to the next step that is sold. */
  readonly rounding: number;
  readonly buy: number;
}

const NOTHING: BuySum = { laid: 0, repeat: 0, shrinkage: 0, reserve: 0, rounding: 0, buy: 0 };

/**
 * What to ask for at the counter: the plan's length and one repeat, as they are before washing (need / (1 − s)), and the reserve, rounded
 * up to the next step. One repeat more where there is one: a fabric shop's chart page, sew4home.com (n.d.). Nothing laid, nothing bought.
 * @param laid length that the plan uses when it is cut, mm
 * @throws RangeError for a length, shrinkage (percent, 0 ≤ s < 100), repeat or reserve that makes no sense
 */
export function buySum(laid: number, { shrinkage, repeat, reserve, units }: BuyRule): BuySum {
  if (!(laid >= 0 && laid < Infinity)) throw new RangeError(`a length of ${laid} mm cannot be bought`);
  if (!(shrinkage >= 0 && shrinkage < 100))
    throw new RangeError(`shrinkage must be from 0 to below 100 percent, not ${shrinkage}`);
  for (const [what, mm] of [
    ['repeat', repeat.along],
    ['reserve', reserve],
  ] as const)
    if (!(mm >= 0 && mm < Infinity)) throw new RangeError(`a ${what} of ${mm} mm makes no sense`);
  if (laid === 0) return NOTHING;
  const washed = laid + repeat.along;
  const unwashed = washed / (1 - shrinkage / 100);
  const need = unwashed + reserve;
  const step = COUNTER_STEP[units];
  const buy = Math.ceil(need / step - STEP_ROUNDING) * step;
  return {
    laid,
    repeat: repeat.along,
    shrinkage: unwashed - washed,
    reserve,
    rounding: Math.max(0, buy - need),
    buy,
  };
}

/** What to ask for of a length without repeat and reserve, mm: ribbon, thread, a quick look. @throws RangeError as buySum */
export const counterLength = (length: number, shrinkage: number, units: Units): number =>
  buySum(length, { shrinkage, units, repeat: { along: 0 }, reserve: 0 }).buy;

/**
 * What to ask for of the cloth of a job whose plan has a length, mm; nothing for one that lies on one's own cloth.
 * @throws RangeError as buySum
 */
export const lengthToBuy = (laid: number, job: BuyRule & Pick<LayJob, 'within'>): number =>
  job.within === null ? buySum(laid, job).buy : 0;

/** How a cloth's length to buy comes about, from the cloth as it is described: its repeat is that of unwashed cloth. */
export const buySumOf = (
  laid: number,
  colour: Pick<Colour, 'shrinkage' | 'repeat' | 'reserve'>,
  units: Units,
): BuySum =>
  buySum(laid, {
    shrinkage: colour.shrinkage.along,
    repeat: { along: colour.repeat.along * (1 - colour.shrinkage.along / 100) },
    reserve: colour.reserve,
    units,
  });
