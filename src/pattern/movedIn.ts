import {
  type Curve,
  type CurveRef,
  type Path,
  type Pt,
  crossStraight,
  directionAt,
  endOf,
  nearestOnPath,
  pointAt,
  reversePath,
  startOf,
} from '../geometry';
import { withPathEnds } from './halfToWhole';
import { remember } from './remember';
import { edgePath } from './sewnEdge';
import { stitchingLine } from './stitchingLine';
import type { WholePiece } from './wholePiece';

/** A place on the stitching outline, with the edge it is on. */
export interface OutlineSpot extends CurveRef {
  readonly point: Pt;
  /** Index into WholePiece.edges. */
  readonly edge: number;
}

/** A run of edges moved in parallel to themselves, in ring order, from outline to outline. */
export interface MovedRun {
  /** Runs the way the outline does; its ends lie exactly on the outline. */
  readonly path: Path;
  /** Indices into WholePiece.edges, in ring order. */
  readonly edges: readonly number[];
  /** Where it begins, on an edge that comes before them, and where it ends, on one that comes after. */
  readonly from: OutlineSpot;
  readonly to: OutlineSpot;
}

/** What is farther from the moved edges than this less than the depth is no parallel but the end of a step, mm. */
const OFF_DEPTH = 0.08;
/** A parallel curve's end this far from the outline lies on it, mm: re-fitted curves end a little off. */
const MEETS = 0.1;

/** The curves of a run that are parallel to the edges, without the faces of steps at its ends. */
function atDepth(curves: readonly Curve[], edges: readonly Path[], depth: number): readonly Curve[] {
  const away = (p: Pt): number => Math.min(...edges.map((e) => nearestOnPath(e, p).distance));
  const isAt = (c: Curve): boolean => [0.3, 0.7].every((t) => away(pointAt(c, t)) > depth - OFF_DEPTH);
  const first = curves.findIndex(isAt);
  return first < 0 ? [] : curves.slice(first, curves.findLastIndex(isAt) + 1);
}

/** A path ended on the outline: where it ends there already, else run on straight until it meets it. Null where it never does. */
function endedOnOutline(
  whole: WholePiece,
  path: Path,
  moved: readonly number[],
): { path: Path; at: OutlineSpot } | null {
  const end = endOf(path);
  const isOther = ({ index }: CurveRef): boolean => !moved.includes(whole.edgeOf[index]!);
  const spot = (ref: CurveRef & { point: Pt }): OutlineSpot => ({
    index: ref.index,
    t: ref.t,
    point: ref.point,
    edge: whole.edgeOf[ref.index]!,
  });
  const near = nearestOnPath(whole.stitching, end);
  if (near.distance <= MEETS && isOther(near))
    return { path: withPathEnds(path, startOf(path), near.point), at: spot(near) };
  const direction = directionAt(path.at(-1)!, 1);
  const met = crossStraight(whole.stitching, end, direction).find((c) => c.along > 0);
  if (!met || !isOther(met)) return null;
  return { path: [...path, [end, met.point]], at: spot(met) };
}

/**
 * Edges of the stitching outline moved in by a depth, mm: parallel to where they were, run on straight or cut off where they meet the
 * edges that stay. One run for each row of neighbouring edges; none where nothing is left of it.
 * Parallel curves are re-fitted within OFFSET_FIT.
 */
export const movedRuns = remember(
  (whole: WholePiece, edges: readonly number[], depth: number): readonly MovedRun[] => {
    const widths = whole.edgeOf.map((e) => (edges.includes(e) ? depth : 0));
    const moved = depth > 0 ? stitchingLine(whole.stitching, widths) : null;
    if (!moved) return [];
    const n = moved.ring.length;
    const edgeAt = (i: number): number => whole.edgeOf[moved.origins[i % n]!]!;
    const isMoved = (i: number): boolean => edges.includes(edgeAt(i));
    const starts = moved.ring.flatMap((_, i) => (isMoved(i) && !isMoved(i + n - 1) ? [i] : []));
    return starts.flatMap((start): MovedRun[] => {
      let end = start;
      while (isMoved(end + 1)) end += 1;
      const own = Array.from({ length: end - start + 1 }, (_, k) => (start + k) % n);
      const paths = [...new Set(own.map(edgeAt))].map((e) => edgePath(whole, e));
      const kept = atDepth(
        own.map((i) => moved.ring[i]!),
        paths,
        depth,
      );
      if (kept.length === 0) return [];
      const to = endedOnOutline(whole, kept, edges);
      const from = to && endedOnOutline(whole, reversePath(to.path), edges);
      if (!from) return [];
      const run = reversePath(from.path);
      return [{ path: run, edges: [...new Set(own.map(edgeAt))], from: from.at, to: to.at }];
    });
  },
);
