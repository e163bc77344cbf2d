import type { Units } from '../../pattern';

/** Cloth and ribbon are sold by the metre or the yard: long lengths read better so. */
export function sayBuy(mm: number, units: Units): string {
  if (units === 'cm') return `${(mm / 1000).toFixed(1)} m`;
  const eighths = Math.round(mm / (25.4 * 4.5));
  const [whole, part] = [Math.floor(eighths / 8), eighths % 8];
  const fraction = part === 0 ? '' : part % 4 === 0 ? '1/2' : part % 2 === 0 ? `${part / 2}/4` : `${part}/8`;
  return `${[whole > 0 || part === 0 ? `${whole}` : '', fraction].filter(Boolean).join(' ')} yd`;
}
