import { type OwnWidth, type PieceAllowances, allowancesByJob, widthOfOutline } from '../allowance';
import type { EdgeRef, Neighbours } from '../neighbours';
import { type Closing, type Design, remember } from '../pattern';

/** What the widths of edges and lines are told from. A look at the allowances alone leaves closings out. */
type WidthSource = Pick<Design, 'allowances'> & Partial<Pick<Design, 'closings'>>;

/** The widths that zips ask for: null where a zip leaves its seam's allowance as it is. */
const zipWidths = remember(
  (closings: readonly Closing[], wholes: Neighbours['wholes']): readonly OwnWidth[] =>
    closings.flatMap(({ on, allowance }): OwnWidth[] => {
      if (allowance === null) return [];
      if (on.kind === 'line') return [{ kind: 'line', line: on.line, width: allowance }];
      const edges = wholes.get(on.piece)?.edges ?? [];
      const edge = edges.flatMap((e, i) => (e.plainName === on.edge ? [i] : []))[on.nth];
      return edge === undefined ? [] : [{ kind: 'edge', piece: on.piece, edge, width: allowance }];
    }),
);

/** A design's allowances with what the jobs of one piece's edges and the zips ask for. */
export const allowancesAt = (
  whole: { readonly piece: { readonly id: EdgeRef['piece'] } },
  { allowances, closings = [] }: WidthSource,
  { jobs, wholes }: Neighbours,
): PieceAllowances => {
  const { id } = whole.piece;
  return allowancesByJob(allowances, wholes.get(id)!, jobs.edges.get(id)!, zipWidths(closings, wholes));
};

/** Allowance of one outline edge, mm: added on a net tracing, included on a cut one. */
export function widthOfEdge({ piece, edge }: EdgeRef, design: WidthSource, neighbours: Neighbours): number {
  const whole = neighbours.wholes.get(piece)!;
  return widthOfOutline(edge, whole, allowancesAt(whole, design, neighbours));
}
