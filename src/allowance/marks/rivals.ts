import { type Pt, distance } from '../../geometry';
import { remember } from '../../pattern';
import { type MarkPattern, SEEN_APART, patternDifference, readBackwards } from './markPattern';
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

/** One number for the kinds of a row of marks. */
export const wordOf = (pattern: MarkPattern): number =>
  pattern.reduce((word, { marks }) => word * 4 + marks, 0);

/** Marks as read from either end of their seam. */
const bothWays = remember((marks: SeamMarks, length: number): readonly MarkPattern[] => [
  marks.places,
  readBackwards(marks.places, length),
]);

/** The same marks are read from either end of their seam. */
interface Reading {
  readonly of: Chosen;
  readonly pattern: MarkPattern;
  /** Of its seam, and its first place, mm: most are passed over for these. */
  readonly length: number;
  readonly first: number;
}

/** What marks cost that are taken for those of another seam: of one that is as long or that is near, and of one that is both. */
const ONE_REASON = 3;
const BOTH_REASONS = 10;

const isAsLong = (a: SeamRoom, b: SeamRoom): boolean => Math.abs(a.length - b.length) < NEARLY_AS_LONG;

/** Side of the squares in which ends of seams are looked up, mm. */
const SQUARE = 10;

const slotOf = (length: number): number => Math.floor(length / NEARLY_AS_LONG);
const squareOf = (x: number, y: number): string => `${Math.floor(x / SQUARE)} ${Math.floor(y / SQUARE)}`;

/** Squares that hold all points at one junction with one of two. */
const squaresNear = (points: readonly Pt[]): ReadonlySet<string> =>
  new Set(
    points.flatMap(([x, y]) =>
      [x - ONE_JUNCTION, x + ONE_JUNCTION].flatMap((u) =>
        [y - ONE_JUNCTION, y + ONE_JUNCTION].map((v) => squareOf(u, v)),
      ),
    ),
  );

/** Lengths of seams go up to this many slots, and so do places of marks: beyond it a cell only holds more than it need. */
const CELLS = 4096;
const cellOf = (word: number, slot: number, place: number): number => (word * CELLS + slot) * CELLS + place;
const firstPlace = (pattern: MarkPattern): number => Math.floor((pattern[0]?.at ?? 0) / SEEN_APART) + 2;

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

/** Seams at a junction with one, but not as long, as it is asked what it could be taken for. */
export interface Rivals {
  readonly room: SeamRoom;
  readonly near: readonly Reading[];
  /** Whether there are more rivals than a given number. */
  readonly isCrowd: boolean;
}

/**
 * The marks chosen so far. A seam could be taken for those that are nearly as long or at one of its ends; they are found by their length,
 * kinds and first place, since a garment may have thousands.
 */
export class ChosenMarks {
  readonly #cells = new Map<number, Reading[]>();
  readonly #lengths = new Map<number, number[]>();
  readonly #squares = new Map<string, Reading[][]>();

  add(of: Chosen): void {
    const { room, marks } = of;
    const slot = slotOf(room.length);
    const readings = bothWays(marks, room.length).map((pattern): Reading => ({
      of,
      pattern,
      length: room.length,
      first: pattern[0]?.at ?? 0,
    }));
    for (const r of readings) push(this.#cells, cellOf(wordOf(r.pattern), slot, firstPlace(r.pattern)), r);
    push(this.#lengths, slot, room.length);
    for (const square of new Set(room.corners.map(([x, y]) => squareOf(x, y))))
      push(this.#squares, square, readings);
  }

  /** @param crowd how many rivals are too many to be told apart */
  rivalsOf(room: SeamRoom, crowd: number): Rivals {
    const near = new Set<Reading[]>();
    for (const square of squaresNear(room.corners))
      for (const readings of this.#squares.get(square) ?? []) {
        const other = readings[0]!.of.room;
        if (!isAsLong(room, other) && isOneJunction(room, other)) near.add(readings);
      }
    let count = near.size;
    const slot = slotOf(room.length);
    for (let s = slot - 1; s <= slot + 1 && count <= crowd; s += 1)
      for (const length of this.#lengths.get(s) ?? []) {
        if (Math.abs(length - room.length) < NEARLY_AS_LONG) count += 1;
        if (count > crowd) break;
      }
    return { room, near: [...near].flat(), isCrowd: count > crowd };
  }

  /**
   * What it costs that marks can be taken for those of other seams, added to `own`; no more than what reaches `most`, which is too much.
   * @param word of the marks
   */
  costOf(places: MarkPattern, word: number, { room, near }: Rivals, own: number, most: number): number {
    let cost = own;
    for (const { pattern } of near) if (isTakenFor(places, pattern)) cost += ONE_REASON;
    const [slot, place, start] = [slotOf(room.length), firstPlace(places), places[0]?.at ?? 0];
    for (let s = slot - 1; s <= slot + 1; s += 1)
      for (let f = place - 1; f <= place + 1; f += 1)
        for (const { of, pattern, length, first } of this.#cells.get(cellOf(word, s, f)) ?? []) {
          if (Math.abs(first - start) >= SEEN_APART || Math.abs(length - room.length) >= NEARLY_AS_LONG)
            continue;
          if (!isTakenFor(places, pattern)) continue;
          cost += ONE_REASON;
          if (cost >= most) return cost;
          if (sharePanel(room, of.room) || isOneJunction(room, of.room)) cost += BOTH_REASONS - ONE_REASON;
          if (cost >= most) return cost;
        }
    return cost;
  }
}

const isTakenFor = (p: MarkPattern, q: MarkPattern): boolean => patternDifference(p, q) < SEEN_APART;
