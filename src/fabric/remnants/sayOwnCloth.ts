import { formatLength, MM_PER_INCH, type Units } from '../../pattern';
import type { Unfitting } from './ownClothUse';
import type { LeftOver } from './leftOver';

/** The finest steps in which lengths are shown, mm. */
const SHOWN: Readonly<Record<Units, number>> = { cm: 1, in: MM_PER_INCH / 16 };

/** Rounding of doubles, in steps. */
const STEP_ROUNDING = 1e-9;

/** A length that must not be overstated: rounded down to what is shown. */
const sayAtLeast = (mm: number, units: Units): string =>
  formatLength(Math.floor(mm / SHOWN[units] + STEP_ROUNDING) * SHOWN[units], units);

/** A length that must not be understated: rounded up to what is shown. */
const sayAtMost = (mm: number, units: Units): string =>
  formatLength(Math.ceil(mm / SHOWN[units] - STEP_ROUNDING) * SHOWN[units], units);

/** Square millimetres in a square metre, and in a square yard. */
const LARGE: Readonly<Record<Units, readonly [number, string]>> = {
  cm: [1e6, 'm²'],
  in: [(36 * MM_PER_INCH) ** 2, 'sq yd'],
};

/** An area as cloth is thought of: `0.42 m²`, rounded down. */
export function sayClothArea(mm2: number, units: Units): string {
  const [one, unit] = LARGE[units];
  return `${(Math.floor((mm2 / one) * 100 + STEP_ROUNDING) / 100).toFixed(2)} ${unit}`;
}

/** What is left of a piece of one's own cloth: its largest rectangle, length along the grain first, and all of it. */
export function sayLeftOver({ rectangle, area }: LeftOver, units: Units): string {
  const all = `${sayClothArea(area, units)} in all`;
  if (!rectangle) return all;
  return `${sayAtLeast(rectangle.length, units)} × ${sayAtLeast(rectangle.width, units)} in one piece, ${all}`;
}

/** Why a panel does not fit one's own cloth. @param cloth what its owner calls it */
export function sayUnfitting({ number, along, across }: Unfitting, cloth: string, units: Units): string {
  const missing = [
    ...(along > 0 ? [`${sayAtMost(along, units)} too long`] : []),
    ...(across > 0 ? [`${sayAtMost(across, units)} too wide`] : []),
  ];
  if (missing.length === 0) return `Panel ${number} does not fit inside the outline of “${cloth}”.`;
  return `Panel ${number} is ${missing.join(' and ')} for “${cloth}”.`;
}
