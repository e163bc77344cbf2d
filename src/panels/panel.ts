import type { LooseEnd, Matrix, Path, Polyline, Pt, Ring } from '../geometry';
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
  /**
   * Where its mirror image joins it over the fold, as part of `path`; itself: it lies square across and is its own image;
   * null: neither.
   */
  readonly image: 'before' | 'after' | 'itself' | null;
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
        /** The panel line it lies on. */
        readonly line: LineId;
        /** Whether the path runs as the seam does. */ readonly forward: boolean;
      };
  /** Where a dart was closed: how each curve was moved from where it lies on the flat piece; null where nothing was. */
  readonly turns: readonly Matrix[] | null;
}

/** What became of a dart that panel lines swallow, in one panel. */
export interface DartClosing {
  readonly dart: PlacedDart;
  /**
   * closed: it ran right through, a part was turned about its point. swallowed: a line runs along it, the panel ends at its side.
   * eased: only its end lies here, and is eased in at the line.
   */
  readonly how: 'closed' | 'swallowed' | 'eased';
  /** Turned by, radians; 0 unless closed. */
  readonly angle: number;
  /** Eased in, mm; 0 unless eased. */
  readonly width: number;
}

/** A panel as it lies on the flat piece, before any dart in it is closed. */
export interface FlatPanel {
  /** Flattened ring, for hit tests and colour marks. */
  readonly points: Polyline;
  readonly holeRings: readonly Ring[];
  /** A spot well inside. */
  readonly at: Pt;
}

/** One part of a piece after slicing, on the stitching line. */
export interface Panel {
  readonly id: PanelId;
  readonly piece: PieceId;
  readonly colour: ColourId;
  /**
   * As it is cut, with swallowed darts closed. In ring order; the paths joined are a ring with signedArea > 0. Mouths of darts that
   * are sewn are bridged, not followed.
   */
  readonly boundary: readonly PanelEdge[];
  /** Insets: rings with negative signedArea. */
  readonly holes: readonly (readonly PanelEdge[])[];
  readonly ring: Ring;
  readonly holeRings: readonly Ring[];
  /** Ring with the dart wedges taken out where that leaves one ring, else `ring`. */
  readonly netRing: Ring;
  /** Insets, and the wedges of darts that lie wholly inside: what `netRing` has too much. Negative signedArea. */
  readonly netHoles: readonly Ring[];
  /** Stitching area without the wedges of any dart, mm². */
  readonly area: number;
  /** Darts of which some part is sewn as a dart in this panel, where they lie on the cut panel. */
  readonly darts: readonly PlacedDart[];
  readonly closings: readonly DartClosing[];
  readonly flat: FlatPanel;
  /** A spot well inside, and how far the boundary is from it, mm. */
  readonly spot: { readonly at: Pt; readonly radius: number };
}

/** The end of a dart eased in at a seam, mm. */
export interface EasedEnd {
  readonly side: 'a' | 'b';
  /** From the seam's start, on the side without it. */
  readonly at: number;
  readonly width: number;
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
  /** Dart ends eased in on one side: how far along the seam as sewn, how much, mm. */
  readonly eased: readonly EasedEnd[];
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
