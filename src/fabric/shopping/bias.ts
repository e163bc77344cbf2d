import { MM_PER_INCH } from '../../pattern';
import type { Units } from '../../pattern';

/**
 * What the two seams take off a square's side when it is cut and sewn into one long strip, mm: a 22 in square counts as 21 3/4
 * (a bias tutorial, n.d.).
 */
export const SQUARE_SEAM_LOSS = MM_PER_INCH / 4;

/** Squares are cut to whole centimetres, or whole inches. */
const SIDE_STEP: Readonly<Record<Units, number>> = { cm: 10, in: MM_PER_INCH };
/** A side this little (in steps) over a whole number of steps is rounding of doubles. */
const STEP_ROUNDING = 1e-9;

/**
 * Length of bias strip that a square of cloth gives at most, mm: its area over the strip's width (mydecozo.co.uk, n.d.: 20 in, 2 in wide, 200
 * in). A ceiling: what is left at the edges is not counted, one tutorial gets a sixth less.
 * @param loss taken off the side for seams, mm
 */
export const biasFromSquare = (side: number, strip: number, loss = SQUARE_SEAM_LOSS): number =>
  Math.max(0, side - loss) ** 2 / strip;

/**
 * Side of the square that gives a length of bias strip, mm, rounded up to whole cm or inches.
 * @param strip width as it is cut, mm
 * @throws RangeError for a length or width that makes no sense
 */
export function squareForBias(length: number, strip: number, units: Units, loss = SQUARE_SEAM_LOSS): number {
  if (!(length >= 0 && length < Infinity && strip > 0))
    throw new RangeError(`no square of cloth gives ${length} mm of strip ${strip} mm wide`);
  const step = SIDE_STEP[units];
  return Math.ceil((Math.sqrt(length * strip) + loss) / step - STEP_ROUNDING) * step;
}

/** Width a bias strip is cut for a trim, mm: twice its own, both raw edges turned in to the middle. Common practice, no source. */
export const stripFor = (width: number): number => 2 * width;
