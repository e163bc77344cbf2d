import type { Garment } from '../garment';
import {
  type Line,
  type Matrix,
  type Path,
  type Pt,
  distance,
  flattenPath,
  pathThrough,
  samePoint,
  transformPath,
} from '../geometry';
import type { Panel } from '../panels';
import { type Rings, partsInside } from './inside';

/** The middle line of a trim that lies on no seam, as far as it runs over a panel. */
export interface TrimOnPaper {
  readonly name: string;
  readonly paths: readonly Path[];
  /** Its straightest stretches, the longest first: its name stands at one. */
  readonly stretches: readonly Line[];
}

/** Stretches end to end as paths. */
function joined(stretches: readonly Line[]): Path[] {
  const runs: Pt[][] = [];
  for (const [a, b] of stretches) {
    const last = runs.at(-1);
    if (last && samePoint(last.at(-1)!, a)) last.push(b);
    else runs.push([a, b]);
  }
  return runs.map((points) => pathThrough(points, false));
}

/**
 * Where trims without a seam are sewn on a panel: nothing else on the cloth would show it. Trims on panel lines need no mark.
 * @param m from the traced coordinates to the paper
 * @param stitched the panel inside its stitching line, on paper
 */
export const trimsOnPaper = (
  { trims }: Pick<Garment, 'trims'>,
  { piece }: Panel,
  m: Matrix,
  stitched: Rings,
): readonly TrimOnPaper[] =>
  trims
    .filter((t) => t.piece === piece && t.line === null && t.copy === 1)
    .map((t): TrimOnPaper => {
      const { points } = flattenPath(transformPath(t.path, m));
      const stretches = points.slice(1).flatMap((b, i) => partsInside(stitched, [points[i]!, b]));
      const byLength = [...stretches].sort((p, q) => distance(...q) - distance(...p));
      return { name: `middle of ${t.trim.name}`, paths: joined(stretches), stretches: byLength };
    })
    .filter(({ paths }) => paths.length > 0);
