import { directionAt, endOfCurve, pointAt, startOfCurve } from './curve';
import type { CurveChords, CurveIndex } from './curveIndex';
import { endParameter, type ChordedPath } from './drawnPath';
import { nearestFrom, straightHitNear } from './intersect';
import { CHORD_SAGITTA } from './tolerances';
import type { Box, Curve, Pt } from './types';
import { cross, distance, distanceToSegment, dot, lengthOfPoints, mix, subtract } from './vector';

/** An end of an open line, as drawn. */
export interface LineEnd {
  readonly path: number;
  readonly end: 'start' | 'end';
  readonly point: Pt;
  /** Unit vector straight on from the end. */
  readonly ahead: Pt;
  /** Chords from the end back, about as long as the joining gap. */
  readonly tail: readonly Pt[];
  /** Too short for one end to be drawn on to the other. */
  readonly isShort: boolean;
}

/** A place on a drawn thing near an end. `gap` is the distance, mm; straight on, negative means just behind the end. */
export interface Target {
  readonly path: number;
  readonly point: Pt;
  readonly gap: number;
}

/** On the last bit of a line its chords say nothing certain: crossings this near the end (mm) are worked out on the true curves. */
export const CHORD_DOUBT = 3 * CHORD_SAGITTA;
/** A line may be drawn on to itself, but not to the stretch just behind its own end: this many gaps long. */
const OWN_TAIL = 4;

export function lineEndsOf({ drawn, points, closed }: ChordedPath, path: number, gap: number): LineEnd[] {
  if (closed || drawn.source.kind === 'outline' || points.length < 2) return [];
  const [first, last] = [drawn.path[0]!, drawn.path[drawn.path.length - 1]!];
  const [a, b] = [directionAt(first, 0), directionAt(last, 1)];
  const isShort = lengthOfPoints(stretch(points, 2 * OWN_TAIL * gap)) <= OWN_TAIL * gap;
  const backwards = points.toReversed();
  return [
    {
      path,
      end: 'start',
      point: startOfCurve(first),
      ahead: [-a[0], -a[1]],
      tail: stretch(points, gap),
      isShort,
    },
    { path, end: 'end', point: endOfCurve(last), ahead: b, tail: stretch(backwards, gap), isShort },
  ];
}

/** The first `length` mm of a polyline. */
function stretch(points: readonly Pt[], length: number): Pt[] {
  const out: Pt[] = [points[0]!];
  let rest = length;
  for (let i = 1; i < points.length && rest > 0; i += 1) {
    const [p, q] = [points[i - 1]!, points[i]!];
    const l = distance(p, q);
    out.push(l > rest ? mix(p, q, rest / l) : q);
    rest -= l;
  }
  return out;
}

/** A chord near an end: chord k of a drawn path, from a to b, standing for the true curve from t0 on over `span`. */
export interface NearChord {
  readonly path: number;
  readonly a: Pt;
  readonly b: Pt;
  readonly curve: Curve;
  readonly t0: number;
  readonly span: number;
}

/** Square round a line's end in which anything within the gap must lie. */
export function boxRound({ point: [x, y] }: LineEnd, gap: number): Box {
  const reach = gap + CHORD_DOUBT;
  return { minX: x - reach, minY: y - reach, maxX: x + reach, maxY: y + reach };
}

/** All chords that reach into a box, those just behind the end on its own line left out. */
export const chordsIn = (
  box: Box,
  all: readonly ChordedPath[],
  index: CurveIndex,
  end: LineEnd,
  gap: number,
): NearChord[] => index.search(box).flatMap((c) => chordsOfCurve(all[c.path]!, c, end, box, gap));

function chordsOfCurve(
  chords: ChordedPath,
  c: CurveChords,
  end: LineEnd,
  box: Box,
  gap: number,
): NearChord[] {
  const found: NearChord[] = [];
  const { points, refs, drawn } = chords;
  for (let k = c.first; k <= c.last; k += 1) {
    const [a, b] = [points[k]!, points[k + 1 < points.length ? k + 1 : 0]!];
    if (Math.min(a[0], b[0]) > box.maxX || Math.max(a[0], b[0]) < box.minX) continue;
    if (Math.min(a[1], b[1]) > box.maxY || Math.max(a[1], b[1]) < box.minY) continue;
    if (c.path === end.path && isOwnTail(points, k, end, OWN_TAIL * gap)) continue;
    const t0 = refs[k]!.t;
    found.push({ path: c.path, a, b, curve: drawn.path[c.curve]!, t0, span: endParameter(chords, k) - t0 });
  }
  return found;
}

/** Whether chord k begins within `length` mm behind the end. */
function isOwnTail(points: readonly Pt[], k: number, end: LineEnd, length: number): boolean {
  let behind = 0;
  if (end.end === 'start') {
    for (let i = 0; i < k && behind <= length; i += 1) behind += distance(points[i]!, points[i + 1]!);
  } else {
    for (let i = points.length - 1; i > k + 1 && behind <= length; i -= 1)
      behind += distance(points[i]!, points[i - 1]!);
  }
  return behind <= length;
}

/** Drawn paths that the last stretch of a line crosses before its doubtful last bit, each with the place. */
export function crossedByTail(end: LineEnd, near: readonly NearChord[]): Target[] {
  const crossed: Target[] = [];
  let behind = 0;
  for (let i = 1; i < end.tail.length; i += 1) {
    const [p, q] = [end.tail[i - 1]!, end.tail[i]!];
    const l = distance(p, q);
    for (const { path, a, b } of near) {
      const t = crossingParameter(p, q, a, b);
      if (t !== null && behind + t * l > CHORD_DOUBT)
        crossed.push({ path, point: mix(p, q, t), gap: behind + t * l });
    }
    behind += l;
  }
  return crossed;
}

/** Parameter on p q at which it crosses or touches a b, null if it does not. */
function crossingParameter(p: Pt, q: Pt, a: Pt, b: Pt): number | null {
  const [u, v, w] = [subtract(q, p), subtract(b, a), subtract(a, p)];
  const turn = cross(u, v);
  if (turn === 0) return null;
  const t = cross(w, v) / turn;
  const s = cross(w, u) / turn;
  return t >= 0 && t <= 1 && s >= 0 && s <= 1 ? t : null;
}

/** The point of the true curve behind a chord that is nearest to the end; null when farther than the gap. */
export function nearestOf(c: NearChord, end: LineEnd, gap: number): Target | null {
  const foot = distanceToSegment(end.point, c.a, c.b);
  if (foot.distance > gap + CHORD_DOUBT) return null;
  const point = pointAt(c.curve, nearestFrom(c.curve, c.t0 + foot.t * c.span, end.point));
  const away = distance(point, end.point);
  return away <= gap ? { path: c.path, point, gap: away } : null;
}

/** Where the line, drawn straight on by no more than `most` mm, meets the true curve behind a chord; or just behind the end. */
export function straightOn(c: NearChord, end: LineEnd, most: number): Target | null {
  const [p, q] = [cross(end.ahead, subtract(c.a, end.point)), cross(end.ahead, subtract(c.b, end.point))];
  const slack = CHORD_SAGITTA;
  if ((p > slack && q > slack) || (p < -slack && q < -slack) || p === q) return null;
  const t = Math.min(1, Math.max(0, p / (p - q)));
  const along = dot(end.ahead, subtract(mix(c.a, c.b, t), end.point));
  if (along < -CHORD_DOUBT || along > most + CHORD_DOUBT) return null;
  const hit = straightHitNear(c.curve, c.t0 + t * c.span, end.point, end.ahead);
  return hit && hit.along >= -CHORD_DOUBT && hit.along <= most
    ? { path: c.path, point: hit.point, gap: hit.along }
    : null;
}
