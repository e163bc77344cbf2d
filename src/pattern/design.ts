/**
 * The design document: the only state there is. Plain JSON, mm, y down. Everything else is derived from it.
 * Documents are never changed in place.
 */
import type { Line, Path, Pt, Ring } from '../geometry';

declare const brand: unique symbol;
type Id<B extends string> = string & { readonly [brand]: B };
export type PieceId = Id<'piece'>;
export type LineId = Id<'line'>;
export type ColourId = Id<'colour'>;
export type TrimId = Id<'trim'>;

export const DESIGN_FORMAT = 'panelwright design';
export const DESIGN_VERSION = 1;

/** Sewn shut along its legs. single: mouth, point, mouth. double: point, side, point, side, as a closed ring. */
export type Dart =
  | { readonly kind: 'single'; readonly mouth: readonly [Pt, Pt]; readonly point: Pt }
  | { readonly kind: 'double'; readonly points: readonly [Pt, Pt, Pt, Pt] };

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
}

/** A line to slice and re-sew along. On a half piece it is mirrored with the piece unless `once`. */
export interface PanelLine {
  readonly id: LineId;
  readonly piece: PieceId;
  /** In the piece's traced coordinates; may lie on the mirrored side. */
  readonly path: Path;
  readonly once: boolean;
}

/** A cloth: what a panel is cut from. */
export interface Colour {
  readonly id: ColourId;
  readonly name: string;
  /** #rrggbb, lower case. */
  readonly fill: string;
  /** Usable width, mm, without selvedges. */
  readonly width: number;
  /** One-way cloth: all pieces lie the same way up. */
  readonly nap: boolean;
  /** Shrinkage in washing, percent, along and across the grain. */
  readonly shrinkage: { readonly along: number; readonly across: number };
  /** Price per metre in the user's money; null if not given. */
  readonly price: number | null;
}

/** A panel's colour, pinned to a spot inside it on the whole piece. The first mark inside a panel counts. */
export interface PanelMark {
  readonly piece: PieceId;
  readonly at: Pt;
  readonly colour: ColourId;
}

export type TracingKind =
  /** The outline is the stitching line; outer edges get `outer` added. */
  | { readonly kind: 'net'; readonly outer: number }
  /** The outline is the cutting line, with `included` inside it. */
  | { readonly kind: 'cut'; readonly included: number };

/** Allowance of one named outline edge, mm, over the general rule. */
export interface EdgeAllowance {
  readonly piece: PieceId;
  readonly edge: string;
  readonly width: number;
}

export interface Allowances {
  readonly tracing: TracingKind;
  /** Both sides of every panel line, mm. */
  readonly newSeam: number;
  /** Edges named hem, mm (a net tracing only). */
  readonly hem: number;
  readonly edges: readonly EdgeAllowance[];
}

/** Ribbon, braid or tape centred on a panel line. */
export interface Trim {
  readonly id: TrimId;
  readonly name: string;
  readonly line: LineId;
  /** mm */
  readonly width: number;
  readonly fill: string;
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
  /** Drawing order: the earlier line is the one that runs through at a crossing. */
  readonly lines: readonly PanelLine[];
  /** At least one; the first is the colour of panels without a mark. */
  readonly colours: readonly Colour[];
  readonly marks: readonly PanelMark[];
  readonly allowances: Allowances;
  readonly trims: readonly Trim[];
  readonly paper: { readonly size: PaperSize };
}
