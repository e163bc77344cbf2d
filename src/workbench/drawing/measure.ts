import { crossStraight, distance, endOf, startOf, type Path, type Pt } from '../../geometry';
import {
  basePlace,
  basesKey,
  edgeAt,
  edgeId,
  isLost,
  levelsDown,
  measureReach,
  pointOnEdge,
  findEdge,
  type Axis,
} from '../../lines';
import { type Base, type WholePiece, grainFrame, heightOf, placeAcross, pointInGrain } from '../../pattern';
import { runOf, type Run } from './grainRun';
import { isStraight } from './moveLine';

/** Something a line's place is measured from as it is drawn: a level, the centre, or an end of the edge it lies on. */
export type Reference = Exclude<Base, { kind: 'edge' }>;

/** How far, and which way: `4.5 cm below waist level`. `way` is `along` for a length along an edge. */
export interface Measured {
  readonly reference: Reference;
  /** mm, never negative. */
  readonly distance: number;
  readonly way: 'below' | 'above' | 'left of' | 'right of' | 'along';
}

export const referenceKey = (r: Reference): string => basesKey([r]);

/** A point this near an edge, mm, lies on it. */
const ON_EDGE = 1;

const isTurned = (whole: WholePiece): boolean => Math.abs(grainFrame(whole).along[1]) < Math.SQRT1_2;

function axisFor(whole: WholePiece, reference: Reference, at: Pt): Axis | null {
  if (reference.kind === 'level') return { kind: 'down', at };
  if (reference.kind === 'centre') return { kind: 'over', at };
  const under = edgeAt(whole, at, ON_EDGE);
  return under && under.edge === findEdge(whole, reference) ? { kind: 'edge', edge: under.edge, at } : null;
}

/** Measure a point from a reference; null where an edge is meant that the point does not lie on. Along edges, darts take up no length. */
export function measureFrom(whole: WholePiece, reference: Reference, p: Pt): Measured | null {
  const axis = axisFor(whole, reference, p);
  const reach = axis && measureReach(whole, axis, [reference], p);
  if (!reach || isLost(reach) || reach.kind !== 'from') return null;
  const ways =
    reference.kind === 'level' && !isTurned(whole)
      ? (['above', 'below'] as const)
      : (['left of', 'right of'] as const);
  const way = reference.kind === 'edge end' ? 'along' : reach.by < 0 ? ways[0] : ways[1];
  return { reference, distance: Math.abs(reach.by), way };
}

function edgeReferences(whole: WholePiece, p: Pt): Reference[] {
  const under = edgeAt(whole, p, ON_EDGE);
  if (!under) return [];
  const id = edgeId(whole, under.edge);
  return [
    { kind: 'edge end', ...id, end: 'first' },
    { kind: 'edge end', ...id, end: 'last' },
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
  const levels =
    run === 'with the grain'
      ? []
      : from(levelsDown(whole).map(({ level }): Reference => ({ kind: 'level', name: level.name })));
  const centre = run === 'across the grain' || !whole.foldLine ? [] : from([{ kind: 'centre' }]);
  const along = from(edgeReferences(whole, p));
  return run === 'with the grain' ? [...centre, ...along] : [...levels, ...along, ...centre];
}

/** The run of a whole line: curves and broken lines lie at an angle. */
export const runOfPath = (whole: WholePiece, path: Path): Run =>
  isStraight(path) ? runOf(grainFrame(whole), startOf(path), endOf(path)) : 'at an angle';

/** Where the fold runs, else across the grain: the way a point goes on to find its edge again. */
function straightThrough(whole: WholePiece, reference: Reference): Pt {
  const { along, across } = grainFrame(whole);
  return reference.kind === 'level' ? across : along;
}

/**
 * Where a point must move to lie at a distance from a reference, on the same side as `way` says.
 * A point on an edge stays on an edge where it can; null when the distance cannot be had there.
 */
export function pointAtDistance(
  whole: WholePiece,
  reference: Reference,
  way: Measured['way'],
  wanted: number,
  p: Pt,
): Pt | null {
  const axis = axisFor(whole, reference, p);
  const base = axis && basePlace(whole, axis, reference);
  if (!axis || !base || isLost(base) || wanted < 0) return null;
  const towards = way === 'above' || way === 'left of' ? -1 : 1;
  const place = base.place + base.sign * towards * wanted;
  if (axis.kind === 'edge') {
    const at = pointOnEdge(whole, axis.edge, place);
    return isLost(at) ? null : at;
  }
  const target =
    axis.kind === 'down'
      ? pointInGrain(whole, place, placeAcross(whole, p))
      : pointInGrain(whole, heightOf(whole, p), place);
  if (!edgeAt(whole, p, ON_EDGE)) return target;
  return crossStraight(whole.stitching, target, straightThrough(whole, reference)).reduce<Pt | null>(
    (best, m) => (!best || distance(m.point, target) < distance(best, target) ? m.point : best),
    null,
  );
}
