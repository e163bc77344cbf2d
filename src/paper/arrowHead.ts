import { add, perpendicular, scale, subtract } from '../geometry';
import type { Pt } from '../geometry';
import { INK } from './ink';
import { filled } from './marks';
import type { Mark } from './marks';

/** A filled arrow head: its tip, the direction it points in (length 1), its length in mm. */
export function arrowHead(tip: Pt, along: Pt, length: number): Mark {
  const side = scale(perpendicular(along), length * 0.3);
  const back = subtract(tip, scale(along, length));
  const [a, b, c]: [Pt, Pt, Pt] = [tip, add(back, side), subtract(back, side)];
  return filled(
    [
      [
        [a, b],
        [b, c],
        [c, a],
      ],
    ],
    INK,
  );
}
