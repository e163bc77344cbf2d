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

/** One piece of cloth with what lies on it. All in mm; its upper left corner at 0, `top`. */
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
  readonly top: number;
}

/** Between two pieces of cloth, mm. */
const BETWEEN = 260;

function shownPieces(job: LayJob, plan: LayPlan, look: LayLook): ShownPiece[] {
  return laidPieces(job.pieces, plan).flatMap((laid): ShownPiece[] => {
    const key = `${laid.piece.panel} ${laid.copy}`;
    if (look === 'opened out') return [{ key, laid, shape: laid, isFaceDown: laid.flipped }];
    const { folded } = laid;
    return folded ? [{ key, laid, shape: folded, isFaceDown: folded.faceDown }] : [];
  });
}

function stripOf(job: LayJob, plan: LayPlan, look: LayLook, top: number, own: string | null): Strip {
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
    top,
  };
}

/** The cloths of one colour one under the other: what is bought, then one's own. Empty without a plan. */
export function stripsOf({ plan, job }: LayState, look: LayLook, remnants: readonly Remnant[]): Strip[] {
  if (!plan) return [];
  const strips: Strip[] = [];
  let top = 0;
  const add = (one: LayPlan, own: string | null): void => {
    const strip = stripOf(job, one, look, top, own);
    strips.push(strip);
    top += strip.width + BETWEEN;
  };
  if (plan.bought.placed.length > 0) add(plan.bought, null);
  for (const one of plan.own) {
    const name = remnants.find(({ id }) => id === one.within?.remnant)?.name ?? 'own cloth';
    add(one, one.within && one.within.copy > 1 ? `${name}, ${one.within.copy}` : name);
  }
  return strips;
}

/** What has to be in view, mm. */
export function boxOfStrips(strips: readonly Strip[]): Box {
  const last = strips.at(-1);
  return {
    minX: 0,
    minY: 0,
    maxX: Math.max(1000, ...strips.map(({ length }) => length)),
    maxY: last ? last.top + last.width : 1400,
  };
}

/** The lay that lies in the middle: the chosen cloth's, else the first one. */
export const shownLay = (lays: readonly LayState[], shown: ColourId | null): LayState | undefined =>
  lays.find(({ colour }) => colour === shown) ?? lays[0];
