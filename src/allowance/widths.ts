import type { PanelEdge } from '../panels';
import { type EdgeWork, isKeptAs } from '../neighbours';
import { type Allowances, type EdgeAllowance, type EdgeJob, type WholePiece, remember } from '../pattern';

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
  const { plainName, isHem, included } = whole.edges[edge.origin.edge]!;
  if (tracing.kind === 'cut') return included ?? tracing.included;
  const own = edges.find((e) => e.piece === whole.piece.id && e.edge === plainName);
  return own?.width ?? (isHem ? hem : tracing.outer);
}

/**
 * What an edge gets by its job on a net tracing, mm. A hem gets the hem's width. Nothing is added where cloth is folded, or where a
 * binding takes the edge in: it is trimmed to the stitching line (common practice, no source). A zip is sewn in like any seam.
 */
const widthByJob = (job: EdgeJob['kind'], { tracing, hem }: Allowances): number => {
  if (job === 'hem') return hem;
  if (job === 'bound' || job === 'fold') return 0;
  return tracing.kind === 'net' ? tracing.outer : tracing.included;
};

/** Remembered by what it says, so that the same jobs give the same object, and cut pieces are kept. */
const settled = remember(
  (allowances: Allowances, edges: readonly EdgeAllowance[], more: string): Allowances =>
    more === '[]'
      ? allowances
      : { ...allowances, edges: [...edges, ...(JSON.parse(more) as EdgeAllowance[])] },
);

/**
 * Allowances of one piece with what its edges' jobs ask for. A width set by hand wins, also one kept under the number an edge had before it
 * was named. On a cut tracing the outline has its allowance already and jobs change nothing.
 */
export function allowancesByJob(
  allowances: Allowances,
  whole: WholePiece,
  works: readonly EdgeWork[],
): Allowances {
  if (allowances.tracing.kind === 'cut') return allowances;
  const own = allowances.edges.filter((e) => e.piece === whole.piece.id);
  const more = works.flatMap(({ edge, plainName, job }): EdgeAllowance[] => {
    const known =
      own.find((e) => e.edge === plainName) ?? own.find((e) => isKeptAs(whole.edges[edge]!, e.edge));
    const width = known?.width ?? widthByJob(job.kind, allowances);
    if (known?.edge === plainName) return [];
    return [{ piece: whole.piece.id, edge: plainName, width }];
  });
  const byName = new Map(more.map((e) => [e.edge, e] as const));
  const usual = (e: EdgeAllowance): boolean =>
    e.width ===
    widthByJob(whole.edges.find((o) => o.plainName === e.edge)!.isHem ? 'hem' : 'left', allowances);
  return settled(allowances, allowances.edges, JSON.stringify([...byName.values()].filter((e) => !usual(e))));
}
