/**
 * The design document: the only state there is. Plain JSON, mm, y down. Everything else is derived from it.
 * Documents are never changed in place.
 */
import type { Line, Path, Pt, Ring } from '../geometry';
import type { Colour, CuttingOut, Facing, Lining, OffGrainMark, PanelMark, Remnant } from './cloth';
import type { ClosingId, LineId, PieceId, TrimId } from './ids';

export type * from './cloth';
export type * from './ids';

export const DESIGN_FORMAT = 'panelwright design';
export const DESIGN_VERSION = 4;

/**
 * The shape of a dart: sewn shut along its legs. single: mouth, point, mouth. double: point, side, point, side, as a closed ring.
 * `legs` are null where all are straight, else the sewn lines in the same order: mouth to point and point to mouth, or the four
 * of a double-pointed dart. They end exactly on its corners.
 */
export type DartShape =
  | {
      readonly kind: 'single';
      readonly mouth: readonly [Pt, Pt];
      readonly point: Pt;
      readonly legs: readonly [Path, Path] | null;
    }
  | {
      readonly kind: 'double';
      readonly points: readonly [Pt, Pt, Pt, Pt];
      readonly legs: readonly [Path, Path, Path, Path] | null;
    };

/**
 * What becomes of the part of a dart that lies beyond the panel line which swallows the rest: eased in between two notches, or sewn
 * as a shorter dart.
 */
export type Remainder = 'ease' | 'dart';

/** A place on the traced outline: a share 0..1 of an edge's sewn length, from its first end in ring order. */
export interface OutlinePlace {
  /** Plain name of the edge, and which of those of that name on the traced (half) piece, from 0. */
  readonly edge: string;
  readonly nth: number;
  readonly share: number;
}

/** A part of a dart swung to another place: the share of its angle that goes there. */
export interface DartPart {
  readonly to: OutlinePlace;
  readonly share: number;
  /** Null: sewn there as a dart. Else swallowed by the panel lines there. */
  readonly close: Remainder | null;
}

/** What is done with a dart. */
export type DartTreatment =
  | { readonly kind: 'keep' }
  /** Swallowed by the panel lines that cross it or run through its point: closed in each panel it runs right through. */
  | { readonly kind: 'close'; readonly remainder: Remainder }
  /** Swung about its point to other places; what the shares leave of 1 stays where it was traced and is kept. */
  | { readonly kind: 'swing'; readonly parts: readonly DartPart[] };

/** A dart as traced, and what is done with it. On a half piece its mirror image is treated alike. */
export type Dart = DartShape & { readonly treatment: DartTreatment };

/** A match mark: where it touches the outline, and the inner end as traced. */
export interface Notch {
  readonly at: Pt;
  readonly inner: Pt;
}

/** A named height square to the grain, as traced. */
export interface Level {
  readonly name: string;
  readonly line: Line;
}

/** A name laid over a stretch of the outline. The path is as traced; it is matched to the outline when derived. */
export interface EdgeName {
  readonly name: string;
  readonly path: Path;
}

/** How often a whole piece is cut: once, or twice, the second one mirrored (sleeves, backs with a centre seam). */
export type Cutting = 'once' | 'pair';

/** A piece as traced: a half one has a fold. */
export interface Piece {
  readonly id: PieceId;
  readonly name: string;
  /** signedArea > 0, simple, mm. */
  readonly outline: Ring;
  /** The straight stretch of the outline it is mirrored across; null for a whole piece. */
  readonly fold: Line | null;
  /** Warp direction; null when not traced. */
  readonly grain: Line | null;
  readonly darts: readonly Dart[];
  readonly notches: readonly Notch[];
  readonly levels: readonly Level[];
  readonly edgeNames: readonly EdgeName[];
  readonly cutting: Cutting;
  /** Symmetric panels across the fold are cut on the folded cloth instead of whole. */
  readonly foldPanels: boolean;
}

/** What a place is measured from. Mirrored edges are meant by their plain name where the line is drawn on the traced half. */
export type Base =
  | { readonly kind: 'level'; readonly name: string }
  /** Where the fold, or the centre edge, is. */
  | { readonly kind: 'centre' }
  /** An edge as a whole: measured across the grain, at the same height. `nth` of its name on the whole piece, from 0. */
  | { readonly kind: 'edge'; readonly name: string; readonly nth: number }
  /** The first or last end of an edge, in ring order. */
  | {
      readonly kind: 'edge end';
      readonly name: string;
      readonly nth: number;
      readonly end: 'first' | 'last';
    };

/**
 * How far: so many mm from a base (down, or towards the wearer's left on the drawing's right, is positive), or a share of the way
 * between two.
 */
export type Reach =
  | { readonly kind: 'from'; readonly base: Base; readonly by: number }
  | { readonly kind: 'between'; readonly bases: readonly [Base, Base]; readonly share: number };

/** Where on another line: at a share of its length, or where a height or a distance across the grain meets it. */
export type PlaceOnLine =
  | { readonly kind: 'share'; readonly share: number }
  | { readonly kind: 'down' | 'over'; readonly reach: Reach };

/** What holds a point of a panel line in its place. */
export type Tie =
  /**
   * On an edge of the whole piece: measured along it (mouths skipped), or where it is met by a height along the grain or by a
   * distance across it.
   */
  | {
      readonly kind: 'edge';
      readonly name: string;
      readonly nth: number;
      readonly along: 'edge' | 'grain' | 'across';
      readonly reach: Reach;
    }
  /** Inside: how far along the grain and how far across it. */
  | { readonly kind: 'inside'; readonly down: Reach; readonly over: Reach }
  /** On another panel line of the piece. */
  | {
      readonly kind: 'line';
      readonly line: LineId;
      readonly mirrored: boolean;
      readonly place: PlaceOnLine;
    }
  /** At a point of the piece's n-th traced dart: its only one, or either of a double-pointed one. */
  | { readonly kind: 'dart'; readonly dart: number; readonly point: 0 | 1; readonly mirrored: boolean }
  /** On a joined edge, where a line of the neighbour arrives once the seam is closed. */
  | {
      readonly kind: 'neighbour';
      readonly name: string;
      readonly nth: number;
      readonly line: LineId;
      readonly end: 'start' | 'end';
      readonly mirrored: boolean;
    };

/** What a line that keeps its direction runs on to. */
export type Until =
  | { readonly kind: 'outline' }
  | { readonly kind: 'centre' }
  | { readonly kind: 'line'; readonly line: LineId; readonly mirrored: boolean };

/** The direction a straight line keeps: square to the grain, with it, or so many degrees from across the grain towards down. */
export type Run =
  | { readonly kind: 'square'; readonly until: Until }
  | { readonly kind: 'with'; readonly until: Until }
  | { readonly kind: 'angle'; readonly degrees: number; readonly until: Until };

/**
 * A line's true definition; its path is worked out from it. One entry per node of the path (its curves + 1), null where a node
 * follows its neighbours. With `run` the line is straight, held by the one end that is tied, and its other end lies where it
 * meets what it runs on to.
 */
export interface LineTies {
  readonly nodes: readonly (Tie | null)[];
  readonly run: Run | null;
}

/** A line to slice and re-sew along. On a half piece it is mirrored with the piece unless `once`. */
export interface PanelLine {
  readonly id: LineId;
  readonly piece: PieceId;
  /** In the piece's traced coordinates; may lie on the mirrored side. */
  readonly path: Path;
  readonly once: boolean;
  /**
   * How it is laid where it crosses a dart. `sewn`: so that it runs straight on once the dart is sewn, meeting both legs at equal
   * distance from the point. `flat`: as drawn on the flat paper, where it breaks.
   */
  readonly overDarts: 'sewn' | 'flat';
  /** Null: it stays where it is drawn. Else `path` is kept in step with it (lines/settle.ts). */
  readonly ties: LineTies | null;
}

export type TracingKind =
  /** The outline is the stitching line; outer edges get `outer` added. */
  | { readonly kind: 'net'; readonly outer: number }
  /** The outline is the cutting line, with `included` inside it. */
  | { readonly kind: 'cut'; readonly included: number };

/** Allowance of one named outline edge, mm, over the general rule: added on a net tracing, included on a cut one. */
export interface EdgeAllowance {
  readonly piece: PieceId;
  readonly edge: string;
  readonly width: number;
}

/** Allowance on both sides of one panel line (and its mirror image), mm, over the general one. */
export interface LineAllowance {
  readonly line: LineId;
  readonly width: number;
}

export interface Allowances {
  readonly tracing: TracingKind;
  /** Both sides of every panel line, mm. */
  readonly newSeam: number;
  /** Hems, mm: added on a net tracing, included on a cut one. */
  readonly hem: number;
  readonly edges: readonly EdgeAllowance[];
  readonly lines: readonly LineAllowance[];
}

/** What becomes of an outline edge when the garment is sewn. */
export type EdgeJob =
  | {
      readonly kind: 'joins';
      /** The edge it is sewn to: plain name; may be on the same piece (a sleeve's underarm seam). */
      readonly piece: PieceId;
      readonly edge: string;
    }
  | { readonly kind: 'fold' | 'hem' | 'zip' | 'bound' | 'left' };

/** The job of one edge, by its plain name, as answered by the user; edges without an entry have the proposed one. */
export interface EdgeAnswer {
  readonly piece: PieceId;
  readonly edge: string;
  readonly job: EdgeJob;
}

/** A line's end whose mismatch at a seam is meant: it is not reported. */
export interface MeantOff {
  readonly line: LineId;
  readonly end: 'start' | 'end';
}

/** straight: a straight-edged ribbon or tape, which will not bend. bias: cut on the cross, and scalloped: both take a curve. */
export type TrimKind = 'straight' | 'bias' | 'scalloped';

/**
 * Where a trim lies: along a panel line (and its mirror image) between two shares 0..1 of its drawn length, or along a path of its own in
 * the piece's traced coordinates, mirrored with a half piece unless `once`.
 */
export type TrimPlace =
  | { readonly kind: 'line'; readonly line: LineId; readonly from: number; readonly to: number }
  | { readonly kind: 'path'; readonly piece: PieceId; readonly path: Path; readonly once: boolean };

/** Ribbon, braid or tape centred on what it lies on. */
export interface Trim {
  readonly id: TrimId;
  readonly name: string;
  readonly on: TrimPlace;
  readonly kind: TrimKind;
  /** mm */
  readonly width: number;
  readonly fill: string;
  /** Rows of stitching: one along its middle, or one along each edge. */
  readonly rows: 1 | 2;
  /** Shrinkage in washing, percent of its length. */
  readonly shrinkage: number;
  /** Length of one piece as it is sold, mm; null: cut from the roll in one length. */
  readonly soldIn: number | null;
}

/** Where a zip is: an edge of a whole piece (`nth` of its name, from 0), or a panel line as drawn (not its mirror image). */
export type ClosingPlace =
  | { readonly kind: 'edge'; readonly piece: PieceId; readonly edge: string; readonly nth: number }
  | { readonly kind: 'line'; readonly line: LineId };

/** A zip in a seam, begun at its upper end. */
export interface Closing {
  readonly id: ClosingId;
  /** hidden: the seam's folds meet over the teeth. shown: set into a slot, its teeth seen. */
  readonly kind: 'hidden' | 'shown';
  readonly on: ClosingPlace;
  /** From the seam's upper end to the stop, along the stitching line, mm; null: as proposed. */
  readonly length: number | null;
  /** Allowance on both sides of its seam, mm; null: as proposed. */
  readonly allowance: number | null;
  /** Width of the slot of a shown zip, mm. A hidden one has none. */
  readonly slot: number;
}

/** Keys of two steps of the sewing plan (sewing/plan.ts), in the order in which they are wanted, where that can be. */
export interface OrderWish {
  readonly earlier: string;
  readonly later: string;
}

/** What the user wants of the sewing order. */
export interface SewingWishes {
  /** flat: sleeves are sewn in before the sides are closed. set in: into the closed armhole. */
  readonly sleeves: 'flat' | 'set in';
  /** Among orders that are equally good, the one with the fewest changes of thread. */
  readonly fewThreads: boolean;
  /** Lines that are sewn in the round, after the seams that close what they go round: bands. */
  readonly inTheRound: readonly LineId[];
  readonly order: readonly OrderWish[];
}

/** A panel's number, pinned to a spot inside it on the whole piece, so that it stays when lines are added. */
export interface NumberMark {
  readonly piece: PieceId;
  readonly at: Pt;
  readonly number: number;
}

export type PaperSize = 'a4' | 'letter' | 'a3' | 'tabloid' | 'a0' | `roll:${number}`;

/** How lengths are shown; the document itself is always mm. */
export type Units = 'cm' | 'in';

export interface Design {
  readonly format: typeof DESIGN_FORMAT;
  readonly version: typeof DESIGN_VERSION;
  readonly name: string;
  readonly units: Units;
  readonly pieces: readonly Piece[];
  /** In drawing order. */
  readonly lines: readonly PanelLine[];
  /** At least one; the first is the colour of panels without a mark. */
  readonly colours: readonly Colour[];
  readonly marks: readonly PanelMark[];
  readonly allowances: Allowances;
  readonly edgeJobs: readonly EdgeAnswer[];
  readonly meantOff: readonly MeantOff[];
  readonly trims: readonly Trim[];
  readonly closings: readonly Closing[];
  readonly sewing: SewingWishes;
  /** Empty: panels are numbered in sewing order. */
  readonly numbers: readonly NumberMark[];
  readonly lining: Lining | null;
  readonly facings: readonly Facing[];
  readonly cuttingOut: CuttingOut;
  readonly remnants: readonly Remnant[];
  readonly offGrain: readonly OffGrainMark[];
  readonly paper: { readonly size: PaperSize };
}
