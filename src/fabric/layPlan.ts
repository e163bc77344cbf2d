import type { Polyline } from '../geometry';
import type { PanelId } from '../panels';
import type { ColourId, Problem } from '../pattern';

/** One cut piece to be laid: cutting line as corner points in the tracing's frame. */
export interface ClothPiece {
  readonly panel: PanelId;
  /** Number for people and for sorting. */
  readonly number: number;
  /** 1, 2 … of the same panel. */
  readonly copy: number;
  /** Mirrored copies (the second of a pair) are mirrored in their own x before turning. */
  readonly flipped: boolean;
  readonly cutting: Polyline;
  /** Degrees; the cloth's length runs along it. */
  readonly grainAngle: number;
}

export interface LayJob {
  readonly colour: ColourId;
  readonly colourName: string;
  /** Usable width, mm. */
  readonly width: number;
  readonly nap: boolean;
  /** Least distance between pieces, mm. */
  readonly gap: number;
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

/** A lay plan that passed the exact check. The cloth runs along +x from 0, its width along +y from 0. */
export interface LayPlan {
  readonly colour: ColourId;
  readonly width: number;
  /** Length used, mm. */
  readonly length: number;
  /** What to ask for at the counter, mm: shrinkage added, rounded up. */
  readonly buy: number;
  /** Area of the pieces over length × width, 0..1. */
  readonly density: number;
  readonly seconds: number;
  readonly placed: readonly Placement[];
  readonly problems: readonly Problem[];
}

