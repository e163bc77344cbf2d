import type { Polyline } from '../geometry';
import type { PanelId } from '../panels';
import type { ColourId, Problem, Units } from '../pattern';

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
}

export interface LayJob {
  readonly colour: ColourId;
  readonly colourName: string;
  /** Usable width when it is cut (after washing), mm. */
  readonly width: number;
  readonly nap: boolean;
  /** Least distance between pieces, mm. */
  readonly gap: number;
  /** Shrinkage along the length in washing, percent: what must be bought for it. */
  readonly shrinkage: number;
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
 * A lay plan that passed the exact check. The cloth runs along +x from 0, its width along +y from 0.
 * Where a piece does not fit the cloth there is no plan: length, buy and density are 0, nothing is placed, and `problems` says why.
 */
export interface LayPlan {
  readonly colour: ColourId;
  readonly width: number;
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
