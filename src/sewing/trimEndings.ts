import {
  CORNER_TURN,
  type Pt,
  LIES_ON,
  boxesMeet,
  cross,
  directionAt,
  distance,
  nearestOnPath,
  pathBox,
} from '../geometry';
import type { PanelledPiece, SeamId } from '../panels';
import type { SewnOrder, StripEnd, TrimStrip } from './trimStrip';
import { passingAt } from './trimStrips';

/** What can hide the raw end of a strip inside the piece. */
export interface Covers {
  /** Seams through which it would be caught, were they sewn after it is laid. */
  readonly seams: readonly SeamId[];
  /** Strips that lie over it, were they laid after it. */
  readonly strips: readonly TrimStrip[];
}

const LEAST_TURN = Math.sin(CORNER_TURN);

/** Whether a strip lies across the end of another: one that only runs on in its direction does not hide it. */
function liesAcross({ at, out }: StripEnd, over: TrimStrip): boolean {
  if (!boxesMeet(pathBox(over.path), { minX: at[0], minY: at[1], maxX: at[0], maxY: at[1] }, over.trim.width))
    return false;
  const near = nearestOnPath(over.path, at);
  if (near.distance > over.trim.width / 2 + LIES_ON) return false;
  return Math.abs(cross(out, directionAt(over.path[near.index]!, near.t))) > LEAST_TURN;
}

/** Seams sewn across the end of a path of its own, which lies at no junction. */
function seamsAcross({ at, out }: StripEnd, { seams }: PanelledPiece): SeamId[] {
  return seams
    .filter((s) => {
      const near = nearestOnPath(s.path, at);
      const isAcross = Math.abs(cross(out, directionAt(s.path[near.index]!, near.t))) > LEAST_TURN;
      return near.distance <= LIES_ON && isAcross;
    })
    .map((s) => s.id);
}

/** What can hide an end that does not run into the outline. */
export function coversOf(
  strip: TrimStrip,
  end: StripEnd,
  all: readonly TrimStrip[],
  piece: PanelledPiece,
  order: SewnOrder,
): Covers {
  const meeting =
    end.node === null
      ? strip.line === null
        ? seamsAcross(end, piece)
        : []
      : passingAt(piece, end.node, order);
  return {
    seams: meeting.filter((x) => !strip.seams.includes(x)),
    strips: all.filter((over) => over !== strip && liesAcross(end, over)),
  };
}

/** Whether a strip has an end of its own within its width of a place: it cannot be lifted there to take in another. */
export const endsAt = (strip: TrimStrip, at: Pt): boolean =>
  !strip.isClosed && strip.ends.some((e) => distance(e.at, at) <= strip.trim.width / 2 + LIES_ON);
