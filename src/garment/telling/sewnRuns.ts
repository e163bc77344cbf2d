import { type Path, type Pt, JOIN_GAP, distance, endOf, reversePath, startOf } from '../../geometry';
import type { Panel, PanelEdge, PanelId, Seam } from '../../panels';
import { sideOfSeam } from '../../panels';
import { type PieceId, remember } from '../../pattern';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';

/** A seam of a run; `forward` where the run goes the way of the seam's own path. */
export interface RunSeam {
  readonly seam: Seam;
  readonly forward: boolean;
}

/**
 * Seams sewn in one step that lie end to end, as one path. Its right is the side of `perpendicular(direction)`: there lies panel a of a
 * seam that runs forward, b of one that does not.
 */
export interface SewnRun {
  readonly step: Step;
  readonly piece: PieceId;
  readonly seams: readonly RunSeam[];
  readonly path: Path;
  readonly isClosed: boolean;
}

const near = (a: Pt, b: Pt): boolean => distance(a, b) < JOIN_GAP / 10;

const pathOf = ({ seam, forward }: RunSeam): Path => (forward ? seam.path : reversePath(seam.path));

/** Lay seams end to end, as far as they go, from the first one on. */
function chained(seams: readonly Seam[]): RunSeam[][] {
  const chains: RunSeam[][] = [];
  const waiting = seams.filter((s) => s.path.length > 0);
  while (waiting.length > 0) {
    const chain: RunSeam[] = [{ seam: waiting.shift()!, forward: true }];
    for (let found = true; found;) {
      found = false;
      const [head, tail] = [startOf(pathOf(chain[0]!)), endOf(pathOf(chain.at(-1)!))];
      for (const [i, seam] of waiting.entries()) {
        const [a, b] = [startOf(seam.path), endOf(seam.path)];
        if (near(a, tail)) chain.push({ seam, forward: true });
        else if (near(b, tail)) chain.push({ seam, forward: false });
        else if (near(b, head)) chain.unshift({ seam, forward: true });
        else if (near(a, head)) chain.unshift({ seam, forward: false });
        else continue;
        waiting.splice(i, 1);
        found = true;
        break;
      }
    }
    chains.push(chain);
  }
  return chains;
}

/** The runs of one step: usually one; none for a step that sews no panel seam. */
export function runsOfStep(garment: Pick<Garment, 'seamById'>, step: Step): SewnRun[] {
  if (step.kind === 'trim') return [];
  const seams = step.seams.map((id) => garment.seamById.get(id)).filter((s) => s !== undefined);
  return chained(seams).map((own): SewnRun => {
    const path = own.flatMap(pathOf);
    const isClosed = own.length > 0 && near(startOf(path), endOf(path));
    return { step, piece: own[0]!.seam.piece, seams: own, path, isClosed };
  });
}

/** All runs of a garment, in sewing order. Remembered. */
export const sewnRuns = remember((garment: Garment): readonly SewnRun[] =>
  garment.plan.steps.flatMap((step) => (step.closing === null ? runsOfStep(garment, step) : [])),
);

/** The panel on one side of a run's seam: 1 is the right, -1 the left. */
export const panelBeside = ({ seam, forward }: RunSeam, side: 1 | -1): PanelId =>
  side > 0 === forward ? seam.a : seam.b;

/** Panels along one side of a run, each once, in order. */
export const panelsBeside = ({ seams }: SewnRun, side: 1 | -1): readonly PanelId[] => [
  ...new Set(seams.map((s) => panelBeside(s, side))),
];

/** A stretch of a panel's boundary that is sewn in a run. */
export interface RunSide {
  readonly panel: Panel;
  readonly edge: PanelEdge;
  readonly of: RunSeam;
}

/** The boundary stretches along one side of a run, in its order. */
export function sideOfRun(garment: Garment, run: SewnRun, side: 1 | -1): readonly RunSide[] {
  return run.seams.flatMap((of) => {
    const panel = garment.panelById.get(panelBeside(of, side));
    const edge = panel && sideOfSeam(panel, of.seam, side > 0 === of.forward ? 'a' : 'b');
    return edge ? [{ panel, edge, of }] : [];
  });
}
