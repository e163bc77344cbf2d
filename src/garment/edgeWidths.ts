import { type OwnWidth, type PieceAllowances, allowancesByJob, widthOfOutline } from '../allowance';
import { type EdgeRef, type Neighbours, type Zip, allowanceOfZip, zipsOf } from '../neighbours';
import { type Allowances, type Design, remember } from '../pattern';

/** What the widths of edges and lines are told from. A look at the allowances alone leaves closings out, but not the usual zips of edges. */
type WidthSource = Pick<Design, 'allowances'> & Partial<Pick<Design, 'closings'>>;

/** The widths that zips ask for on both sides of their seams. */
const zipWidths = remember((zips: readonly Zip[], allowances: Allowances): readonly OwnWidth[] =>
  zips.flatMap((zip): OwnWidth[] => {
    const width = allowanceOfZip(zip, allowances);
    if (zip.on.kind === 'line') return [{ kind: 'line', line: zip.on.line, width }];
    return zip.edge ? [{ kind: 'edge', ...zip.edge, width }] : [];
  }),
);

/** A design's allowances with what the jobs of one piece's edges and the zips ask for. */
export const allowancesAt = (
  whole: { readonly piece: { readonly id: EdgeRef['piece'] } },
  { allowances, closings = [] }: WidthSource,
  { jobs, wholes }: Neighbours,
): PieceAllowances => {
  const { id } = whole.piece;
  const zips = zipsOf(closings, jobs, wholes);
  const widths = zips.length > 0 ? zipWidths(zips, allowances) : [];
  return allowancesByJob(allowances, wholes.get(id)!, jobs.edges.get(id)!, widths);
};

/** Allowance of one outline edge, mm: added on a net tracing, included on a cut one. */
export function widthOfEdge({ piece, edge }: EdgeRef, design: WidthSource, neighbours: Neighbours): number {
  const whole = neighbours.wholes.get(piece)!;
  return widthOfOutline(edge, whole, allowancesAt(whole, design, neighbours));
}
