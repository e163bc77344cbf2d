import { allowanceOf } from '../../allowance';
import type { EdgeRef } from '../../neighbours';
import { type Seam, sideOfSeam } from '../../panels';
import { allowancesAt, widthOfEdge } from '../edgeWidths';
import type { Garment } from '../garment';

/** Allowance on each side of a panel seam, mm. */
export function widthOfSeam(garment: Garment, seam: Seam): number {
  const panel = garment.panelById.get(seam.a);
  const { whole } = garment.pieceById.get(seam.piece)!;
  const edge = panel && sideOfSeam(panel, seam, 'a');
  const allowances = allowancesAt(whole, garment.design, garment.neighbours);
  return edge ? allowanceOf(edge, whole, allowances) : allowances.newSeam;
}

/** Allowance of an outer edge, mm. */
export const widthAlong = (garment: Garment, edge: EdgeRef): number =>
  widthOfEdge(edge, garment.design, garment.neighbours);
