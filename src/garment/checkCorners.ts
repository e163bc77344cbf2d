import { allowanceOf } from '../allowance';
import {
  CORNER_TURN,
  type Path,
  type Pt,
  add,
  cross,
  crossStraight,
  directionAt,
  distance,
  dot,
  endOf,
  reversePath,
  scale,
} from '../geometry';
import type { Panel, PanelEdge, Seam } from '../panels';
import { edgeKey } from '../sewing';
import { allowancesAt } from './edgeWidths';
import type { Garment } from './garment';

/** One end of a seam on one of its panels, as laid flat. */
interface SeamEnd {
  readonly at: Pt;
  /** Along the seam, past its end. */
  readonly on: Pt;
  /** Out of the panel. */
  readonly out: Pt;
  readonly cutting: Path;
  /** The stretch of the panel's boundary that the seam runs into, and how sharply the boundary turns there, radians. */
  readonly into: PanelEdge;
  readonly turn: number;
}

/** How far out the allowances of both panels are compared, as a share of their width: at the stitching line they may step back. */
const SHARES = [0.3, 0.9];
/** Both panels' allowances end as far beyond their seam's end, mm. */
const IN_STEP = 0.1;

function seamEnd(panel: Panel, cutting: Path, seam: Seam, end: 'start' | 'end'): SeamEnd | null {
  const found = panel.boundary.findIndex((e) => e.origin.kind === 'seam' && e.origin.seam === seam.id);
  const edge = panel.boundary[found];
  if (edge?.origin.kind !== 'seam') return null;
  const isLast = edge.origin.forward === (end === 'end');
  const path = isLast ? edge.path : reversePath(edge.path);
  const on = directionAt(path.at(-1)!, 1);
  const out: Pt = isLast ? [on[1], -on[0]] : [-on[1], on[0]];
  const into = panel.boundary.at(isLast ? (found + 1) % panel.boundary.length : found - 1)!;
  const next = isLast ? directionAt(into.path[0]!, 0) : scale(directionAt(into.path.at(-1)!, 1), -1);
  const turn = Math.atan2(isLast ? cross(on, next) : cross(next, on), dot(on, next));
  return { at: endOf(path), on, out, cutting, into, turn };
}

/** How far the allowance runs on beyond the seam's end, mm, so far out from the stitching line; Infinity where that cannot be told. */
function reachOf({ at, on, out, cutting }: SeamEnd, away: number): number {
  const from = add(at, scale(out, away));
  return Math.min(...crossStraight(cutting, from, on).map((c) => (c.along > -1 ? c.along : Infinity)));
}

/**
 * Whether both panels of a seam are sewn across its end later, by one line or one edge: there their allowances have to end in step.
 * Panels with an inner corner there, or that meet different seams, are left out.
 */
function isCrossed(garment: Garment, seam: Seam, piece: Panel['piece'], a: SeamEnd, b: SeamEnd): boolean {
  const [one, other] = [a.into.origin, b.into.origin];
  if (a.turn < CORNER_TURN || b.turn < CORNER_TURN || distance(a.at, b.at) > 1e-6) return false;
  const own = garment.plan.stepOfSeam.get(seam.id);
  if (own === undefined) return false;
  if (one.kind === 'outline' && other.kind === 'outline') {
    const { kind } = garment.neighbours.jobs.edges.get(piece)![one.edge]!.job;
    const step = garment.plan.stepOfEdge.get(edgeKey({ piece, edge: one.edge }));
    if (one.edge !== other.edge || kind === 'hem' || kind === 'fold') return false;
    return step !== undefined && step > own;
  }
  if (one.kind !== 'seam' || other.kind !== 'seam' || one.line !== other.line || one.line === seam.line.line)
    return false;
  return [one.seam, other.seam].every((s) => garment.plan.stepOfSeam.get(s)! > own);
}

function widthOf({ design, neighbours, pieceById }: Garment, panel: Panel, seam: Seam): number {
  const { whole } = pieceById.get(panel.piece)!;
  const edge = panel.boundary.find((e) => e.origin.kind === 'seam' && e.origin.seam === seam.id)!;
  return allowanceOf(edge, whole, allowancesAt(whole, design, neighbours));
}

/** A seam whose two allowances do not end in step, where, and by how much, mm. */
export interface StepFault {
  readonly seam: Seam;
  readonly end: 'start' | 'end';
  readonly by: number;
}

/**
 * Hold both panels' allowances against each other along every panel seam: laid right sides together they end in step where a later seam is
 * sewn across. Measured on the cutting lines; knows nothing of how they were made. Net tracings only: the outer edge of a cut one is as traced.
 */
export function checkCorners(garment: Garment): readonly StepFault[] {
  if (garment.design.allowances.tracing.kind === 'cut') return [];
  const cuttingOf = new Map(garment.panels.map((p, i) => [p.id, garment.cutPieces[i]!.cutting] as const));
  return garment.seams.flatMap((seam) =>
    (['start', 'end'] as const).flatMap((end): StepFault[] => {
      const [p, q] = [garment.panelById.get(seam.a)!, garment.panelById.get(seam.b)!];
      const [a, b] = [p, q].map((panel) => seamEnd(panel, cuttingOf.get(panel.id)!, seam, end));
      if (p === q || !a || !b || !isCrossed(garment, seam, p.piece, a, b)) return [];
      const width = widthOf(garment, p, seam);
      // without an allowance nothing runs on beyond the seam's end
      if (width === 0) return [];
      const by = Math.max(
        ...SHARES.map((share) => Math.abs(reachOf(a, width * share) - reachOf(b, width * share))),
      );
      return by > IN_STEP ? [{ seam, end, by }] : [];
    }),
  );
}
