import type { Care, CheapSpot, ClothChange } from '../../garment/spots';
import type { Path } from '../../geometry';
import type { ColourId, Design, LineId } from '../../pattern';
import type { DesignChanges } from './designChanges';

/** Raise on any change of the messages or of what they carry: a tab may still hold an old worker. */
export const COST_CONTRACT = 1;

/** Data only; both sides import it. Turns rise by one with every message sent to the worker. */
export type ToCost =
  /** What later designs are compared with. */
  | { readonly kind: 'before'; readonly contract: number; readonly turn: number; readonly design: Design }
  /** The design as it is now. Ends all earlier turns. */
  | {
      readonly kind: 'now';
      readonly turn: number;
      readonly changes: DesignChanges;
      /** The line to look for cheap spots of, once the hand rests. */
      readonly line: LineId | null;
    }
  | { readonly kind: 'stop'; readonly turn: number };

/** A cheap spot for the line, without its design: `path` is what the line is given to lie there. */
export interface FoundSpot extends Omit<CheapSpot, 'design'> {
  readonly path: Path;
}

export type FromCost =
  /** The cloths of which other pieces are cut than before, first of all. */
  | { readonly kind: 'touched'; readonly turn: number; readonly colours: readonly ColourId[] }
  /** One touched cloth, before and after laid with the same care: quick first, or at once what is known better; then ever more care. */
  | { readonly kind: 'cloth'; readonly turn: number; readonly care: Care; readonly change: ClothChange }
  /** All cloths have their quick plans: the next design may come. */
  | { readonly kind: 'open'; readonly turn: number }
  /** The spots found so far; `isAll` once the search for them is over. Said again where better plans take one back. */
  | {
      readonly kind: 'spots';
      readonly turn: number;
      readonly spots: readonly FoundSpot[];
      readonly isAll: boolean;
    }
  /** Then exactly one of these two for every `now`. */
  | { readonly kind: 'ended'; readonly turn: number; readonly because: 'finished' | 'overtaken' }
  | { readonly kind: 'failed'; readonly turn: number; readonly message: string }
  | { readonly kind: 'wrong-contract'; readonly turn: number; readonly workerSpeaks: number };
