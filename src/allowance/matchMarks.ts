import {
  applyMatrix,
  type Box,
  JOIN_GAP,
  type Pt,
  pathBox,
  nearestOnPath,
  directionAt,
  perpendicular,
  scale,
} from '../geometry';
import { type Panel, type PanelEdge, type Seam, type SeamId, alongSeam, placeAlong } from '../panels';
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

/** Which places a seam's notches take: on mirror images of one seam they are mirror images too. */
export interface SeamTurn {
  /** Running number of a seam within its piece, the same for both images: varies the places. */
  readonly running: number;
  /** Measured from the seam's end: it runs against its image. */
  readonly fromEnd: boolean;
}

/** A dart's end is eased in between two notches, this far on either side of it where the seam is long enough, mm. */
const EASE_REACH = 40;

/** A notch of a seam: how far from the seam's start along the side in hand as sewn, and how much is eased in before it, mm. */
interface SeamPlace {
  readonly at: number;
  readonly ease: number | null;
}

/** How much is eased in at a seam, mm: on one side of it, or on both together. */
export const easedOn = ({ eased }: Seam, side: 'a' | 'b' | null): number =>
  eased.reduce((sum, e) => sum + (side === null || e.side === side ? e.width : 0), 0);

/**
 * The single and the double notch of a seam on one of its sides. Both sides have theirs at equal lengths, but that the ends of
 * darts eased in on one side lie between them there.
 */
export function notchPlaces(
  seam: Seam,
  { running, fromEnd }: SeamTurn,
  side: 'a' | 'b',
): readonly [SeamPlace, SeamPlace] {
  const length = Math.min(seam.lengthA, seam.lengthB);
  if (seam.eased.length === 0) {
    const [single, double] = PLACES[running % PLACES.length]!;
    const at = (share: number): SeamPlace => ({ at: (fromEnd ? 1 - share : share) * length, ease: null });
    return [at(single), at(double)];
  }
  const at = seam.eased.map((e) => e.at);
  const [from, to] = [Math.min(...at), Math.max(...at)];
  const before = Math.min(EASE_REACH, from * 0.6);
  const after = Math.min(EASE_REACH, (length - to) * 0.6);
  const [ease, extra] = [easedOn(seam, null), easedOn(seam, side)];
  const first: SeamPlace = { at: from - before, ease };
  const last: SeamPlace = { at: to + after + extra, ease };
  return fromEnd ? [last, first] : [first, last];
}

/** Outwards from the panel, square to its boundary, where the boundary runs in `direction`. */
const outwardOf = (direction: Pt): Pt => scale(perpendicular(direction), -1);

function seamNotches(
  edge: PanelEdge,
  panel: Panel,
  seam: Seam,
  turn: SeamTurn,
  allowance: number,
): CutNotch[] {
  if (edge.origin.kind !== 'seam') return [];
  const { forward } = edge.origin;
  const path = alongSeam(edge);
  return notchPlaces(seam, turn, forward ? 'a' : 'b').map(({ at, ease }, i): CutNotch => {
    const { point, direction } = placeAlong(path, panel.darts, at);
    const along = forward ? direction : scale(direction, -1);
    return { at: point, outward: outwardOf(along), allowance, marks: i === 0 ? 1 : 2, seam: seam.id, ease };
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
  return { at: near.point, outward, allowance, marks: 1, seam: null, ease: null, gap: near.distance };
}

/** Where a traced notch lies on an edge: where it was traced, and where parts that were turned to close a dart took it. */
function placesOn({ turns }: PanelEdge, at: Pt): Pt[] {
  if (!turns) return [at];
  return [...new Set(turns)].map((m) => applyMatrix(m, at));
}

export interface SeamBook {
  readonly seamById: ReadonlyMap<SeamId, Seam>;
  readonly turns: ReadonlyMap<SeamId, SeamTurn>;
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
    return seamNotches(edge, panel, seam, book.turns.get(seam.id)!, allowanceOf(edge, whole, allowances));
  });
  const isCut = allowances.tracing.kind === 'cut';
  const outer = panel.boundary.filter((e) => e.origin.kind === 'outline');
  const traced = whole.notches.flatMap((notch) => {
    const offers = outer.flatMap((edge) =>
      placesOn(edge, notch.at).flatMap((at) => {
        const width = allowanceOf(edge, whole, allowances);
        // on a cut tracing a notch was traced at the cutting line
        return tracedNotch(edge, at, (isCut ? width : 0) + JOIN_GAP, width) ?? [];
      }),
    );
    const best = offers.toSorted((a, b) => a.gap - b.gap)[0];
    if (!best) return [];
    const { gap: _gap, ...mark } = best;
    return [mark];
  });
  return [...seams, ...traced];
}
