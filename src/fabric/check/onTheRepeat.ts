import { CUTS_TOUCH } from '../../geometry';
import type { LayJob } from '../layPlan';
import { placedPoints } from '../placement';
import { type Laid, type LayFault, fault } from './layFault';

/** How far a place is from the nearest of those `repeat` apart, one of them at `from`; 0 where there is no repeat. */
const offBy = (place: number, from: number, repeat: number): number =>
  repeat > 0 ? Math.abs(place - from - repeat * Math.round((place - from) / repeat)) : 0;

/** A piece whose anchor lies beside the repeat of the stripe or print, by how much. */
export function offTheRepeat({ piece, placement }: Laid, { repeat, width }: LayJob): LayFault[] {
  if (!piece.anchor) return [];
  const [at] = placedPoints([piece.anchor], placement);
  const [x, y] = at!;
  const by = Math.hypot(offBy(x, 0, repeat.along), offBy(y, width / 2, repeat.across));
  return by > CUTS_TOUCH ? [fault('off-the-repeat', piece, by, at)] : [];
}
