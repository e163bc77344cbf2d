import {
  CORNER_TURN,
  type CurveRef,
  NAME_REACH,
  type Path,
  type Pt,
  SAME_POINT,
  curveLength,
  directionAt,
  distance,
  distanceToSegment,
  endOf,
  isClosed,
  nearestOnPath,
  pathLength,
  pointAt,
  pointAtLength,
  splitCurve,
  startOf,
  subPath,
} from '../geometry';
import type { EdgeName, Piece } from './design';
import { type Problem, problem } from './problem';
import { proposeNames } from './proposeNames';

/** A curve of the traced outline with the edge it belongs to: names are equal exactly within one edge. */
export interface NamedCurve {
  readonly curve: Path[number];
  /** Traced name, or null. */
  readonly name: string | null;
  /** Number of the edge in traced order; two stretches with one name but apart have different numbers. */
  readonly edge: number;
}

/** Whether the joint between two curves turns sharply enough to be a corner. */
export function isCorner(before: Path[number], after: Path[number]): boolean {
  const [ax, ay] = directionAt(before, 1);
  const [bx, by] = directionAt(after, 0);
  return Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by)) > CORNER_TURN;
}

interface Stretch {
  readonly name: string;
  readonly from: CurveRef;
  readonly to: CurveRef;
}

/** Find the stretch of outline a traced name lies on; null with a problem where it does not lie on any. */
function stretchOf(outline: Path, { name, path }: EdgeName, piece: string): Stretch | Problem {
  const ends = [startOf(path), pointAtLength(path, pathLength(path) / 2).point, endOf(path)] as const;
  const [p, m, q] = ends.map((point) => nearestOnPath(outline, point)) as [Near, Near, Near];
  const gap = Math.max(p.distance, m.distance, q.distance);
  if (gap > NAME_REACH) return problem('edge-name-off-outline', { name, gap }, piece, ends[1]);
  const closed = isClosed(outline);
  const forward = { name, from: snapped(outline, p), to: snapped(outline, q) };
  const backward = { name, from: forward.to, to: forward.from };
  if (!closed) return isBefore(p, q) ? forward : backward;
  return passes(outline, forward, m) ? forward : backward;
}

type Near = ReturnType<typeof nearestOnPath>;
const isBefore = (a: CurveRef, b: CurveRef): boolean =>
  a.index < b.index || (a.index === b.index && a.t <= b.t);

/** Whether a ring stretch contains a place. */
function passes(outline: Path, { from, to }: Stretch, place: CurveRef): boolean {
  if (outline.length === 0) return false;
  return isBefore(from, to)
    ? isBefore(from, place) && isBefore(place, to)
    : isBefore(from, place) || isBefore(place, to);
}

/** A traced name's end near a curve's end means that end: no slivers. */
function snapped(outline: Path, ref: CurveRef): CurveRef {
  const curve = outline[ref.index]!;
  if (curveLength(curve, 0, ref.t) < NAME_REACH / 3) return { index: ref.index, t: 0 };
  if (curveLength(curve, ref.t, 1) < NAME_REACH / 3) return { index: ref.index, t: 1 };
  return ref;
}

/** Split the outline's curves where names begin or end. */
function splitAt(outline: Path, cuts: readonly CurveRef[]): Path {
  return outline.flatMap((curve, index) => {
    const inside = cuts.filter((c) => c.index === index && c.t > 0 && c.t < 1).map((c) => c.t);
    const parts: Path[number][] = [];
    let rest = curve;
    let done = 0;
    for (const t of [...new Set(inside)].sort((a, b) => a - b)) {
      const [head, tail] = splitCurve(rest, (t - done) / (1 - done));
      if (distance(head[0], pointAt(head, 1)) < SAME_POINT) continue;
      parts.push(head);
      rest = tail;
      done = t;
    }
    return [...parts, rest];
  });
}

/**
 * Part the traced outline (a ring, or a half piece's open outline) into edges: under traced names where there are some,
 * else at corners.
 */
export function nameCurves(
  outline: Path,
  names: readonly EdgeName[],
  piece: string,
): { curves: readonly NamedCurve[]; problems: readonly Problem[] } {
  const found = names.filter(({ path }) => path.length > 0).map((n) => stretchOf(outline, n, piece));
  const stretches = found.filter((s): s is Stretch => !('code' in s));
  const problems = found.filter((s): s is Problem => 'code' in s);
  const split = splitAt(
    outline,
    stretches.flatMap(({ from, to }) => [from, to]),
  );
  const middles = stretches.map((s) => ({ name: s.name, path: subPath(outline, s.from, s.to) }));
  const named = split.map((curve) => {
    const middle = pointAt(curve, 0.5);
    const on = middles.find(
      ({ path }) => path.length > 0 && nearestOnPath(path, middle).distance < SAME_POINT,
    );
    return { curve, name: on?.name ?? null };
  });
  return { curves: numberEdges(startAtBreak(named, isClosed(outline))), problems };
}

type Unnumbered = Omit<NamedCurve, 'edge'>;

const breaksBetween = (a: Unnumbered, b: Unnumbered): boolean =>
  a.name !== b.name || (a.name === null && isCorner(a.curve, b.curve));

/** Turn a ring so that it starts where an edge starts; a ring without any break stays as it is. */
function startAtBreak(curves: readonly Unnumbered[], closed: boolean): readonly Unnumbered[] {
  if (!closed) return curves;
  const first = curves.findIndex((c, i) => breaksBetween(curves.at(i - 1)!, c));
  return first <= 0 ? curves : [...curves.slice(first), ...curves.slice(0, first)];
}

function numberEdges(curves: readonly Unnumbered[]): readonly NamedCurve[] {
  let edge = 0;
  return curves.map((c, i) => {
    if (i > 0 && breaksBetween(curves[i - 1]!, c)) edge += 1;
    return { ...c, edge };
  });
}

/** What shape and place say of a piece's edges, by their number in traced order. */
export interface ProposedEdges {
  /** Null where there is a traced name or nothing is sure. */
  readonly names: readonly (string | null)[];
  /** The edge that each belongs to: the first of those that only a dart's mouth parts. */
  readonly belongsTo: readonly number[];
}

/** Whether a corner of the outline belongs to a dart's mouth: its ends, and the tip of a mouth traced as the folded dart is cut. */
function isInMouth(p: Pt, { darts }: Piece): boolean {
  return darts.some((dart) => {
    if (dart.kind !== 'single') return false;
    const [a, b] = dart.mouth;
    const { distance: away, t } = distanceToSegment(p, a, b);
    return away <= (t > 0 && t < 1 ? distance(a, b) / 2 : NAME_REACH);
  });
}

/** Edges taken together over dart mouths: the side seam goes on beyond its dart. */
function overMouths(piece: Piece, paths: readonly Path[], given: readonly (string | null)[]): number[] {
  const groups: number[] = [];
  paths.forEach((path, e) => {
    const goesOn = e > 0 && given[e] === null && given[e - 1] === null && isInMouth(startOf(path), piece);
    groups.push(goesOn ? groups[e - 1]! : e);
  });
  return groups;
}

/** Names by shape and place for the edges that have none. Edges parted by a dart's mouth are named as one, or not at all. */
export function proposedEdges(piece: Piece, curves: readonly NamedCurve[]): ProposedEdges {
  const count = (curves.at(-1)?.edge ?? -1) + 1;
  const paths = Array.from({ length: count }, (_, e) =>
    curves.filter((c) => c.edge === e).map((c) => c.curve),
  );
  const given = paths.map((_, e) => curves.find((c) => c.edge === e)!.name);
  const belongs = overMouths(piece, paths, given);
  const firsts = [...new Set(belongs)];
  const together = firsts.map((f) => paths.filter((_, e) => belongs[e] === f).flat());
  const found = proposeNames(
    piece,
    together,
    firsts.map((f) => given[f]!),
  );
  const names = belongs.map((f) => found[firsts.indexOf(f)]!);
  return { names, belongsTo: belongs.map((f, e) => (names[e] === null ? e : f)) };
}
