import {
  cross,
  crossStraight,
  distance,
  dot,
  endOf,
  lengthAt,
  nearestOnPath,
  pathLength,
  pointOn,
  refAtLength,
  scale,
  startOf,
  subtract,
  unit,
  add,
  type Path,
  type Pt,
  type CurveRef,
} from '../../geometry';
import { edgePath, type WholePiece } from '../../pattern';
import { levelWord } from './catchField';
import { grainFrame, runOf, type Run } from './grainFrame';
import { isStraight } from './moveLine';

/** Something a line's place is measured from. */
export type Reference =
  | { readonly kind: 'level'; readonly name: string; readonly origin: Pt }
  | { readonly kind: 'centre'; readonly origin: Pt }
  | { readonly kind: 'edge'; readonly name: string; readonly edge: number; readonly from: 'first' | 'last' };

/** How far, and which way: `4.5 cm below waist level`. `way` is empty where only one way makes sense. */
export interface Measured {
  readonly reference: Reference;
  /** mm, never negative. */
  readonly distance: number;
  readonly way: 'below' | 'above' | 'left of' | 'right of' | 'along';
}

export const referenceKey = (r: Reference): string =>
  r.kind === 'edge' ? `edge ${r.edge} ${r.from}` : r.kind === 'level' ? `level ${r.name}` : 'centre';

/** The edge a point lies on, within 1 mm. */
export function edgeUnder(whole: WholePiece, p: Pt): { edge: number; path: Path; at: CurveRef } | null {
  if (whole.stitching.length === 0) return null;
  const near = nearestOnPath(whole.stitching, p);
  if (near.distance > 1) return null;
  const edge = whole.edgeOf[near.index];
  if (edge === undefined) return null;
  const path = edgePath(whole, edge);
  return { edge, path, at: nearestOnPath(path, p) };
}

const isTurned = (whole: WholePiece): boolean => Math.abs(grainFrame(whole).along[1]) < Math.SQRT1_2;

function measureFromLevel(whole: WholePiece, reference: Reference & { kind: 'level' }, p: Pt): Measured {
  const v = dot(subtract(p, reference.origin), grainFrame(whole).along);
  const way = isTurned(whole) ? (v < 0 ? 'left of' : 'right of') : v < 0 ? 'above' : 'below';
  return { reference, distance: Math.abs(v), way };
}

function measureFromCentre(whole: WholePiece, reference: Reference & { kind: 'centre' }, p: Pt): Measured {
  const fold = whole.foldLine!;
  const u = unit(subtract(fold[1], fold[0]));
  const off = cross(u, subtract(p, fold[0]));
  const right = off * -(u[1] >= 0 ? 1 : -1) > 0;
  return { reference, distance: Math.abs(off), way: right ? 'right of' : 'left of' };
}

/** Measure a point from a reference; null where an edge is meant that the point does not lie on. */
export function measureFrom(whole: WholePiece, reference: Reference, p: Pt): Measured | null {
  if (reference.kind === 'level') return measureFromLevel(whole, reference, p);
  if (reference.kind === 'centre') return whole.foldLine ? measureFromCentre(whole, reference, p) : null;
  const under = edgeUnder(whole, p);
  if (!under || under.edge !== reference.edge) return null;
  const s = lengthAt(under.path, under.at);
  return { reference, distance: reference.from === 'first' ? s : pathLength(under.path) - s, way: 'along' };
}

function levelReferences(whole: WholePiece): Reference[] {
  const seen = new Set<string>();
  return whole.levels.flatMap(({ name, line }): Reference[] => {
    const word = levelWord(name);
    if (seen.has(word)) return [];
    seen.add(word);
    return [{ kind: 'level', name: word, origin: line[0] }];
  });
}

function edgeReferences(whole: WholePiece, p: Pt): Reference[] {
  const under = edgeUnder(whole, p);
  if (!under) return [];
  const name = whole.edges[under.edge]?.name ?? 'edge';
  return [
    { kind: 'edge', name, edge: under.edge, from: 'first' },
    { kind: 'edge', name, edge: under.edge, from: 'last' },
  ];
}

const nearestFirst = (a: Measured, b: Measured): number => a.distance - b.distance;

/**
 * Everything a point of a line can be measured from, best first: levels for a line across the grain, the centre for one
 * running with it, then along the edge it lies on.
 */
export function measuresAt(whole: WholePiece, p: Pt, run: Run): Measured[] {
  const from = (references: readonly Reference[]): Measured[] =>
    references.flatMap((r) => measureFrom(whole, r, p) ?? []).sort(nearestFirst);
  const levels = run === 'with the grain' ? [] : from(levelReferences(whole));
  const centre =
    run === 'across the grain' || !whole.foldLine
      ? []
      : from([{ kind: 'centre', origin: whole.foldLine[0] }]);
  const along = from(edgeReferences(whole, p));
  return run === 'with the grain' ? [...centre, ...along] : [...levels, ...along, ...centre];
}

/** The run of a whole line: curves and broken lines lie at an angle. */
export const runOfPath = (whole: WholePiece, path: Path): Run =>
  isStraight(path) ? runOf(grainFrame(whole), startOf(path), endOf(path)) : 'at an angle';

/**
 * Where a point must move to lie at a distance from a reference, on the same side as `way` says.
 * A point on an edge stays on that edge where it can; null when the distance cannot be had there.
 */
export function pointAtDistance(
  whole: WholePiece,
  reference: Reference,
  way: Measured['way'],
  distanceWanted: number,
  p: Pt,
): Pt | null {
  if (reference.kind === 'edge') {
    const path = edgePath(whole, reference.edge);
    const total = pathLength(path);
    if (path.length === 0 || distanceWanted > total + 0.05 || distanceWanted < 0) return null;
    return pointOn(
      path,
      refAtLength(path, reference.from === 'first' ? distanceWanted : total - distanceWanted),
    );
  }
  const now = measureFrom(whole, reference, p);
  if (!now) return null;
  const { along, across } = grainFrame(whole);
  const [step, run] =
    reference.kind === 'level'
      ? [along, across]
      : [foldNormal(whole), unit(subtract(whole.foldLine![1], whole.foldLine![0]))];
  const sign = way === 'below' || way === 'right of' ? 1 : -1;
  const wasSign = now.way === 'below' || now.way === 'right of' ? 1 : -1;
  const target = add(p, scale(step, sign * distanceWanted - wasSign * now.distance));
  const under = edgeUnder(whole, p);
  if (!under) return target;
  const meets = crossStraight(whole.stitching, target, run);
  return meets.reduce<Pt | null>(
    (best, m) => (!best || distance(m.point, target) < distance(best, target) ? m.point : best),
    null,
  );
}

/** Square to the fold, pointing right on the drawing. */
function foldNormal(whole: WholePiece): Pt {
  const [a, b] = whole.foldLine!;
  const [x, y] = unit(subtract(b, a));
  return y >= 0 ? [y, -x] : [-y, x];
}
