import { allowancesByJob } from '../allowance';
import type { EdgeRef, Neighbours } from '../neighbours';
import type { Allowances, Design, WholePiece } from '../pattern';

/** A design's allowances with what the jobs of one piece's edges ask for. */
export const allowancesAt = (
  whole: WholePiece,
  { allowances }: Pick<Design, 'allowances'>,
  { jobs }: Neighbours,
): Allowances => allowancesByJob(allowances, whole, jobs.edges.get(whole.piece.id)!);

/** Allowance of one outline edge, mm: added on a net tracing, included on a cut one. */
export function widthOfEdge(
  { piece, edge }: EdgeRef,
  design: Pick<Design, 'allowances'>,
  neighbours: Neighbours,
): number {
  const whole = neighbours.wholes.get(piece)!;
  const { tracing, hem, edges } = allowancesAt(whole, design, neighbours);
  const { plainName, isHem, included } = whole.edges[edge]!;
  if (tracing.kind === 'cut') return included ?? tracing.included;
  const own = edges.find((e) => e.piece === piece && e.edge === plainName);
  return own?.width ?? (isHem ? hem : tracing.outer);
}
