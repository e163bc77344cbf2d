import type { Garment } from '../../garment';
import { type Path, type Pt, pathLength, pointAtLength } from '../../geometry';
import { type PieceId, dartLegs, edgePath } from '../../pattern';
import type { Step } from '../../sewing';
import type { Lit } from '../store/sessionSlice';

/** Paths that a step sews beside panel seams: outer edges, darts, a trim or zip with its line. */
function pathsOf({ design, neighbours }: Garment, step: Step): Lit['paths'] {
  const edges = step.edges.flatMap(({ piece, edge }) => {
    const whole = neighbours.wholes.get(piece);
    return whole ? [{ piece, path: edgePath(whole, edge) }] : [];
  });
  const { piece } = step;
  if (piece === null) return edges;
  const darts = step.darts.map((d) => ({ piece, path: dartLegs(d) }));
  const trim = design.trims.find((t) => t.id === step.trim);
  const own = trim?.on.kind === 'path' ? [{ piece, path: trim.on.path }] : [];
  return [...edges, ...darts, ...own];
}

/** Panel seams of a step: those it sews, or that its trim or zip lies on. */
function seamsOf({ design, seams }: Garment, step: Step): Lit['seams'] {
  const laid =
    design.trims.find((t) => t.id === step.trim) ?? design.closings.find((c) => c.id === step.closing);
  const line = laid?.on.kind === 'line' ? laid.on.line : null;
  const under = line
    ? seams.filter((s) => s.piece === step.piece && s.line.line === line).map((s) => s.id)
    : [];
  return new Set([...step.seams, ...under]);
}

/** What of the table a step lights up. */
export const litBy = (garment: Garment, step: Step): Lit => ({
  seams: seamsOf(garment, step),
  panels: new Set(step.joins.flat()),
  paths: pathsOf(garment, step),
});

const middleOf = (path: Path): Pt => pointAtLength(path, pathLength(path) / 2).point;

/** Where on the table to look at a step: the middle of what is sewn; null where nothing is drawn. */
export function placeOfStep(garment: Garment, step: Step): { piece: PieceId; at: Pt } | null {
  const { seams, paths } = litBy(garment, step);
  const seam = garment.seams.find((s) => seams.has(s.id) && s.path.length > 0);
  if (seam) return { piece: seam.piece, at: middleOf(seam.path) };
  const drawn = paths.find(({ path }) => path.length > 0);
  if (drawn) return { piece: drawn.piece, at: middleOf(drawn.path) };
  const panel = garment.panelById.get(step.joins[0][0]!);
  return panel ? { piece: panel.piece, at: panel.spot.at } : null;
}
