import {
  type Box,
  JOIN_GAP,
  type Pt,
  pathBox,
  nearestOnPath,
  directionAt,
  perpendicular,
  pointAtLength,
  scale,
} from '../geometry';
import type { Panel, PanelEdge, Seam, SeamId } from '../panels';
import type { Allowances, WholePiece } from '../pattern';
import type { CutNotch } from './cutPiece';
import { allowanceOf } from './widths';

/**
 * Places of the two notches of a new seam as parts of its length: never halves, never mirror images of each other, so a panel
 * that is turned round does not match; neighbouring seams take different places, so a panel swapped for another does not either.
 * The first is single, the second double. Common practice, no source.
 */
const PLACES: readonly (readonly [number, number])[] = [
  [0.3, 0.62],
  [0.24, 0.66],
  [0.36, 0.7],
  [0.27, 0.57],
];

/** Arc lengths of the single and the double notch from the seam's start, mm. */
export function notchPlaces(seam: Seam, running: number): readonly [number, number] {
  const [single, double] = PLACES[running % PLACES.length]!;
  return [single * seam.lengthA, double * seam.lengthA];
}

/** Outwards from the panel, square to its boundary, where the boundary runs in `direction`. */
const outwardOf = (direction: Pt): Pt => scale(perpendicular(direction), -1);

function seamNotches(edge: PanelEdge, seam: Seam, running: number, allowance: number): CutNotch[] {
  if (edge.origin.kind !== 'seam') return [];
  const { forward } = edge.origin;
  return notchPlaces(seam, running).map((s, i): CutNotch => {
    const { point, direction } = pointAtLength(seam.path, s);
    const along = forward ? direction : scale(direction, -1);
    return { at: point, outward: outwardOf(along), allowance, marks: i === 0 ? 1 : 2, seam: seam.id };
  });
}

const isWithin = (b: Box, [x, y]: Pt, reach: number): boolean =>
  x >= b.minX - reach && x <= b.maxX + reach && y >= b.minY - reach && y <= b.maxY + reach;

/** A traced notch belongs to the panel whose outer edge passes nearest to it; null where this edge is not near. */
function tracedNotch(
  edge: PanelEdge,
  at: Pt,
  reach: number,
  allowance: number,
): (CutNotch & { gap: number }) | null {
  if (!isWithin(pathBox(edge.path), at, reach)) return null;
  const near = nearestOnPath(edge.path, at);
  if (near.distance > reach) return null;
  const outward = outwardOf(directionAt(edge.path[near.index]!, near.t));
  return { at: near.point, outward, allowance, marks: 1, seam: null, gap: near.distance };
}

export interface SeamBook {
  readonly seamById: ReadonlyMap<SeamId, Seam>;
  /** Running number of a seam within its piece: varies the notch places. */
  readonly running: ReadonlyMap<SeamId, number>;
}

/** All match marks of a panel: two on every new seam, and the traced ones on its outer edges. */
export function matchMarks(
  panel: Panel,
  whole: WholePiece,
  allowances: Allowances,
  book: SeamBook,
): readonly CutNotch[] {
  const edges = [...panel.boundary, ...panel.holes.flat()];
  const seams = edges.flatMap((edge) => {
    if (edge.origin.kind !== 'seam') return [];
    const seam = book.seamById.get(edge.origin.seam)!;
    return seamNotches(edge, seam, book.running.get(seam.id)!, allowanceOf(edge, whole, allowances));
  });
  const included = allowances.tracing.kind === 'cut' ? allowances.tracing.included : 0;
  const reach = included + JOIN_GAP;
  const outer = panel.boundary.filter((e) => e.origin.kind === 'outline');
  const traced = whole.notches.flatMap((notch) => {
    const offers = outer.flatMap(
      (edge) => tracedNotch(edge, notch.at, reach, allowanceOf(edge, whole, allowances)) ?? [],
    );
    const best = offers.toSorted((a, b) => a.gap - b.gap)[0];
    if (!best) return [];
    const { gap: _gap, ...mark } = best;
    return [mark];
  });
  return [...seams, ...traced];
}
