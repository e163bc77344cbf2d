import type { Units } from './design';

/** International inch of 1959, exact. */
export const MM_PER_INCH = 25.4;

const SIXTEENTHS = 16;

const reduced = (n: number, d: number): string => (n % 2 === 0 ? reduced(n / 2, d / 2) : `${n}/${d}`);

/** Inches with a fraction to 1/16, as on a tape: 15.875 mm is `5/8 in`. */
function formatInches(mm: number): string {
  const sign = mm < 0 ? '−' : '';
  const sixteenths = Math.round((Math.abs(mm) / MM_PER_INCH) * SIXTEENTHS);
  const whole = Math.floor(sixteenths / SIXTEENTHS);
  const part = sixteenths % SIXTEENTHS;
  const text = part === 0 ? `${whole}` : `${whole > 0 ? `${whole} ` : ''}${reduced(part, SIXTEENTHS)}`;
  return `${sixteenths === 0 ? '' : sign}${text} in`;
}

const trimmed = (value: number, digits: number): string => {
  const text = value.toFixed(digits).replace(/\.?0+$/, '');
  return (text === '-0' ? '0' : text).replace('-', '−');
};

/** A length in mm for a person: `12.5 cm`, `4 7/8 in` or `125 mm`. */
export function formatLength(mm: number, units: Units | 'mm'): string {
  if (units === 'in') return formatInches(mm);
  if (units === 'cm') return `${trimmed(mm / 10, 1)} cm`;
  return `${trimmed(mm, 1)} mm`;
}

/**
 * Read what a person types: `12,5`, `12.5 cm`, `4 7/8`, `4-7/8"`, `125 mm`. A bare number is in `units`.
 * @returns mm, or null if it is not a length
 */
export function parseLength(text: string, units: Units): number | null {
  const clean = text.trim().toLowerCase().replace(',', '.').replace('−', '-');
  const match =
    /^(-?)\s*(?:(\d+(?:\.\d+)?|\.\d+)(?![/\d]))?(?:[\s-]*(\d+)\/(\d+))?\s*(mm|cm|m|in|inch|inches|"|″)?$/.exec(
      clean,
    );
  if (!match || (match[2] === undefined && match[3] === undefined)) return null;
  const [, sign, whole, top, bottom, unit] = match;
  const value = Number(whole ?? 0) + (top === undefined ? 0 : Number(top) / Number(bottom));
  const perUnit: Record<string, number> = { mm: 1, cm: 10, m: 1000, in: MM_PER_INCH };
  const factor = unit === undefined ? perUnit[units]! : (perUnit[unit] ?? MM_PER_INCH);
  const mm = (sign ? -1 : 1) * value * factor;
  return Number.isFinite(mm) ? mm : null;
}
