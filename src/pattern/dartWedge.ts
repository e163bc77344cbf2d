import { type Box, type Path, type Ring, pathBox, pathThrough, signedArea, subdivide } from '../geometry';
import type { Dart } from './design';

/** The sewn lines of a dart: mouth to point to mouth, or the closed ring of a double-pointed one. */
export const dartLegs = (dart: Dart): Path =>
  dart.kind === 'single'
    ? pathThrough([dart.mouth[0], dart.point, dart.mouth[1]], false)
    : pathThrough(dart.points, true);

/** Angle at the point, radians; for a double-pointed dart the larger of its two. */
export function dartAngle(dart: Dart): number {
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
export const dartIntake = (dart: Dart): number => {
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
export function withoutWedges(ring: Ring, darts: readonly Dart[]): NetShape {
  let shape: NetShape = { ring, wedgeArea: 0, wedgeHoles: [], touched: [] };
  darts.forEach((dart, index) => {
    const cut = cutWedge(shape.ring, dart);
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

interface WedgeCut {
  readonly ring: Ring | null;
  readonly area: number;
  readonly holes: readonly Ring[];
}

function boxesMeet(p: Box, q: Box): boolean {
  return p.minX <= q.maxX && q.minX <= p.maxX && p.minY <= q.maxY && q.minY <= p.maxY;
}

function cutWedge(ring: Ring, dart: Dart): WedgeCut | null {
  const legs = dartLegs(dart);
  if (!boxesMeet(pathBox(ring), pathBox(legs))) return null;
  const sub = subdivide(ring, [legs]);
  const legEdges = new Set(sub.lineEdges[0]!.map((h) => h.edge));
  if (legEdges.size === 0) return null;
  const wedgeIsForward = wedgeLiesForward(dart);
  const wedge = new Set<number>();
  for (const half of sub.lineEdges[0]!) {
    const edge = sub.edges[half.edge]!;
    const face = half.forward === wedgeIsForward ? edge.forwardFace : edge.backwardFace;
    if (face !== null) wedge.add(face);
  }
  const pathOf = (halves: readonly { edge: number; forward: boolean }[]): Ring =>
    halves.flatMap(({ edge, forward }) => {
      const { curves } = sub.edges[edge]!;
      return forward ? curves : [...curves].reverse().map((c) => [...c].reverse() as unknown as Path[number]);
    });
  const rest = sub.faces.map((face, i) => ({ face, i })).filter(({ i }) => !wedge.has(i));
  const area = sub.faces.reduce((sum, face, i) => sum + (wedge.has(i) ? face.area : 0), 0);
  const only = rest.length === 1 ? rest[0]!.face : null;
  return {
    area,
    ring: only ? pathOf(only.ring) : null,
    holes: only ? only.holes.map(pathOf) : [],
  };
}

/** Whether the wedge lies on the side whose ring follows the legs forwards: the sign of the leg triangle's area. */
function wedgeLiesForward(dart: Dart): boolean {
  const points = dart.kind === 'single' ? [dart.mouth[0], dart.point, dart.mouth[1]] : dart.points;
  return signedArea(pathThrough(points, true)) > 0;
}
