/** The design document's part on cloth: what there is of it, and what is cut from it. */
import type { Polyline, Pt } from '../geometry';
import type { ColourId, PieceId, RemnantId } from './ids';

/**
 * How cloth lies when it is cut: one layer, right side up; or folded lengthwise, right sides together, so that pairs are cut in
 * one go and panels that are their own mirror image lie with their middle on the fold.
 */
export type Layering = 'single' | 'folded';

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
  /** Kept free along each selvedge, mm. */
  readonly margin: number;
  readonly layering: Layering;
  /** Repeat of a stripe or print along and across the grain, mm, as bought; 0: none. Counted from the middle of a stripe or motif. */
  readonly repeat: { readonly along: number; readonly across: number };
  /** Bought beyond what the lay plan needs, mm. */
  readonly reserve: number;
}

/** A piece of cloth that one owns already: laid on before any is bought. */
export interface Remnant {
  readonly id: RemnantId;
  readonly name: string;
  readonly colour: ColourId;
  /** Corners of its usable part, mm, right side up; its warp runs along x. Simple, positive area, no repeated first point. */
  readonly outline: Polyline;
  /** How many alike there are. */
  readonly count: number;
}

/** Leave for one panel to lie off its grain, pinned to a spot inside it on the whole piece. */
export interface OffGrainMark {
  readonly piece: PieceId;
  readonly at: Pt;
  /** As far as this to either side, degrees, 0 < degrees ≤ 90: it lies at its grain, or turned by just so much. */
  readonly degrees: number;
}

/** A panel's colour, pinned to a spot inside it on the whole piece. The first mark inside a panel counts. */
export interface PanelMark {
  readonly piece: PieceId;
  readonly at: Pt;
  readonly colour: ColourId;
}

/** A lining cut from the pieces as they were before slicing. */
export interface Lining {
  readonly pieces: readonly PieceId[];
  readonly colour: ColourId;
  /** Taken off at every hem, mm. */
  readonly shorter: number;
}

/** A facing for an edge (and its mirror image), cut from the piece as it was before slicing. */
export interface Facing {
  readonly piece: PieceId;
  /** Plain name of the edge. */
  readonly edge: string;
  /** From the edge's stitching line inwards, mm. */
  readonly depth: number;
  readonly colour: ColourId;
  /** What its interfacing is cut from, the same shapes again; null: none. */
  readonly interfacing: ColourId | null;
}

/** What is wanted of cutting out, whatever the cloth. */
export interface CuttingOut {
  /** Least distance between pieces, mm: room for the blade. */
  readonly gap: number;
}
