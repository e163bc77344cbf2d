import { CORNER_TURN, type Pt, cross, directionAt, dot } from '../../geometry';
import type { PanelEdge, PanelledPiece, SeamId } from '../../panels';
import { type Allowances, type LineId, remember } from '../../pattern';
import { allowanceOf } from '../widths';
import type { CutJob, SewnAs } from './sewnAs';

/** A corner between two stretches of a panel's boundary. */
export interface PanelCorner {
  readonly at: Pt;
  readonly before: PanelEdge;
  readonly after: PanelEdge;
}

/** How the allowances end at a corner that is not simply mitred. `earlier`, `folded`: which of its two stretches. */
export type CornerStyle =
  | { readonly kind: 'squared off'; readonly earlier: 'before' | 'after'; readonly reach: number }
  | { readonly kind: 'turned back'; readonly folded: 'before' | 'after' };

/** A mitre, or a squared end, longer than this many allowances is cut off square: a long point cannot be turned out. Common practice, no source. */
export const MITRE_LIMIT = 4;

/** Corners flatter than CORNER_TURN, or sharper than this, cannot be turned back: the side would hardly meet the fold. Common practice, no source. */
const SHARPEST_TURN = Math.PI - CORNER_TURN;

/** Whether a seam's line ends where the seam begins, and where it ends. */
interface LineStops {
  readonly start: boolean;
  readonly end: boolean;
}

/** Where panel lines end, by seam: there another line or an edge runs through. */
const lineStops = remember(({ runs }: PanelledPiece): ReadonlyMap<SeamId, LineStops> => {
  const stops = new Map<SeamId, LineStops>();
  for (const { stretches } of runs) {
    stretches.forEach(({ seam, from }, i) => {
      const isFirst = i === 0 && from !== stretches.at(-1)!.to;
      const isLast = i === stretches.length - 1 && stretches[0]!.from !== stretches[i]!.to;
      const known = stops.get(seam);
      stops.set(seam, { start: known?.start ?? isFirst, end: isLast });
    });
  }
  return stops;
});

/** One of the two stretches at a corner. */
interface Side {
  readonly job: CutJob;
  readonly rank: number | null;
  readonly line: LineId | null;
  /** Whether its panel line ends at the corner; false for outer edges. */
  readonly stops: boolean;
  readonly width: number;
}

/** Everything that styles of corners of one piece are told from. */
export interface CornerBook {
  readonly sliced: PanelledPiece;
  readonly allowances: Allowances;
  readonly edges: SewnAs['edges'];
  readonly rankOf: ReadonlyMap<SeamId, number | null>;
}

export const cornerBook = (
  sliced: PanelledPiece,
  allowances: Allowances,
  { seams, edges }: Pick<SewnAs, 'seams' | 'edges'>,
): CornerBook => ({
  sliced,
  allowances,
  edges,
  rankOf: new Map(sliced.seams.map((s, i) => [s.id, seams[i] ?? null] as const)),
});

function sideOf(edge: PanelEdge, end: 'first' | 'last', book: CornerBook): Side {
  const width = allowanceOf(edge, book.sliced.whole, book.allowances);
  const { origin } = edge;
  if (origin.kind === 'outline') {
    const { job, rank } = book.edges[origin.edge] ?? { job: 'left', rank: null };
    return { job, rank, width, line: null, stops: false };
  }
  const stops = lineStops(book.sliced).get(origin.seam)!;
  const isAtStart = (end === 'first') === origin.forward;
  const rank = book.rankOf.get(origin.seam) ?? null;
  return { job: 'seam', rank, width, line: origin.line, stops: isAtStart ? stops.start : stops.end };
}

/**
 * Which of two stretches is sewn first, so that the other is sewn across its end; null where they simply meet. A panel line that ends on
 * another is sewn before it, also where that one is sewn in two goes.
 */
function earlierOf(before: Side, after: Side): 'before' | 'after' | null {
  if (before.line !== null && after.line !== null) {
    if (before.line === after.line) return null;
    if (before.stops !== after.stops) return before.stops ? 'before' : 'after';
  }
  const isLeft = (side: Side): boolean => side.line === null && side.rank === null;
  // whatever becomes of an outer edge that nobody has spoken of, it comes after the panels are joined
  if (before.line !== null && isLeft(after)) return 'before';
  if (after.line !== null && isLeft(before)) return 'after';
  if (before.rank === null || after.rank === null || before.rank === after.rank) return null;
  return before.rank < after.rank ? 'before' : 'after';
}

/**
 * The style of one corner by the order and the jobs of its two stretches (common practice, no source):
 * - turned back where one of them is folded up as a hem: the other's allowance is mirrored there, so that it fits when folded;
 * - squared off where one is sewn across the end of the other;
 * - else null: mitred. So are inner corners, whose allowances overlap, and corners at a fold of the cloth.
 * On a cut tracing the outer edge is cut as traced, and only corners between new seams have a style.
 */
export function cornerStyle({ before, after }: PanelCorner, book: CornerBook): CornerStyle | null {
  const [d1, d2] = [directionAt(before.path.at(-1)!, 1), directionAt(after.path[0]!, 0)];
  const [sin, cos] = [cross(d1, d2), dot(d1, d2)];
  const turn = Math.atan2(sin, cos);
  if (turn < CORNER_TURN) return null;
  const isCut = book.allowances.tracing.kind === 'cut';
  if (isCut && (before.origin.kind === 'outline' || after.origin.kind === 'outline')) return null;
  const sides = { before: sideOf(before, 'last', book), after: sideOf(after, 'first', book) };
  if (sides.before.job === 'fold' || sides.after.job === 'fold') return null;
  const isHem = (s: 'before' | 'after'): boolean => sides[s].job === 'hem';
  if (isHem('before') || isHem('after')) {
    if ((isHem('before') && isHem('after')) || turn > SHARPEST_TURN) return null;
    const folded = isHem('before') ? 'before' : 'after';
    return sides[folded].width > 0 ? { kind: 'turned back', folded } : null;
  }
  const earlier = earlierOf(sides.before, sides.after);
  if (earlier === null || sides[earlier].width === 0) return null;
  const later = earlier === 'before' ? sides.after : sides.before;
  const most = MITRE_LIMIT * Math.max(sides.before.width, sides.after.width);
  return { kind: 'squared off', earlier, reach: Math.min(later.width / sin, most) };
}
