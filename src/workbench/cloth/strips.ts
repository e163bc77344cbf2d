import { laidPieces, type LaidPiece, type LayJob, type LayPlan, type SeenPiece } from '../../fabric';
import type { Box } from '../../geometry';
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
}

/** Between two pieces of cloth, mm: room for what is written below one and above the next, or between them. */
const [BELOW, BESIDE] = [440, 320];
/** About how much wider than high the free table is. */
const TABLE_SHAPE = 1.4;

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
  };
}

/** One under the other, or side by side: as they are seen larger. */
function spread(strips: readonly Strip[]): Strip[] {
  const place = (isRow: boolean): Strip[] => {
    let [left, top] = [0, 0];
    return strips.map((strip) => {
      const placed = { ...strip, left, top };
      if (isRow) left += strip.length + BESIDE;
      else top += strip.width + BELOW;
      return placed;
    });
  };
  const size = (placed: readonly Strip[]): number => {
    const { maxX, maxY } = boxOfStrips(placed);
    return Math.max(maxX / TABLE_SHAPE, maxY);
  };
  const [row, column] = [place(true), place(false)];
  return size(row) < size(column) ? row : column;
}

/** The cloths of one colour: what is bought, then one's own. Empty without a plan. */
export function stripsOf({ plan, job }: LayState, look: LayLook, remnants: readonly Remnant[]): Strip[] {
  if (!plan) return [];
  const bought = plan.bought.placed.length > 0 ? [stripOf(job, plan.bought, look, null)] : [];
  const own = plan.own.map((one) => {
    const name = remnants.find(({ id }) => id === one.within?.remnant)?.name ?? 'own cloth';
    return stripOf(job, one, look, one.within && one.within.copy > 1 ? `${name}, ${one.within.copy}` : name);
  });
  return spread([...bought, ...own]);
}

/** What has to be in view, mm. */
export function boxOfStrips(strips: readonly Strip[]): Box {
  if (strips.length === 0) return { minX: 0, minY: 0, maxX: 1000, maxY: 1400 };
  return {
    minX: 0,
    minY: 0,
    maxX: Math.max(...strips.map(({ left, length }) => left + length)),
    maxY: Math.max(...strips.map(({ top, width }) => top + width)),
  };
}

/** The lay that lies in the middle: the chosen cloth's, else the first one. */
export const shownLay = (lays: readonly LayState[], shown: ColourId | null): LayState | undefined =>
  lays.find(({ colour }) => colour === shown) ?? lays[0];
