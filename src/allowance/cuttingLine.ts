import { type Ring, offsetRing } from '../geometry';
import type { Panel, PanelEdge } from '../panels';
import type { Allowances, WholePiece } from '../pattern';
import { allowanceOf } from './widths';

/** A mitre longer than this many allowances is cut off square: a long point cannot be turned out. Common practice, no source. */
export const MITRE_LIMIT = 4;

const widthsOf = (boundary: readonly PanelEdge[], whole: WholePiece, allowances: Allowances): number[] =>
  boundary.flatMap((edge) => edge.path.map(() => allowanceOf(edge, whole, allowances)));

export interface CuttingLines {
  readonly cutting: Ring;
  readonly holes: readonly Ring[];
}

/**
 * Cutting lines of a panel: its stitching line moved outwards by each edge's allowance, corners mitred; insets are cut
 * smaller by their allowance and vanish when nothing is left to cut out.
 */
export function cuttingLines(panel: Panel, whole: WholePiece, allowances: Allowances): CuttingLines {
  const options = { mitreLimit: MITRE_LIMIT };
  const outer = offsetRing(panel.ring, widthsOf(panel.boundary, whole, allowances), options)[0];
  const holes = panel.holeRings.flatMap((hole, i) =>
    offsetRing(hole, widthsOf(panel.holes[i]!, whole, allowances), options).map((o) => o.ring),
  );
  return { cutting: outer?.ring ?? panel.ring, holes };
}
