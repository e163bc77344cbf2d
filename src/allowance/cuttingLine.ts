import { type Ring, offsetRing, signedArea } from '../geometry';
import type { Panel, PanelEdge } from '../panels';
import { type Allowances, type WholePiece, remember } from '../pattern';
import { MITRED, MITRE_LIMIT, type PanelCorners, shapesOf } from './corners';
import { tracedCuttingLine } from './tracedEdge';
import { allowanceOf } from './widths';

const widthsOf = (boundary: readonly PanelEdge[], whole: WholePiece, allowances: Allowances): number[] =>
  boundary.flatMap((edge) => edge.path.map(() => allowanceOf(edge, whole, allowances)));

export interface CuttingLines {
  readonly cutting: Ring;
  /** Openings inside the cutting line, negative signedArea: insets, and bays that close up behind their allowance. */
  readonly holes: readonly Ring[];
}

/** Remembered by ring: rings that stay while another line moves keep their cutting lines. */
const offsetOnce = remember((ring: Ring, widths: readonly number[], corners: PanelCorners): CuttingLines => {
  const options = { mitreLimit: MITRE_LIMIT, corners: shapesOf(corners) };
  const [outer, ...rest] = offsetRing(ring, widths, options).map((o) => o.ring);
  return { cutting: outer ?? ring, holes: rest.filter((r) => signedArea(r) < 0) };
});

const insetOnce = remember((hole: Ring, widths: readonly number[]): readonly Ring[] =>
  offsetRing(hole, widths, { mitreLimit: MITRE_LIMIT }).map((o) => o.ring),
);

/**
 * Cutting lines of a panel: its stitching line moved outwards by each edge's allowance, corners by their styles; insets are cut
 * smaller by their allowance and vanish when nothing is left to cut out. On a cut tracing the outer edge is the traced outline itself.
 */
export function cuttingLines(
  panel: Panel,
  whole: WholePiece,
  allowances: Allowances,
  corners: PanelCorners = MITRED,
): CuttingLines {
  const widths = widthsOf(panel.boundary, whole, allowances);
  const traced = allowances.tracing.kind === 'cut' ? tracedCuttingLine(panel, whole, widths, corners) : null;
  const { cutting, holes } = traced
    ? { cutting: traced, holes: [] }
    : offsetOnce(panel.ring, widths, corners);
  const insets = panel.holeRings.flatMap((hole, i) =>
    insetOnce(hole, widthsOf(panel.holes[i]!, whole, allowances)),
  );
  return { cutting, holes: [...holes, ...insets] };
}
