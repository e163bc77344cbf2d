import {
  type Path,
  type Polyline,
  type Pt,
  type Ring,
  SAME_POINT,
  curveLength,
  distance,
  flattenRing,
  isClosed,
  lengthAt,
  mix,
  nearestOnPath,
  pathLength,
} from '../geometry';
import type { DartShape } from './design';

/** Where the segment a b first crosses the corner points of a ring, coming from b; null where it does not. */
function crossingNearest(b: Pt, a: Pt, ring: Polyline): Pt | null {
  let best: Pt | null = null;
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!;
    const d = (b[0] - a[0]) * (q[1] - p[1]) - (b[1] - a[1]) * (q[0] - p[0]);
    if (d === 0) return;
    const t = ((p[0] - a[0]) * (q[1] - p[1]) - (p[1] - a[1]) * (q[0] - p[0])) / d;
    const u = ((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / d;
    if (t < 0 || t > 1 || u < 0 || u > 1) return;
    const at = mix(a, b, t);
    if (!best || distance(at, b) < distance(best, b)) best = at;
  });
  return best;
}

/**
 * Put a single dart's mouth on the stitching outline: back along its leg where the tracing reaches past it
 * (an allowance was traced), else to the nearest point.
 * @returns the dart and how far its mouth was from the outline when it stopped short of it, mm
 */
export function placeDart(dart: DartShape, stitching: Ring): { dart: DartShape; gap: number } {
  if (dart.kind === 'double' || stitching.length === 0) return { dart, gap: 0 };
  const corners = flattenRing(stitching);
  let gap = 0;
  const place = (mouth: Pt): Pt => {
    const near = nearestOnPath(stitching, mouth);
    if (near.distance < SAME_POINT) return near.point;
    const crossing = crossingNearest(mouth, dart.point, corners);
    if (crossing) return nearestOnPath(stitching, crossing).point;
    gap = Math.max(gap, near.distance);
    return near.point;
  };
  return { dart: { ...dart, mouth: [place(dart.mouth[0]), place(dart.mouth[1])] }, gap };
}

/** Length of a dart's mouth along a stretch of outline, mm; 0 when the mouth does not lie on it. */
export function mouthLengthOn(path: Path, dart: DartShape): number {
  if (dart.kind === 'double' || path.length === 0) return 0;
  const [a, b] = dart.mouth.map((p) => nearestOnPath(path, p)) as [Near, Near];
  if (a.distance > SAME_POINT || b.distance > SAME_POINT) return 0;
  if (a.index === b.index)
    return Math.abs(curveLength(path[a.index]!, 0, b.t) - curveLength(path[a.index]!, 0, a.t));
  const along = Math.abs(lengthAt(path, a) - lengthAt(path, b));
  return isClosed(path) ? Math.min(along, pathLength(path) - along) : along;
}

type Near = ReturnType<typeof nearestOnPath>;
