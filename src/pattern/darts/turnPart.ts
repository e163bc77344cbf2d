import {
  type Curve,
  type CurveRef,
  type Path,
  type Polyline,
  type Pt,
  SAME_POINT,
  curveLength,
  distance,
  endOf,
  flattenPath,
  flattenRing,
  nearestOnPath,
  pathLength,
  startOf,
  subCurve,
} from '../../geometry';
import type { SingleDart } from './dartShape';

/** A curve of a closed outline and what it belongs to. */
export interface OutlineCurve<T> {
  readonly curve: Curve;
  readonly tag: T;
}
/** A closed outline, or a stretch of one, in ring order. */
export type Outline<T> = readonly OutlineCurve<T>[];

/** The curves of an outline, without what they belong to. */
export const curvesOf = <T>(outline: Outline<T>): Path => outline.map((c) => c.curve);

/** A place this near to the end of a curve is that end, mm: a cut leaves no slivers. Far below anything drawn. */
const NO_SLIVER = 1e-7;

function snapped(curves: Path, ref: CurveRef, reach: number): CurveRef {
  const curve = curves[ref.index]!;
  if (curveLength(curve, 0, ref.t) < reach) return { index: ref.index, t: 0 };
  if (curveLength(curve, ref.t, 1) < reach) return { index: (ref.index + 1) % curves.length, t: 0 };
  return { index: ref.index, t: ref.t };
}

/** Nearest place of an outline to a point, put on a joint where it is one: within `reach` of it, mm. */
export const placeOn = <T>(outline: Outline<T>, p: Pt, reach = NO_SLIVER): CurveRef => {
  const curves = curvesOf(outline);
  return snapped(curves, nearestOnPath(curves, p), reach);
};

/** The stretch of an outline from one place on to another, round the ring. */
export function stretch<T>(outline: Outline<T>, from: CurveRef, to: CurveRef): Outline<T> {
  const n = outline.length;
  const out: OutlineCurve<T>[] = [];
  const add = (index: number, t0: number, t1: number): void => {
    if (t1 > t0) out.push({ ...outline[index]!, curve: subCurve(outline[index]!.curve, t0, t1) });
  };
  if (from.index === to.index && from.t < to.t) {
    add(from.index, from.t, to.t);
    return out;
  }
  add(from.index, from.t, 1);
  for (let k = (from.index + 1) % n; k !== to.index; k = (k + 1) % n) add(k, 0, 1);
  add(to.index, 0, to.t);
  return out;
}

/** Whether a place lies on the stretch from one place on to another, round the ring. */
export function isOnStretch(at: CurveRef, from: CurveRef, to: CurveRef): boolean {
  const [a, f, t] = [at, from, to].map((r) => r.index + r.t) as [number, number, number];
  return f <= t ? f <= a && a <= t : a >= f || a <= t;
}

/** Where a dart's mouth lies on an outline: its ends in ring order. */
export interface MouthPlace {
  readonly from: CurveRef;
  readonly to: CurveRef;
  /** Whether `from` is the dart's first mouth end. */
  readonly isFirst: boolean;
}

/** The shorter way round between the mouth's ends is the mouth. */
export function mouthPlace<T>(outline: Outline<T>, dart: SingleDart): MouthPlace {
  const [a, b] = [placeOn(outline, dart.mouth[0]), placeOn(outline, dart.mouth[1])];
  const [ab, ba] = [stretch(outline, a, b), stretch(outline, b, a)];
  const isFirst = pathLength(curvesOf(ab)) <= pathLength(curvesOf(ba));
  return isFirst ? { from: a, to: b, isFirst } : { from: b, to: a, isFirst };
}

/** One of the two parts that a dart and a cut from its point to the outline leave of a piece. */
export interface Part<T> {
  /** Its stretch of the outline, in ring order. */
  readonly along: Outline<T>;
  /** Its corners: along the outline, then the dart's point. */
  readonly corners: Polyline;
}

/** A piece cut from a dart's point to a place on its outline: `before` lies between the place and the mouth, `after` behind it. */
export interface CutApart<T> {
  readonly mouth: MouthPlace;
  readonly before: Part<T>;
  readonly across: Outline<T>;
  readonly after: Part<T>;
}

/** Cut an outline from a dart's point to a place on it. The place must not lie in the mouth. */
export function cutApart<T>(outline: Outline<T>, dart: SingleDart, place: CurveRef): CutApart<T> {
  const mouth = mouthPlace(outline, dart);
  const part = (along: Outline<T>): Part<T> => ({
    along,
    corners: [...flattenPath(curvesOf(along)).points, dart.point],
  });
  return {
    mouth,
    before: part(stretch(outline, place, mouth.from)),
    across: stretch(outline, mouth.from, mouth.to),
    after: part(stretch(outline, mouth.to, place)),
  };
}

/** Put the first or last point of a stretch on a point that it should meet exactly. */
export function withEnd<T>(along: Outline<T>, end: 'first' | 'last', to: Pt): Outline<T> {
  return along.map((c, i) => {
    const isIt = end === 'first' ? i === 0 : i === along.length - 1;
    if (!isIt) return c;
    const { curve } = c;
    const moved = end === 'first' ? [to, ...curve.slice(1)] : [...curve.slice(0, -1), to];
    return { ...c, curve: moved as unknown as Curve };
  });
}

/** The first point of a stretch. */
export const firstOf = <T>(along: Outline<T>): Pt => startOf(curvesOf(along));
/** The last point of a stretch. */
export const lastOf = <T>(along: Outline<T>): Pt => endOf(curvesOf(along));

/** Straight from one point to another, or nothing where they are one point. */
export const joint = <T>(from: Pt, to: Pt, tag: T): Outline<T> =>
  distance(from, to) <= SAME_POINT ? [] : [{ curve: [from, to], tag }];

/** A closed outline as corner points. */
export const cornersOfOutline = <T>(outline: Outline<T>): Polyline => flattenRing(curvesOf(outline));
