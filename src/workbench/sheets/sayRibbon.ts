import type { Ribbon } from '../../fabric';
import { type Units, formatLength } from '../../pattern';
import { counted } from '../drawing/words';
import { sayBuy } from './sayBuy';

/** What to ask for of a ribbon: `0.9 m of red braid, 1 cm wide`. */
export function sayRibbon({ name, width, buy, pieces, soldIn }: Ribbon, units: Units): string {
  const what = `${name}, ${formatLength(width, units)} wide`;
  if (pieces === null || soldIn === null) return `${sayBuy(buy, units)} of ${what}`;
  return `${counted(pieces, 'length')} of ${formatLength(soldIn, units)} of ${what}`;
}
