import type { Ring } from '../../geometry';
import type { DartShape } from '../design';
import { cutWedge } from './cutWedge';
import { dartLegs } from './dartShape';

export interface NetShape {
  /** The ring with the wedges taken out, where that leaves a single ring; else the ring itself. */
  readonly ring: Ring;
  /** Area of the wedges inside the ring, mm². */
  readonly wedgeArea: number;
  /** Rings of wedges lying wholly inside, as holes (negative signedArea). */
  readonly wedgeHoles: readonly Ring[];
  /** Which darts have a part inside, by index. */
  readonly touched: readonly number[];
}

/**
 * Take dart wedges out of a ring. A wedge is the part of the ring between a dart's legs, on the mouth's side of its point.
 * Works for parts of a dart too: a ring that holds only the point, or only the mouth.
 */
export function withoutWedges(ring: Ring, darts: readonly DartShape[]): NetShape {
  let shape: NetShape = { ring, wedgeArea: 0, wedgeHoles: [], touched: [] };
  darts.forEach((dart, index) => {
    const cut = cutWedge(shape.ring, dart, dartLegs(dart));
    if (!cut) return;
    shape = {
      ring: cut.ring ?? shape.ring,
      wedgeArea: shape.wedgeArea + cut.area,
      wedgeHoles: [...shape.wedgeHoles, ...cut.holes],
      touched: [...shape.touched, index],
    };
  });
  return shape;
}
