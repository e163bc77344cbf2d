import { laidPieces, type LaidPiece, type LayJob, type LayPlan, type SeenPiece } from '../../fabric';
import type { Box, Pt } from '../../geometry';
import type { ColourId, Remnant } from '../../pattern';
import type { LayState } from '../handOut/layRoom';

/** Folded cloth is looked at opened out, or as it lies on the table. */
export type LayLook = 'opened out' | 'as it lies';

/** A piece as it is drawn on a strip. */
export interface ShownPiece {
  /** Panel and copy. */
  readonly key: string;
  readonly laid: LaidPiece;
  readonly shape: SeenPiece;
  /** The printed piece is laid face down. */
  readonly isFaceDown: boolean;
}

/** One piece of cloth with what lies on it. All in mm; its upper left corner at `left`, `top`. */
export interface Strip {
  readonly key: string;
  readonly job: LayJob;
  readonly plan: LayPlan;
  /** What of one's own it is; null: what is bought. */
  readonly own: string | null;
  readonly pieces: readonly ShownPiece[];
  readonly isFolded: boolean;
  /** As drawn: half of it where folded cloth is shown as it lies. */
  readonly width: number;
  /** As long as it is when it is cut: what is bought, washed; or the whole of one's own. */
  readonly length: number;
  readonly left: number;
  readonly top: number;
  /** Its length, or as long as what is written at it. */
  readonly lettered: number;
}

/** Between two pieces of cloth, pixels: room for what is written below one and above the next, or between them. */
const [BELOW, BESIDE] = [92, 28];
/** Room for a cloth's name and what is written at its end, where others lie beside it, pixels. */
const LETTERED = 140;
/** The scale is looked for up to so many times the smallest it could be, in so many halvings. */
const [FARTHEST, HALVINGS] = [32, 24];

function shownPieces(job: LayJob, plan: LayPlan, look: LayLook): ShownPiece[] {
  return laidPieces(job.pieces, plan).flatMap((laid): ShownPiece[] => {
    const key = `${laid.piece.panel} ${laid.copy}`;
    if (look === 'opened out') return [{ key, laid, shape: laid, isFaceDown: laid.flipped }];
    const { folded } = laid;
    return folded ? [{ key, laid, shape: folded, isFaceDown: folded.faceDown }] : [];
  });
}

function stripOf(job: LayJob, plan: LayPlan, look: LayLook, own: string | null): Strip {
  const isFolded = plan.layering === 'folded' && look === 'as it lies';
  const outline = plan.within?.outline;
  return {
    key: plan.within ? `${plan.within.remnant} ${plan.within.copy}` : 'bought',
    job,
    plan,
    own,
    pieces: shownPieces(job, plan, isFolded ? 'as it lies' : 'opened out'),
    isFolded,
    width: isFolded ? plan.width / 2 : plan.width,
    length: outline
      ? Math.max(...outline.map(([x]) => x))
      : Math.max(plan.length, plan.buy * (1 - job.shrinkage / 100)),
    left: 0,
    top: 0,
    lettered: 0,
  };
}

/** Rows of so many, one under the other. @param mm for a pixel */
function inRows(strips: readonly Strip[], each: number, mm: number): Strip[] {
  let [left, top, lowest] = [0, 0, 0];
  return strips.map((strip, i) => {
    if (i > 0 && i % each === 0) [left, top] = [0, lowest + BELOW * mm];
    const lettered = strips.length > 1 ? Math.max(strip.length, LETTERED * mm) : strip.length;
    const placed = { ...strip, left, top, lettered };
    left += lettered + BESIDE * mm;
    lowest = Math.max(lowest, top + strip.width);
    return placed;
  });
}

/** Beside and below each other as they are seen largest. @param room pixels for all of it */
function spread(strips: readonly Strip[], [roomX, roomY]: Pt): Strip[] {
  const needed = (each: number, mm: number): number => {
    const { maxX, maxY } = boxOfStrips(inRows(strips, each, mm));
    return Math.max(maxX / roomX, maxY / roomY);
  };
  let best = { each: 1, mm: Infinity };
  for (let each = 1; each <= strips.length; each += 1) {
    const least = needed(each, 0);
    // what is written stays as large as it is: the smaller the cloth is seen, the more room there is for it
    let [low, high] = [least, least * FARTHEST];
    for (let i = 0; i < HALVINGS; i += 1) {
      const mm = (low + high) / 2;
      if (needed(each, mm) > mm) low = mm;
      else high = mm;
    }
    if (high < best.mm) best = { each, mm: high };
  }
  return inRows(strips, best.each, best.mm);
}

/**
 * The cloths of one colour: what is bought, then one's own. Empty without a plan.
 * @param room pixels there are for the cloths
 */
export function stripsOf(
  { plan, job }: LayState,
  look: LayLook,
  remnants: readonly Remnant[],
  room: Pt,
): Strip[] {
  if (!plan) return [];
  const bought = plan.bought.placed.length > 0 ? [stripOf(job, plan.bought, look, null)] : [];
  const own = plan.own.map((one) => {
    const name = remnants.find(({ id }) => id === one.within?.remnant)?.name ?? 'own cloth';
    return stripOf(job, one, look, one.within && one.within.copy > 1 ? `${name}, ${one.within.copy}` : name);
  });
  return spread([...bought, ...own], room);
}

/** What has to be in view, mm. */
export function boxOfStrips(strips: readonly Strip[]): Box {
  if (strips.length === 0) return { minX: 0, minY: 0, maxX: 1000, maxY: 1400 };
  return {
    minX: 0,
    minY: 0,
    maxX: Math.max(...strips.map(({ left, lettered }) => left + lettered)),
    maxY: Math.max(...strips.map(({ top, width }) => top + width)),
  };
}

/** The lay that lies in the middle: the chosen cloth's, else the first one. */
export const shownLay = (lays: readonly LayState[], shown: ColourId | null): LayState | undefined =>
  lays.find(({ colour }) => colour === shown) ?? lays[0];
