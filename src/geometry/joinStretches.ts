import { endOfCurve, isCubic, startOfCurve, subCurve } from './curve';
import { joinAt, type Corner } from './offsetJoins';
import type { OffsetCurve } from './rawOffset';
import { shapedJoint, type CornerShape, type ShapedJoint } from './shapedCorners';
import type { Curve, CurveRef, Path } from './types';
import { cross, distance, dot, subtract } from './vector';

/** Shapes of corners, by the number of the curve that begins there. */
export type CornerShapes = ReadonlyMap<number, CornerShape>;

/** An open place in a row of borders: before curve `at`, where side `side` ends. */
export interface Break {
  readonly at: number;
  readonly side: number;
}

/** The borders from one open place to the next. */
type Stretch = readonly OffsetCurve[];

const pathOf = (stretch: Stretch): Path => stretch.map((c) => c.curve);

/** Join borders that are open at shaped corners. Where a shape cannot be made the corner is mitred. */
export function joinStretches(
  out: readonly OffsetCurve[],
  breaks: readonly Break[],
  corners: readonly Corner[],
  shaped: ReadonlyMap<number, CornerShape>,
  mitreLimit: number,
): OffsetCurve[] {
  const n = breaks.length;
  const stretches = breaks.map(({ at }, k): Stretch => {
    const next = breaks[k + 1];
    return next ? out.slice(at, next.at) : [...out.slice(at), ...out.slice(0, breaks[0]!.at)];
  });
  const joints = breaks.map(({ side }, k): ShapedJoint => {
    const [before, after] = [pathOf(stretches[(k + n - 1) % n]!), pathOf(stretches[k]!)];
    const corner = corners[side]!;
    return (
      shapedJoint(corner, shaped.get(side)!, before, after, mitreLimit) ??
      mitredJoint(corner, before, after, mitreLimit)
    );
  });
  const ring: OffsetCurve[] = [];
  stretches.forEach((stretch, k) => {
    const { way, enter } = joints[k]!;
    const [before, after] = [stretches[(k + n - 1) % n]!.at(-1)!.origin, stretch[0]!.origin];
    way.forEach((curve, i) =>
      ring.push({ curve, origin: i === way.length - 1 && enter === null ? after : before }),
    );
    ring.push(...between(stretch, enter, joints[(k + 1) % n]!.leave));
  });
  return merged(ring);
}

function mitredJoint(corner: Corner, before: Path, after: Path, mitreLimit: number): ShapedJoint {
  const points = [endOfCurve(before.at(-1)!), ...joinAt(corner, mitreLimit, false).points, after[0]![0]];
  const way = points.slice(1).map((p, i): Curve => [points[i]!, p]);
  return { leave: null, way: way.filter((c) => distance(c[0], endOfCurve(c)) > 1e-9), enter: null };
}

/** What is left of a stretch; nothing where it is left before it is entered: its ends are then joined straight. */
function between(stretch: Stretch, enter: CurveRef | null, leave: CurveRef | null): OffsetCurve[] {
  const [from, to] = [enter ?? { index: 0, t: 0 }, leave ?? { index: stretch.length - 1, t: 1 }];
  return stretch.flatMap(({ curve, origin }, i): OffsetCurve[] => {
    if (i < from.index || i > to.index) return [];
    const [t0, t1] = [i === from.index ? from.t : 0, i === to.index ? to.t : 1];
    return t0 < t1 ? [{ curve: t0 === 0 && t1 === 1 ? curve : subCurve(curve, t0, t1), origin }] : [];
  });
}

/** Gaps are closed straight, and straight stretches that go on in one direction are made one. */
function merged(ring: readonly OffsetCurve[]): OffsetCurve[] {
  const joined: OffsetCurve[] = [];
  ring.forEach((c, i) => {
    const before = ring.at(i - 1)!;
    const [end, start] = [endOfCurve(before.curve), startOfCurve(c.curve)];
    for (const piece of distance(end, start) > 1e-9
      ? [{ curve: [end, start] as const, origin: before.origin }, c]
      : [c]) {
      const last = joined.at(-1);
      if (last && goesOn(last.curve, piece.curve)) {
        joined[joined.length - 1] = { curve: [last.curve[0], endOfCurve(piece.curve)], origin: last.origin };
      } else joined.push(piece);
    }
  });
  const [first, last] = [joined[0]!, joined.at(-1)!];
  if (joined.length < 3 || !goesOn(last.curve, first.curve)) return joined;
  return [{ curve: [last.curve[0], endOfCurve(first.curve)], origin: first.origin }, ...joined.slice(1, -1)];
}

/** The sine below which two straight stretches are one. */
const STRAIGHT = 1e-9;

function goesOn(a: Curve, b: Curve): boolean {
  if (isCubic(a) || isCubic(b)) return false;
  const [u, v] = [subtract(a[1], a[0]), subtract(b[1], b[0])];
  return dot(u, v) > 0 && Math.abs(cross(u, v)) < STRAIGHT * Math.max(1, Math.hypot(...u) * Math.hypot(...v));
}
