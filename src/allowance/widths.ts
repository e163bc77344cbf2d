import type { PanelEdge } from '../panels';
import type { Allowances, WholePiece } from '../pattern';

/**
 * Allowance of one stretch of a panel's boundary, mm. New seams get theirs on both sides, so that nothing is lost; outer
 * edges keep what a cut tracing includes, and get the hem or outer width on a net one. A width set for an edge by name wins.
 * The width of a new seam is kept in one place, so both of its sides agree.
 */
export function allowanceOf(
  edge: PanelEdge,
  whole: WholePiece,
  { tracing, newSeam, hem, edges }: Allowances,
): number {
  if (edge.origin.kind === 'seam') return newSeam;
  if (tracing.kind === 'cut') return tracing.included;
  const { plainName, isHem } = whole.edges[edge.origin.edge]!;
  const own = edges.find((e) => e.piece === whole.piece.id && e.edge === plainName);
  return own?.width ?? (isHem ? hem : tracing.outer);
}
