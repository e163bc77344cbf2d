import { dot, subtract, unit, type Pt } from '../../geometry';
import { type GrainFrame } from '../../pattern';

/** How a line lies to the grain. */
export type Run = 'across the grain' | 'with the grain' | 'at an angle';

/** A line this far off the grain, as the sine of the angle, still counts as squared off it or running with it (0.06°). */
const TRUE_SIN = 0.001;

/** How the straight stretch between two points lies to the grain. */
export function runOf({ along, across }: GrainFrame, a: Pt, b: Pt): Run {
  const u = unit(subtract(b, a));
  if (Math.abs(dot(u, along)) < TRUE_SIN) return 'across the grain';
  if (Math.abs(dot(u, across)) < TRUE_SIN) return 'with the grain';
  return 'at an angle';
}

/** The grain direction a drag from one point to another comes nearest to, pointing the way of the drag. */
export function squaredDirection({ along, across }: GrainFrame, from: Pt, to: Pt): Pt {
  const d = subtract(to, from);
  const [u, v] = [dot(d, across), dot(d, along)];
  const [axis, sign] = Math.abs(u) >= Math.abs(v) ? [across, Math.sign(u) || 1] : [along, Math.sign(v) || 1];
  return [axis[0] * sign, axis[1] * sign];
}
