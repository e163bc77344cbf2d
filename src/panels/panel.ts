import type { LooseEnd, Path, Polyline, Pt, Ring } from '../geometry';
import type { ColourId, LineId, PieceId, PlacedDart, WholePiece } from '../pattern';

/** A panel line as it lies on the whole piece: a drawn one, its mirror image, or both joined over the fold. */
export interface LaidLine {
  readonly line: LineId;
  /** Index of the drawn line in the design: its drawing order. */
  readonly order: number;
  readonly mirrored: boolean;
  /** `L3`, `L3 mirrored`: unique within the piece, for people and for report.json. */
  readonly label: string;
  readonly path: Path;
  /** Whether the line goes on as its mirror image where it meets the fold. */
  readonly isMirroring: boolean;
}

/** Unique in the garment: piece id and a running number within it. */
export type PanelId = string & { readonly panel: unique symbol };
/** Panels of a piece are told apart by the running number of their face. */
export const panelIdOf = (piece: PieceId, face: number): PanelId => `${piece}/${face + 1}` as PanelId;

/** Unique in the garment. */
export type SeamId = string & { readonly seam: unique symbol };

/** A stretch of a panel's boundary with one origin, in ring order. */
export interface PanelEdge {
  readonly path: Path;
  readonly origin:
    | { readonly kind: 'outline'; /** Index into WholePiece.edges. */ readonly edge: number }
    | {
        readonly kind: 'seam';
        readonly seam: SeamId;
        /** Whether the path runs as the seam does. */ readonly forward: boolean;
      };
}

/** One part of a piece after slicing, on the stitching line. */
export interface Panel {
  readonly id: PanelId;
  readonly piece: PieceId;
  readonly colour: ColourId;
  /** In ring order; the paths joined are a ring with signedArea > 0. Dart mouths are bridged, not followed. */
  readonly boundary: readonly PanelEdge[];
  /** Insets: rings with negative signedArea. */
  readonly holes: readonly (readonly PanelEdge[])[];
  readonly ring: Ring;
  readonly holeRings: readonly Ring[];
  /** Ring with the dart wedges taken out where that leaves one ring, else `ring`. */
  readonly netRing: Ring;
  /** Stitching area without dart wedges, mm². */
  readonly area: number;
  /** Darts of which some part lies in this panel. */
  readonly darts: readonly PlacedDart[];
  /** Flattened ring and holes, for hit tests. */
  readonly outlinePoints: Polyline;
  /** A spot well inside, and how far the boundary is from it, mm. */
  readonly spot: { readonly at: Pt; readonly radius: number };
}

/**
 * A longest stretch of one panel line with the same panel on each side.
 * `a` lies on the side whose ring follows the path forwards, `b` backwards. a = b where a line only slits a panel.
 */
export interface Seam {
  readonly id: SeamId;
  readonly piece: PieceId;
  readonly line: LaidLine;
  readonly a: PanelId;
  readonly b: PanelId;
  readonly path: Path;
  /** Stitching length on each side, mm, dart wedges left out. */
  readonly lengthA: number;
  readonly lengthB: number;
}

/** A part of a seam between two neighbouring junctions, run in its line's direction. */
export interface Stretch {
  readonly seam: SeamId;
  readonly a: PanelId;
  readonly b: PanelId;
  /** Junction numbers, shared by all lines of the piece. */
  readonly from: number;
  readonly to: number;
  readonly path: Path;
}

/** A longest connected stretch of one laid line; a line that leaves the piece and comes back makes several. */
export interface LineRun {
  readonly line: LaidLine;
  readonly stretches: readonly Stretch[];
}

/** The panels of one whole piece. */
export interface PanelledPiece {
  readonly whole: WholePiece;
  readonly lines: readonly LaidLine[];
  readonly panels: readonly Panel[];
  readonly seams: readonly Seam[];
  /** What the sewing order needs to know of the geometry, in drawing order. */
  readonly runs: readonly LineRun[];
  /** Junctions that lie on the outline. */
  readonly outlineNodes: ReadonlySet<number>;
  /** Where each junction is. */
  readonly nodePoints: readonly Pt[];
  readonly looseEnds: readonly LooseEnd[];
  /** Lines that divide nothing, as indices into `lines`. */
  readonly idleLines: readonly number[];
}
