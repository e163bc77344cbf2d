import { isCubic, pointAt } from './curve';
import { flattenPath } from './flatten';
import { forEachNearPair } from './nearPairs';
import type { NodingPolyline } from './noding';
import type { SourcePath } from './subdivision';
import { CHORD_SAGITTA, NEAR_SAGITTA } from './tolerances';
import type { CurveRef, Path, Pt } from './types';
import { distanceToSegment } from './vector';

/** A drawn thing as it goes into the subdivision: the input path, with straight stretches added where its ends are drawn on. */
export interface DrawnPath {
  readonly source: SourcePath;
  readonly path: Path;
  readonly closed: boolean;
  /** Curves added before the first curve of the input path (0 or 1) and curves the input path has. */
  readonly added: number;
  readonly count: number;
}

/** A drawn path with its chords; refs[i] tells where points[i] lies on `drawn.path`. */
export interface ChordedPath extends NodingPolyline {
  readonly drawn: DrawnPath;
  readonly points: readonly Pt[];
  readonly refs: readonly CurveRef[];
  readonly corners: readonly number[];
}

/** The place on the input path of a place on the drawn one; an added stretch counts as the path's end. */
export function inputRef(drawn: DrawnPath, ref: CurveRef): CurveRef {
  const index = ref.index - drawn.added;
  if (index < 0) return { index: 0, t: 0 };
  return index >= drawn.count ? { index: drawn.count - 1, t: 1 } : { index, t: ref.t };
}

export function chordsOf(drawn: DrawnPath): ChordedPath {
  const { points, refs } = flattenPath(drawn.path, CHORD_SAGITTA, drawn.closed);
  return chorded(drawn, points, refs);
}

function chorded(drawn: DrawnPath, points: readonly Pt[], refs: readonly CurveRef[]): ChordedPath {
  const corners: number[] = [];
  refs.forEach((r, i) => {
    if (r.t === 0) corners.push(i);
  });
  return { drawn, points, refs, corners, closed: drawn.closed };
}

/** The place on the path that a noding place (point number with a fraction) stands for. */
export function refAtPlace(chords: ChordedPath, place: number): CurveRef {
  const { refs } = chords;
  const i = Math.floor(place);
  const at = refs[i];
  if (!at) return { index: chords.drawn.path.length - 1, t: 1 };
  if (place === i) return at;
  return { index: at.index, t: at.t + (endParameter(chords, i) - at.t) * (place - i) };
}

/** Parameter at the end of chord i, on the curve the chord belongs to. */
export function endParameter({ refs }: ChordedPath, i: number): number {
  const [at, next] = [refs[i]!, refs[i + 1]];
  return next && next.index === at.index ? next.t : 1;
}

/** The noding place of a place on the path: the reverse of refAtPlace. */
export function placeAtRef(chords: ChordedPath, { index, t }: CurveRef): number {
  const { refs } = chords;
  let [low, high] = [0, refs.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    const r = refs[middle]!;
    if (r.index < index || (r.index === index && r.t <= t)) low = middle;
    else high = middle - 1;
  }
  const from = refs[low]!.t;
  const span = endParameter(chords, low) - from;
  return refs[low]!.index === index && span > 0 ? low + Math.min(1, Math.max(0, (t - from) / span)) : low;
}

/** Into how many a chord is cut where curves run near each other: the sagitta falls with the square. */
const FINER = Math.ceil(Math.sqrt(CHORD_SAGITTA / NEAR_SAGITTA));
/** Closer than this, mm, two chords may lie on the wrong sides of each other's curves. */
const NEAR = 3 * CHORD_SAGITTA;

/** Cut the chords of curves finer where they come near other chords, so that no crossing or side is decided by a coarse chord. */
export function refineNearChords(all: readonly ChordedPath[]): readonly ChordedPath[] {
  if (!all.some((c) => c.drawn.path.some(isCubic))) return all;
  const list = segmentList(all);
  const isNear = new Uint8Array(list.ids.length);
  const at = (k: number): Pt => [list.xs[k]!, list.ys[k]!];
  forEachNearPair(list, NEAR, (i, j) => {
    if (isNear[i] && isNear[j]) return;
    if (i + 1 === j ? !foldsBack(at(i), at(j), at(j + 1)) : !areNear(at(i), at(i + 1), at(j), at(j + 1)))
      return;
    isNear[i] = 1;
    isNear[j] = 1;
  });
  return all.map((c, p) => finer(c, isNear.subarray(list.first[p]!, list.first[p + 1]!)));
}

function segmentList(all: readonly ChordedPath[]): {
  xs: number[];
  ys: number[];
  ids: number[];
  first: number[];
} {
  const [xs, ys, first]: [number[], number[], number[]] = [[], [], [0]];
  for (const { points, closed } of all) {
    for (const [x, y] of points) {
      xs.push(x);
      ys.push(y);
    }
    if (closed && points.length > 0) {
      xs.push(points[0]![0]);
      ys.push(points[0]![1]);
    }
    first.push(xs.length);
  }
  return { xs, ys, ids: xs.map((_, i) => i), first };
}

/** Whether the chord b c lies so close over the chord a b that only finer chords can tell them apart. */
const foldsBack = (a: Pt, b: Pt, c: Pt): boolean =>
  distanceToSegment(a, b, c).distance < NEAR || distanceToSegment(c, a, b).distance < NEAR;

function areNear(a: Pt, b: Pt, c: Pt, d: Pt): boolean {
  const side = (p: Pt, q: Pt, r: Pt): number => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  if (side(a, b, c) > 0 !== side(a, b, d) > 0 && side(c, d, a) > 0 !== side(c, d, b) > 0) return true;
  return (
    distanceToSegment(a, c, d).distance < NEAR ||
    distanceToSegment(b, c, d).distance < NEAR ||
    distanceToSegment(c, a, b).distance < NEAR ||
    distanceToSegment(d, a, b).distance < NEAR
  );
}

function finer(chords: ChordedPath, isNear: Uint8Array): ChordedPath {
  const { drawn, points, refs } = chords;
  if (!isNear.some((near, i) => near === 1 && refs[i] !== undefined && isCubic(drawn.path[refs[i]!.index]!)))
    return chords;
  const [morePoints, moreRefs]: [Pt[], CurveRef[]] = [[], []];
  refs.forEach((ref, i) => {
    morePoints.push(points[i]!);
    moreRefs.push(ref);
    const curve = drawn.path[ref.index]!;
    const end = endParameter(chords, i);
    if (!isNear[i] || !isCubic(curve) || !(end > ref.t)) return;
    for (let k = 1; k < FINER; k += 1) {
      const t = ref.t + ((end - ref.t) * k) / FINER;
      morePoints.push(pointAt(curve, t));
      moreRefs.push({ index: ref.index, t });
    }
  });
  return chorded(drawn, morePoints, moreRefs);
}
