import type { PanelEdge } from '../panels';
import { type EdgeRef, type EdgeWork, isKeptAs } from '../neighbours';
import {
  type Allowances,
  type EdgeAllowance,
  type EdgeJob,
  type LineAllowance,
  type LineId,
  type PieceId,
  type WholePiece,
  remember,
} from '../pattern';

/** Allowances of one piece, with what single edges of it are given: a zip on one side of the body only. */
export interface PieceAllowances extends Allowances {
  /** By index into WholePiece.edges, mm. They win over everything else on a net tracing. */
  readonly single?: readonly { readonly edge: number; readonly width: number }[];
}

/** Allowance on both sides of a panel line, mm: its own, or the general one. Kept in one place, so both sides of its seams agree. */
export const widthOfLine = (line: LineId, { lines, newSeam }: Allowances): number =>
  lines.find((l) => l.line === line)?.width ?? newSeam;

/**
 * Allowance of one stretch of a panel's boundary, mm. New seams get theirs on both sides, so that nothing is lost; outer
 * edges keep what a cut tracing includes, and get the hem or outer width on a net one. A width set for an edge by name wins.
 */
export function allowanceOf(edge: PanelEdge, whole: WholePiece, allowances: PieceAllowances): number {
  const { origin } = edge;
  return origin.kind === 'seam'
    ? widthOfLine(origin.line, allowances)
    : widthOfOutline(origin.edge, whole, allowances);
}

/** Allowance of an outer edge, mm: added on a net tracing, included on a cut one. */
export function widthOfOutline(edge: number, whole: WholePiece, allowances: PieceAllowances): number {
  const { tracing, hem, edges, single } = allowances;
  const { plainName, isHem, included } = whole.edges[edge]!;
  if (tracing.kind === 'cut') return included ?? tracing.included;
  const alone = single?.find((e) => e.edge === edge);
  if (alone) return alone.width;
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

/** What is given besides the design's own allowances: by edges' jobs, and by zips. */
interface Given {
  readonly edges: readonly EdgeAllowance[];
  readonly single: readonly { readonly edge: number; readonly width: number }[];
  readonly lines: readonly LineAllowance[];
}

/** Remembered by what it says, so that the same jobs give the same object, and cut pieces are kept. */
const settled = remember((allowances: Allowances, given: string): PieceAllowances => {
  const { edges, single, lines } = JSON.parse(given) as Given;
  if (edges.length + single.length + lines.length === 0) return allowances;
  const others = allowances.lines.filter((l) => !lines.some((g) => g.line === l.line));
  return { ...allowances, edges: [...allowances.edges, ...edges], single, lines: [...others, ...lines] };
});

/** Widths that edges' jobs ask for and nobody has set by hand. */
function byJobs(allowances: Allowances, whole: WholePiece, works: readonly EdgeWork[]): EdgeAllowance[] {
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
  return [...byName.values()].filter((e) => !usual(e));
}

/** A width that goes before the general ones, mm: a zip's, on an outer edge (by index) or a panel line. */
export type OwnWidth =
  | { readonly kind: 'edge'; readonly piece: PieceId; readonly edge: number; readonly width: number }
  | { readonly kind: 'line'; readonly line: LineId; readonly width: number };

/** Widths of single edges and lines, for one piece: those of an edge also hold for the edges it is sewn to. */
function byOwn(works: readonly EdgeWork[], own: readonly OwnWidth[]): Pick<Given, 'single' | 'lines'> {
  const single = own.flatMap((o) => {
    if (o.kind !== 'edge') return [];
    const isIt = (e: EdgeRef): boolean => e.piece === o.piece && e.edge === o.edge;
    return works.filter((w) => isIt(w) || w.joined.some(isIt)).map(({ edge }) => ({ edge, width: o.width }));
  });
  return { single, lines: own.flatMap((o) => (o.kind === 'line' ? [{ line: o.line, width: o.width }] : [])) };
}

/**
 * Allowances of one piece with what its edges' jobs ask for, and the widths of single edges and lines. A width set by hand goes before a
 * job's, also one kept under the number an edge had before it was named. On a cut tracing the outline has its allowance already: only
 * widths of panel lines change anything.
 */
export const allowancesByJob = (
  allowances: Allowances,
  whole: WholePiece,
  works: readonly EdgeWork[],
  own: readonly OwnWidth[] = [],
): PieceAllowances => byJobOnce(works, whole, allowances, own);

const byJobOnce = remember(
  (
    works: readonly EdgeWork[],
    whole: WholePiece,
    allowances: Allowances,
    own: readonly OwnWidth[],
  ): PieceAllowances => {
    const { single, lines } = byOwn(works, own);
    const isCut = allowances.tracing.kind === 'cut';
    const given: Given = isCut
      ? { edges: [], single: [], lines }
      : { edges: byJobs(allowances, whole, works), single, lines };
    return settled(allowances, JSON.stringify(given));
  },
);
