import { MM_PER_INCH, formatLength } from '../pattern';
import type { Units } from '../pattern';

const EIGHTH_OF_A_YARD = 4.5 * MM_PER_INCH;

/** A length of cloth as it is asked for: `1.4 m`, or yards to the next eighth, `1 3/8 yd` (1 yd = 36 in exactly). */
export function clothLength(mm: number, units: Units): string {
  if (units === 'cm') return mm >= 1000 ? `${Number((mm / 1000).toFixed(2))} m` : formatLength(mm, units);
  const eighths = Math.ceil(mm / EIGHTH_OF_A_YARD - 1e-9);
  const [whole, part] = [Math.floor(eighths / 8), eighths % 8];
  const fraction = part === 0 ? '' : part % 4 === 0 ? '1/2' : part % 2 === 0 ? `${part / 2}/4` : `${part}/8`;
  return `${[whole > 0 || part === 0 ? `${whole}` : '', fraction].filter((s) => s !== '').join(' ')} yd`;
}
