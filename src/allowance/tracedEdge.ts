import {
  type Path,
  type Pt,
  type Ring,
  SAME_POINT,
  add,
  crossStraight,
  directionAt,
  flattenRing,
  nearestOnPath,
  offsetRing,
  pointAt,
  reverseCurve,
  scale,
  subdivide,
  whereInRing,
} from '../geometry';
import type { Panel, PanelEdge } from '../panels';
import { type WholePiece, remember } from '../pattern';
import { MITRE_LIMIT, type PanelCorners, shapesOf } from './corners';

/** How far a new seam's cutting line is drawn over the traced outline before it is cut off there, mm: well over what counts as a slip. */
const OVERSHOOT = 4;

/** Whether a panel's outer edges lie where they were traced: a panel with a dart closed in it has moved ones. */
function liesAsTraced(boundary: readonly PanelEdge[], { stitching }: WholePiece): boolean {
  const outer = boundary.filter((e) => e.origin.kind === 'outline');
  return outer.every((e) =>
    e.path.every((c) => nearestOnPath(stitching, pointAt(c, 0.5)).distance < SAME_POINT),
  );
}

/** The longest runs of a ring's curves that `isIn` says yes to, the one through its start joined; a ring where all are. */
function runsOf<T>(ring: readonly T[], isIn: (item: T) => boolean): T[][] {
  const first = ring.findIndex((item, i) => isIn(item) && !isIn(ring.at(i - 1)!));
  if (first < 0) return ring.every(isIn) ? [[...ring]] : [];
  const runs: T[][] = [];
  let under: T[] | null = null;
  for (const item of [...ring.slice(first), ...ring.slice(0, first)]) {
    if (!isIn(item)) under = null;
    else if (under) under.push(item);
    else runs.push((under = [item]));
  }
  return runs;
}

/** A path's end drawn straight on to just over the outline; left as it is where it is over it already. */
function drawnOn(path: Path, outline: Ring, corners: readonly Pt[]): Path {
  const last = path.at(-1)!;
  const end = last[last.length - 1]!;
  if (whereInRing(end, corners) === 'outside') return path;
  const way = directionAt(last, 1);
  const next = crossStraight(outline, end, way).find((c) => c.along >= 0);
  return next ? [...path, [end, add(next.point, scale(way, OVERSHOOT))]] : path;
}

const drawnOnBothWays = (path: Path, outline: Ring, corners: readonly Pt[]): Path => {
  const there = drawnOn(path, outline, corners).map(reverseCurve).reverse();
  return drawnOn(there, outline, corners).map(reverseCurve).reverse();
};

/** The traced outline cut along the new seams' cutting lines: the part that holds the panel. */
const cutOnce = remember(
  (
    ring: Ring,
    outline: Ring,
    widths: readonly number[],
    isSeam: readonly boolean[],
    spot: Pt,
    corners: PanelCorners,
  ): Ring | null => {
    const options = { mitreLimit: MITRE_LIMIT, corners: shapesOf(corners) };
    const offset = offsetRing(ring, widths, options)[0];
    if (!offset) return null;
    const along = offset.ring.map((curve, i) => ({ curve, isSeam: isSeam[offset.origins[i]!]! }));
    const runs = runsOf(along, (c) => c.isSeam).map((run) => run.map((c) => c.curve));
    const traced = flattenRing(outline);
    const lines = runs.map((run) => drawnOnBothWays(run, outline, traced));
    const { faces, edges } = subdivide(outline, lines);
    const rings = faces.map((face) =>
      face.ring.flatMap(({ edge, forward }): Path => {
        const { curves } = edges[edge]!;
        return forward ? curves : curves.map(reverseCurve).reverse();
      }),
    );
    return rings.find((r) => whereInRing(spot, flattenRing(r)) === 'inside') ?? null;
  },
);

/**
 * Cutting line of a panel on a cut tracing: its outer edge is the traced outline's own curves, exactly; the cutting lines of its new
 * seams run straight on to it and end there.
 * @param widths one per curve of the panel's ring, mm
 * @param corners styles of the corners between its new seams
 * @returns null where that cannot be said: the panel has no outer edge, or is not where it was traced
 */
export function tracedCuttingLine(
  panel: Panel,
  whole: WholePiece,
  widths: readonly number[],
  corners: PanelCorners,
): Ring | null {
  const isSeam = panel.boundary.flatMap((e) => e.path.map(() => e.origin.kind === 'seam'));
  if (isSeam.every(Boolean) || !liesAsTraced(panel.boundary, whole)) return null;
  if (!isSeam.some(Boolean)) return whole.outline;
  const generous = widths.map((w, i) => (isSeam[i] ? w : w + OVERSHOOT));
  return cutOnce(panel.ring, whole.outline, generous, isSeam, panel.spot.at, corners);
}
