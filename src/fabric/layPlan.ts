import type { Line, Polyline, Pt } from '../geometry';
import type { PanelId } from '../panels';
import type { ColourId, Layering, Problem, RemnantId, Units } from '../pattern';

/** One cut piece to be laid: cutting line as corner points in the tracing's frame. */
export interface ClothPiece {
  readonly panel: PanelId;
  /** Number for people and for sorting. */
  readonly number: number;
  /** 1, 2 … of the same panel. */
  readonly copy: number;
  /** Mirrored copies (the second of a pair) are mirrored in their own x before turning. */
  readonly flipped: boolean;
  /** Simple, no repeated first point. */
  readonly cutting: Polyline;
  /** Degrees; the cloth's length runs along it. */
  readonly grainAngle: number;
  /** Angles off the grain (degrees) allowed for this piece alone; left out: 0 and 180, or 0 on cloth with nap. */
  readonly turns?: readonly number[];
  /** Of lining and facings, which cannot be given leave to lie off their grain. */
  readonly keepsGrain?: true;
  /** Point (in the same frame) that lies on the repeat of a stripe or print; left out: it lies anywhere. */
  readonly anchor?: Pt;
  /**
   * Two points (in the same frame) on the line along the grain across which the cutting line is its own mirror image: on folded
   * cloth it may lie there with its middle on the fold. Left out: it has none.
   */
  readonly middle?: Line;
}

/** A piece of cloth to lay on instead of a roll of endless length. */
export interface ClothShape {
  /** What it is of the user's. */
  readonly remnant: RemnantId;
  /** Which of several alike, from 1. */
  readonly copy: number;
  /** Corners, mm, its box from 0, 0; length along +x. Simple, positive area. */
  readonly outline: Polyline;
}

/** What is to be laid of one colour, on which cloth and how. */
export interface LayJob {
  readonly colour: ColourId;
  readonly colourName: string;
  /** Width when it is cut (after washing), mm; `margin` of it is kept free along each selvedge. */
  readonly width: number;
  readonly margin: number;
  /**
   * single: one layer, right side up. folded: at half the width, right sides together. Pairs (copies 1 and 2 of a panel, the second
   * flipped) are then cut together, pieces with a `middle` may lie on the fold; any other one is cut from the upper layer alone.
   */
  readonly layering: Layering;
  /** Repeat along and across the grain when it is cut (after washing), mm; 0: none. Counted from x = 0 and from the middle of the width. */
  readonly repeat: { readonly along: number; readonly across: number };
  /** Null: from the roll, as long as need be. */
  readonly within: ClothShape | null;
  readonly nap: boolean;
  /** Least distance between pieces, mm. */
  readonly gap: number;
  /** Shrinkage along the length in washing, percent: what must be bought for it. */
  readonly shrinkage: number;
  /** Shrinkage across in washing, percent: `width` is what it leaves. Left out: not known, or none. */
  readonly shrinksAcross?: number;
  /** Bought beyond what is needed, mm. */
  readonly reserve: number;
  /** Whose steps the counter sells in: 10 cm or 1/8 yd. */
  readonly units: Units;
  readonly pieces: readonly ClothPiece[];
  /** Budget in nominal seconds: turned into a fixed number of search steps, so that the same job gives the same plan. */
  readonly seconds: number;
  readonly seed: number;
}

/** Mirror in x when flipped, then turn by rotation (degrees) about the origin, then move by x, y. */
export interface Placement {
  readonly panel: PanelId;
  readonly copy: number;
  readonly x: number;
  readonly y: number;
  readonly rotation: number;
  readonly flipped: boolean;
}

/**
 * A lay plan that passed the exact check. The cloth runs along +x from 0, its width along +y from 0. Folded cloth is drawn opened
 * out, the fold at half its width: what lies on one half lies mirrored on the other, or leaves it empty there.
 * Where a piece does not fit the cloth there is no plan: length, buy and density are 0, nothing is placed, and `problems` says why.
 */
export interface LayPlan {
  readonly colour: ColourId;
  readonly width: number;
  readonly layering: Layering;
  /** The piece of one's own cloth that it lies on; null: bought by length. */
  readonly within: ClothShape | null;
  /** Length used, mm. */
  readonly length: number;
  /** What to ask for at the counter, mm: shrinkage added, rounded up. */
  readonly buy: number;
  /** Area of the pieces over length × width, 0..1. */
  readonly density: number;
  /** The nominal budget of the job, not the clock. */
  readonly seconds: number;
  /** In the order of the job's pieces. */
  readonly placed: readonly Placement[];
  readonly problems: readonly Problem[];
}

/** How the pieces of one colour are cut: as many as fit from one's own cloth, the rest from what is bought. */
export interface ClothPlan {
  /** One per remnant that is used. */
  readonly own: readonly LayPlan[];
  /** Of all pieces not laid on one's own cloth; nothing placed and nothing to buy where none are left. */
  readonly bought: LayPlan;
}
