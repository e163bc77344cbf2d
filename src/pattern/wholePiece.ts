import type { Line, Ring } from '../geometry';
import type { DartShape, Level, Notch, Piece, Remainder } from './design';

/**
 * An edge of a whole piece: the outline curves between two corners (or under one traced name), in ring order.
 * `first` to `last` are curve indices, inclusive; last < first where the edge runs through the ring's start.
 */
export interface OutlineEdge {
  /** Traced or proposed name, or `edge 1`, `edge 2` … ; the mirrored half's edges end in `, mirrored`. */
  readonly name: string;
  /** The name without `, mirrored`: settings are kept by it. */
  readonly plainName: string;
  readonly mirrored: boolean;
  /** Where the name comes from: the tracing (or the user), shape and place on the piece, or neither. */
  readonly naming: 'traced' | 'proposed' | 'numbered';
  /** `edge 1` … of an edge nobody named: settings may still be kept under it. Null for a traced name. */
  readonly numbered: string | null;
  /** By its traced name. */
  readonly isHem: boolean;
  /** What the traced outline includes here, mm; null on a net tracing. */
  readonly included: number | null;
  readonly first: number;
  readonly last: number;
  /** Along the edge, dart mouths skipped, mm. */
  readonly length: number;
}

/**
 * A dart of a whole piece; its mouth ends lie on the stitching outline. One that was swung elsewhere stands where it is now.
 */
export type PlacedDart = DartShape & {
  readonly mirrored: boolean;
  /** Index of the traced dart it comes from. */
  readonly traced: number;
  /** Null: sewn as a dart. Else closed by the panel lines through it, with what is to become of the rest. */
  readonly close: Remainder | null;
};

/** A piece opened out: what panel lines are drawn on. Coordinates are those of the tracing. */
export interface WholePiece {
  readonly piece: Piece;
  readonly name: string;
  readonly unfolded: boolean;
  /** As traced (and mirrored), signedArea > 0; outline corners kept, split where edges begin. */
  readonly outline: Ring;
  /** Stitching outline: equal to `outline` for a net tracing, inset for a cut one. */
  readonly stitching: Ring;
  /** Edge index of each curve of `stitching`. */
  readonly edgeOf: readonly number[];
  readonly edges: readonly OutlineEdge[];
  /** Fold as traced, where the halves meet. */
  readonly foldLine: Line | null;
  readonly darts: readonly PlacedDart[];
  readonly notches: readonly Notch[];
  readonly levels: readonly Level[];
  /** Warp direction; assumed when not traced. */
  readonly grain: Line;
  /** Stitching area, mm²: inside the stitching outline less the dart wedges. */
  readonly area: number;
}
