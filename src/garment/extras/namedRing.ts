import {
  type Curve,
  type CurveRef,
  type Line,
  type Path,
  type Pt,
  type Ring,
  curveLength,
  dot,
  endOfCurve,
  nearestOnPath,
  perpendicular,
  pathLength,
  pointAtLength,
  pointOn,
  subCurve,
  subtract,
  unit,
  withEnds,
} from '../../geometry';
import { meetsOf } from '../../lines';
import type { Dart, EdgeName, Notch, PlacedDart, WholePiece } from '../../pattern';

/** A curve of an outline that is being made, with the name of its edge; null where it has none. */
export interface NamedCurve {
  readonly curve: Curve;
  readonly name: string | null;
}

export const pathOf = (curves: readonly NamedCurve[]): Path => curves.map((c) => c.curve);

/** Curves shorter than this are left out, mm. */
const NO_LENGTH = 1e-6;

/** The stretch of a ring from one place to another, on in ring order. */
export function stretch(ring: readonly NamedCurve[], from: CurveRef, to: CurveRef): NamedCurve[] {
  const n = ring.length;
  const wraps = to.index < from.index || (to.index === from.index && to.t <= from.t);
  const count = to.index - from.index + (wraps ? n : 0);
  const parts = Array.from({ length: count + 1 }, (_, k): NamedCurve => {
    const { curve, name } = ring[(from.index + k) % n]!;
    return { curve: subCurve(curve, k === 0 ? from.t : 0, k === count ? to.t : 1), name };
  });
  return parts.filter((p) => curveLength(p.curve) > NO_LENGTH);
}

/** A ring whose every curve begins exactly where the one before ends. */
export function closedUp(ring: readonly NamedCurve[]): NamedCurve[] {
  return ring.map(({ curve, name }, i) => ({
    curve: withEnds(curve, endOfCurve(ring.at(i - 1)!.curve), endOfCurve(curve)),
    name,
  }));
}

/** The stitching outline of a whole piece with names of edges, straight across the mouths of its darts. */
export function namedStitching(whole: WholePiece): readonly NamedCurve[] {
  const ring = whole.stitching.map((curve, i): NamedCurve => {
    const { plainName, naming } = whole.edges[whole.edgeOf[i]!]!;
    return { curve, name: naming === 'numbered' ? null : plainName };
  });
  return whole.darts.reduce((now, dart) => acrossMouth(now, dart), ring);
}

function acrossMouth(ring: NamedCurve[], dart: PlacedDart): NamedCurve[] {
  if (dart.kind !== 'single') return ring;
  const path = pathOf(ring);
  const [a, b] = dart.mouth.map((p) => nearestOnPath(path, p));
  if (Math.max(a!.distance, b!.distance) > 0.05) return ring;
  const ways = [
    [a!, b!],
    [b!, a!],
  ] as const;
  const lengths = ways.map(([from, to]) => pathLength(pathOf(stretch(ring, from, to))));
  const [from, to] = ways[lengths[0]! <= lengths[1]! ? 0 : 1]!;
  const { name } = ring[to.index]!;
  return closedUp([{ curve: [pointOn(path, from), pointOn(path, to)], name }, ...stretch(ring, to, from)]);
}

/** On which side of a half piece's fold it was traced: a point's signed distance from the fold, positive there. */
export function towardsTraced({ piece }: WholePiece, fold: Line): (p: Pt) => number {
  const square = perpendicular(unit(subtract(fold[1], fold[0])));
  const away = (p: Pt): number => dot(subtract(p, fold[0]), square);
  const far = piece.outline.reduce(
    (most, c) => (Math.abs(away(c[0])) > Math.abs(most) ? away(c[0]) : most),
    0,
  );
  return far < 0 ? (p) => -away(p) : away;
}

/** Name of the edge that a half gets where it is not cut on the fold, because a zip is there. */
export const CENTRE_SEAM = 'centre seam';

/** The traced half of a ring that lies across the fold, and the fold of the half; null where the fold does not part it in two. */
export function tracedHalf(
  whole: WholePiece,
  ring: readonly NamedCurve[],
  fold: Line,
  opensThere: boolean,
): { ring: readonly NamedCurve[]; fold: Line } | null {
  const path = pathOf(ring);
  const met = meetsOf(path, fold[0], unit(subtract(fold[1], fold[0])));
  const along = (p: Pt): number => dot(subtract(p, fold[0]), subtract(fold[1], fold[0]));
  const ordered = met.toSorted((p, q) => along(p.point) - along(q.point));
  const [first, last] = [ordered[0], ordered.at(-1)];
  if (!first || !last || first === last) return null;
  const away = towardsTraced(whole, fold);
  const middle = (part: readonly NamedCurve[]): Pt =>
    pointAtLength(pathOf(part), pathLength(pathOf(part)) / 2).point;
  const part = [stretch(ring, first, last), stretch(ring, last, first)].find(
    (p) => p.length > 0 && away(middle(p)) > 0,
  );
  if (!part) return null;
  const line: Line = [endOfCurve(part.at(-1)!.curve), part[0]!.curve[0]];
  return { ring: closedUp([...part, { curve: line, name: opensThere ? CENTRE_SEAM : null }]), fold: line };
}

/** Names of edges as a tracing has them: one for each run of curves of a name. */
export function edgeNamesOf(ring: readonly NamedCurve[]): readonly EdgeName[] {
  const start = ring.findIndex((c, i) => c.name !== ring.at(i - 1)!.name);
  const turned = start <= 0 ? ring : [...ring.slice(start), ...ring.slice(0, start)];
  const names: { name: string | null; path: Curve[] }[] = [];
  for (const { curve, name } of turned) {
    const last = names.at(-1);
    if (last && last.name === name) last.path.push(curve);
    else names.push({ name, path: [curve] });
  }
  return names.flatMap(({ name, path }) => (name === null ? [] : [{ name, path }]));
}

/** Darts of a whole piece as traced ones, kept, of the half that was traced. */
export const dartsKept = (whole: WholePiece): readonly Dart[] =>
  whole.darts
    .filter((d) => !d.mirrored)
    .map(({ mirrored: _mirrored, traced: _traced, close: _close, ...shape }): Dart => ({
      ...shape,
      treatment: { kind: 'keep' },
    }));

/** A match mark this near an outline, beyond what the tracing includes there, is on it, mm. */
const ON_OUTLINE = 1;

/** The match marks of a piece that lie on an outline made from it, moved onto its stitching line. */
export function notchesAlong(whole: WholePiece, ring: Ring, isHalf: boolean): readonly Notch[] {
  const away = isHalf && whole.foldLine ? towardsTraced(whole, whole.foldLine) : null;
  return whole.notches.flatMap((notch): Notch[] => {
    if (away && away(notch.at) < -ON_OUTLINE) return [];
    const own = nearestOnPath(whole.stitching, notch.at);
    const included = whole.edges[whole.edgeOf[own.index]!]!.included ?? 0;
    const near = nearestOnPath(ring, own.point);
    if (own.distance > included + ON_OUTLINE || near.distance > ON_OUTLINE / 2) return [];
    const move = subtract(near.point, notch.at);
    return [{ at: near.point, inner: [notch.inner[0] + move[0], notch.inner[1] + move[1]] }];
  });
}
