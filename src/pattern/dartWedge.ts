import { type Path, type Ring, pathThrough } from '../geometry';
import { cutWedge } from './cutWedge';
import type { DartShape } from './design';

/** The sewn lines of a dart: mouth to point to mouth, or the closed ring of a double-pointed one. */
export const dartLegs = (dart: DartShape): Path =>
  dart.legs !== null
    ? dart.legs.flat()
    : dart.kind === 'single'
      ? pathThrough([dart.mouth[0], dart.point, dart.mouth[1]], false)
      : pathThrough(dart.points, true);

/** Angle at the point, radians; for a double-pointed dart the larger of its two. */
export function dartAngle(dart: DartShape): number {
  if (dart.kind === 'single') return angleAt(dart.mouth[0], dart.point, dart.mouth[1]);
  const [p, a, q, b] = dart.points;
  return Math.max(angleAt(a, p, b), angleAt(a, q, b));
}

type P = readonly [number, number];
function angleAt(a: P, at: P, b: P): number {
  const [ux, uy, vx, vy] = [a[0] - at[0], a[1] - at[1], b[0] - at[0], b[1] - at[1]];
  return Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy));
}

/** What the dart takes in: its mouth's width, or the greatest width of a double-pointed one, mm. */
export const dartIntake = (dart: DartShape): number => {
  const [a, b] = dart.kind === 'single' ? dart.mouth : [dart.points[1], dart.points[3]];
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
};

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
