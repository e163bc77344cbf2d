import { type Path, type Pt, pathLength, pointAtLength, reversePath } from '../../geometry';
import type { PlacedDart } from '../../pattern';
import type { EasedEnd, Panel, PanelEdge, PanelId, Seam } from '../panel';
import { passagesThrough } from './passage';

/** Stretches of a path inside the wedges of darts that are sewn, as arc lengths in order, mm. */
function wedgesAlong(path: Path, darts: readonly PlacedDart[]): { from: number; to: number }[] {
  return darts
    .flatMap((d) => passagesThrough(path, d))
    .map(({ enter, leave }) => ({ from: enter.along, to: leave.along }))
    .sort((a, b) => a.from - b.from);
}

/** Length of a path once the darts it crosses are sewn, mm. */
export function sewnLength(path: Path, darts: readonly PlacedDart[]): number {
  const gone = wedgesAlong(path, darts).reduce((sum, w) => sum + (w.to - w.from), 0);
  return pathLength(path) - gone;
}

/** Point and direction at a length along a path as sewn, mm: the wedges of its darts take up no length. */
export function placeAlong(
  path: Path,
  darts: readonly PlacedDart[],
  sewn: number,
): { point: Pt; direction: Pt } {
  let s = sewn;
  for (const w of wedgesAlong(path, darts)) if (s > w.from) s += w.to - w.from;
  return pointAtLength(path, s);
}

/** A panel's stretch of boundary along a seam, run in the seam's direction. */
export const alongSeam = ({ path, origin }: PanelEdge): Path =>
  origin.kind === 'seam' && !origin.forward ? reversePath(path) : path;

/** A panel's side of a seam; undefined where it is not on that side. */
export const sideOfSeam = (panel: Panel, seam: Seam, side: 'a' | 'b'): PanelEdge | undefined =>
  [...panel.boundary, ...panel.holes.flat()].find(
    ({ origin }) => origin.kind === 'seam' && origin.seam === seam.id && origin.forward === (side === 'a'),
  );

/** Ends of darts eased in on one side of a seam. */
function easedOn(panel: Panel, path: Path, side: 'a' | 'b'): EasedEnd[] {
  let before = 0;
  return panel.closings
    .filter((c) => c.how === 'eased')
    .flatMap((c) => passagesThrough(path, c.dart))
    .sort((p, q) => p.enter.along - q.enter.along)
    .map(({ enter, leave }): EasedEnd => {
      const width = leave.along - enter.along;
      const eased = { side, at: enter.along - before, width };
      before += width;
      return eased;
    });
}

/**
 * Seams with the lengths of their sides as the panels are cut: on a closed panel the dart is gone, on the one that holds its end it
 * is eased in, sewn, or gone too. Seams of panels without a closing stay the same objects.
 */
export function withClosedSides(seams: readonly Seam[], panels: readonly Panel[]): readonly Seam[] {
  const byId = new Map<PanelId, Panel>(panels.map((p) => [p.id, p]));
  return seams.map((seam) => {
    const [a, b] = [byId.get(seam.a)!, byId.get(seam.b)!];
    if (a.closings.length === 0 && b.closings.length === 0) return seam;
    const [sideA, sideB] = [sideOfSeam(a, seam, 'a'), sideOfSeam(b, seam, 'b')];
    if (!sideA || !sideB) return seam;
    const [pathA, pathB] = [alongSeam(sideA), alongSeam(sideB)];
    return {
      ...seam,
      lengthA: sewnLength(pathA, a.darts),
      lengthB: sewnLength(pathB, b.darts),
      eased: [...easedOn(a, pathA, 'a'), ...easedOn(b, pathB, 'b')],
    };
  });
}
