import { type Pt, distance } from '../../geometry';
import { remember } from '../../pattern';
import { type MarkPattern, readBackwards } from './markPattern';
import type { SeamMarks } from './notchPlaces';
import type { SeamRoom } from './seamRoom';

/** Seams whose lengths differ by less than this could be sewn to each other unnoticed, mm: beyond 1/4 in it is a real fault. */
const NEARLY_AS_LONG = 10;
/** Seams that end this near each other end at one junction, mm. */
const ONE_JUNCTION = 0.05;
/** Marks chosen so far, to be told apart from. */
export interface Chosen {
  readonly room: SeamRoom;
  readonly marks: SeamMarks;
}

/** Plain comparisons before any distance: every two seams of a garment are asked for. */
const isNear = (p: Pt, q: Pt): boolean =>
  Math.abs(p[0] - q[0]) < ONE_JUNCTION &&
  Math.abs(p[1] - q[1]) < ONE_JUNCTION &&
  distance(p, q) < ONE_JUNCTION;
function isOneJunction(
  { corners: [p, q], seam }: SeamRoom,
  { corners: [r, s], seam: other }: SeamRoom,
): boolean {
  if (seam.piece !== other.piece) return false;
  return isNear(p, r) || isNear(p, s) || isNear(q, r) || isNear(q, s);
}
const sharePanel = ({ seam: s }: SeamRoom, { seam: t }: SeamRoom): boolean =>
  s.a === t.a || s.a === t.b || s.b === t.a || s.b === t.b;

interface Rival {
  readonly pattern: MarkPattern;
  /** What it costs to be taken for it. */
  readonly weight: number;
}

/** Seams that one could be taken for: how many, and their marks both ways round by their kinds. */
export interface Rivals {
  readonly count: number;
  readonly byWord: ReadonlyMap<number, readonly Rival[]>;
}

/** One number for the kinds of a row of marks. */
export const wordOf = (pattern: MarkPattern): number =>
  pattern.reduce((word, { marks }) => word * 4 + marks, 0);

/** Marks as read from either end of their seam. */
const bothWays = remember((marks: SeamMarks, length: number): readonly MarkPattern[] => [
  marks.places,
  readBackwards(marks.places, length),
]);

/** Seams that this one could be taken for: nearly as long, or at one of its ends. */
export function rivalsOf(room: SeamRoom, chosen: readonly Chosen[]): Rivals {
  const byWord = new Map<number, Rival[]>();
  let count = 0;
  for (const { room: other, marks } of chosen) {
    const isAsLong = Math.abs(other.length - room.length) < NEARLY_AS_LONG;
    const isBeside = isAsLong
      ? sharePanel(room, other) || isOneJunction(room, other)
      : isOneJunction(room, other);
    if (!isAsLong && !isBeside) continue;
    count += 1;
    const weight = isAsLong && isBeside ? 10 : 3;
    for (const pattern of bothWays(marks, other.length)) {
      const word = wordOf(pattern);
      const list = byWord.get(word);
      if (list) list.push({ pattern, weight });
      else byWord.set(word, [{ pattern, weight }]);
    }
  }
  return { count, byWord };
}
