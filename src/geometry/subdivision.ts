import type { CurveRef, Path, Pt } from './types';

/** Which drawn thing a stretch lies on: the outline, or the line with this index in the input. */
export type SourcePath = { readonly kind: 'outline' } | { readonly kind: 'line'; readonly line: number };

/**
 * A stretch of a drawn thing, from one place on it to another; `start` is after `end` where the edge runs against it.
 * No edge runs through the start of the outline or of a closed line (a node is put there), so this is never in doubt. A stretch
 * added to draw an end on counts as the line's end.
 */
export interface EdgeSource {
  readonly path: SourcePath;
  readonly start: CurveRef;
  readonly end: CurveRef;
}

/**
 * A stretch between two nodes, with nothing meeting it in between. Its curves are cut from the true source curves.
 * The face at `forwardFace` has this edge in its ring in the direction of `curves`, the one at `backwardFace` against it;
 * null is the outside. Both are the same face where a line reaches into a face like a slit.
 */
export interface SubdivisionEdge {
  readonly from: number;
  readonly to: number;
  readonly curves: Path;
  /** Arc length, mm. */
  readonly length: number;
  /** At least one. Several where drawn things lie on each other; the outline comes first, then lines by index. */
  readonly sources: readonly EdgeSource[];
  readonly forwardFace: number | null;
  readonly backwardFace: number | null;
}

export interface HalfEdge {
  readonly edge: number;
  readonly forward: boolean;
}

/** A face inside the outline. `ring` has positive signedArea, holes negative. */
export interface SubdivisionFace {
  readonly ring: readonly HalfEdge[];
  readonly holes: readonly (readonly HalfEdge[])[];
  /** Area inside the ring less the holes, mm², from the true curves. */
  readonly area: number;
}

/** A line's end (or both) that meets nothing: everything from the last node to the loose end is left out of the faces. */
export interface LooseEnd {
  readonly line: number;
  readonly end: 'start' | 'end';
  readonly point: Pt;
  /** Straight on from the loose end to the first outline or line ahead, mm; null where nothing lies ahead. */
  readonly gapAhead: number | null;
  /** The point there. */
  readonly reach: Pt | null;
}

/**
 * An outline cut by lines. Deterministic: faces in order of their first edge, edges in order along the outline, then
 * along the lines in input order.
 */
export interface Subdivision {
  readonly nodes: readonly Pt[];
  readonly edges: readonly SubdivisionEdge[];
  readonly faces: readonly SubdivisionFace[];
  readonly looseEnds: readonly LooseEnd[];
  /** Lines of which no stretch bounds two faces inside (wholly outside, along the outline, too short, or wholly loose). */
  readonly idleLines: readonly number[];
  /** For each line: its stretches inside the outline in order along it, each once; those loose or along the outline left out. */
  readonly lineEdges: readonly (readonly HalfEdge[])[];
}

export interface SubdivideOptions {
  /** Ends this close (mm) to the outline or another line are drawn on to it; overshoots this short are trimmed. */
  readonly joinGap?: number;
}
