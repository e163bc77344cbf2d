import { type SeamId, type Seam } from '../../panels';
import { remember } from '../../pattern';
import type { SeamImage } from '../seamTurns';
import {
  type MarkPattern,
  type MarkPlace,
  SEEN_APART,
  lopsidedness,
  markWords,
  readBackwards,
  slotPlaces,
  unevenShares,
} from './markPattern';
import { type SeamMarks, NO_MARKS, easedOn } from './notchPlaces';
import { type Chosen, ChosenMarks, type Rivals, wordOf } from './rivals';
import type { SeamRoom } from './seamRoom';

/** One mark for about so much seam, mm; more where it turns. Common practice, no source: 150 to 200 mm. */
const MARK_SPACING = 175;
/** One mark more for each so much total turning, radians (60°): curves stretch under the hand. Our choice. */
const TURN_PER_MARK = Math.PI / 3;
const MOST_MARKS = 9;
/** Marks stand at least so far apart, mm: more than the marks of a double notch; in little room the lesser. */
const APART = 20;
const CLOSE = 10;
/** So little room is divided into slots, mm: all choices are few enough to be tried. */
const FEW_SLOTS = 160;
/** With less room than this for each gap no mark is added for a curve, mm. */
const CROWDED = 45;
/** How far beyond the crossing seam's allowance marks keep from a seam's ends where there is room, mm, and what share of a short one. */
const END_CLEAR = 5;
const END_SHARE = 0.25;
/** A seam shorter than this takes no mark that could be told from its ends, mm. */
const SHORTEST_MARKED = 10;
/** No mark this near the middle, mm, or as a share of the length in a short seam. */
const OFF_MIDDLE = 8;
const OFF_MIDDLE_SHARE = 0.025;
/** Seams that ease in amounts this near each other ease in as much, mm. */
const AS_MUCH = 0.05;
/** Places are kept to this, mm: a seam that stays gives the same marks whatever else moves. */
const STEP = 1e-6;
/**
 * How many patterns are tried; the first of them without triple marks; and how many where marks have to be in chalk, or there are more
 * seams of one length than anybody can tell apart by patterns.
 */
const TRIES = 120;
const PLAIN_TRIES = 24;
const FEW_TRIES = 36;
const CROWD = 80;
/** A dart's end is eased in between two notches, this far on either side of it where the seam is long enough, mm. */
const EASE_REACH = 40;

/** How many marks a seam of so many mm and so much total turning (radians) takes. */
function markCount(length: number, turning: number, room: number): number {
  const byLength = Math.max(2, Math.round(length / MARK_SPACING));
  const most = Math.max(byLength, Math.floor(room / CROWDED) + 1);
  return Math.min(byLength + Math.floor(turning / TURN_PER_MARK), most, MOST_MARKS);
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The part of a seam that marks may stand in: clear of the crossing seams' allowances, in a short seam as clear as can be. */
function clearPart({ length, ends, allowance, isClosed }: SeamRoom): Stretch {
  if (isClosed) return { from: 0, to: length };
  const soft = Math.min(allowance + END_CLEAR, length * END_SHARE);
  return { from: Math.max(ends[0], soft), to: length - Math.max(ends[1], soft) };
}

/** How far a mark is moved at most to where both cutting edges run along the seam, in which steps, mm. */
const MOVES = [6, -6, 12, -12, 20, -20, 30, -30] as const;

const kept = (s: number): number => Math.round(s / STEP) * STEP;

function isFree(s: number, blocked: SeamRoom['blocked'], part: Stretch): boolean {
  if (s < part.from - 1e-9 || s > part.to + 1e-9) return false;
  for (const b of blocked) if (s > b.from && s < b.to) return false;
  return true;
}

/** The nearest place that is not blocked; null where all are. */
function unblocked(wished: number, blocked: SeamRoom['blocked'], part: Stretch): number | null {
  if (isFree(wished, blocked, part)) return wished;
  const offers = blocked.flatMap((b) => [b.from, b.to]).filter((s) => isFree(s, blocked, part));
  return offers.reduce<number | null>(
    (best, s) => (best === null || Math.abs(s - wished) < Math.abs(best - wished) ? s : best),
    null,
  );
}

/**
 * The nearest place that is not blocked and where both sides have a cutting edge; null where there is none.
 * @param isChalked a place without a cutting edge will do: it is marked in chalk
 */
function freePlace(
  wished: number,
  { blocked, isOpen }: SeamRoom,
  part: Stretch,
  isChalked: boolean,
): number | null {
  const near = unblocked(wished, blocked, part);
  if (near === null) return null;
  const at = kept(near);
  if (isChalked || isOpen(at)) return at;
  for (const by of MOVES) {
    const moved = kept(at + by);
    if (isFree(moved, blocked, part) && isOpen(moved)) return moved;
  }
  return null;
}

/** Where n marks go, mm from the start of their room: the k-th choice. */
function placesIn(
  room: SeamRoom,
  span: number,
  n: number,
  k: number,
  preferred: number,
): readonly number[] | null {
  if (n === 1 && span < FEW_SLOTS) return [span * ((k + preferred) % 2 === 0 ? 0.1 : 0.9)];
  if (n <= 3 && span < FEW_SLOTS && !room.isClosed) return slotPlaces(n, k, preferred, span, CLOSE);
  const ends = room.isClosed ? 1 : Math.min(1, Math.max(0.25, span / 200));
  return unevenShares(n, k + preferred, ends).map((share) => share * span);
}

/** A mark in the middle fits a panel turned round. */
const isHalfway = (at: number, { length, isClosed }: SeamRoom): boolean =>
  !isClosed && Math.abs(at - length / 2) < Math.min(OFF_MIDDLE, length * OFF_MIDDLE_SHARE);

/** What is asked for: the k-th pattern of n marks, counted from the one the seam would have alone. */
interface Wish {
  readonly n: number;
  readonly k: number;
  readonly preferred: number;
  readonly isChalked: boolean;
}

/** A pattern of marks, with triple ones only among the later; null where it does not fit. */
function patternOf(room: SeamRoom, part: Stretch, { n, k, preferred, isChalked }: Wish): MarkPattern | null {
  const words = markWords(n, k < PLAIN_TRIES);
  const span = part.to - part.from;
  const word = words[(k + preferred) % words.length]!;
  const wished = placesIn(room, span, n, Math.floor(k / words.length), preferred);
  if (!wished) return null;
  const apart = span < FEW_SLOTS ? CLOSE : APART;
  const places: MarkPlace[] = [];
  for (let i = 0; i < n; i += 1) {
    const at = freePlace(part.from + wished[i]!, room, part, isChalked);
    if (at === null || isHalfway(at, room)) return null;
    if (places.length > 0 && at - places.at(-1)!.at < apart - STEP) return null;
    places.push({ at, marks: word[i]! });
  }
  return places;
}

/** A symmetric seam of a piece laid on the fold is marked alike on both halves: both are cut at once. */
function mirroredPattern(room: SeamRoom, part: Stretch, wish: Wish): MarkPattern | null {
  const half = { from: part.from, to: room.length / 2 - CLOSE };
  const pattern = patternOf(room, half, { ...wish, n: Math.ceil(wish.n / 2) });
  return pattern && [...pattern, ...readBackwards(pattern, room.length)];
}

/** How far from a dart's eased end its notches stand, on the shorter side. */
function easedSpan({ seam, length }: SeamRoom): Stretch | null {
  if (seam.eased.length === 0) return null;
  const at = seam.eased.map((e) => e.at);
  const [from, to] = [Math.min(...at), Math.max(...at)];
  return {
    from: from - Math.min(EASE_REACH, from * 0.6),
    to: to + Math.min(EASE_REACH, (length - to) * 0.6),
  };
}

/** The single and the double notch on either side of what is eased in, and those of the pattern that keep clear of them. */
function aroundEase(pattern: MarkPattern, { from, to }: Stretch): SeamMarks {
  const before = pattern.filter((p) => p.at < from - APART);
  const after = pattern.filter((p) => p.at > to + APART);
  return {
    places: [...before, { at: from, marks: 1 }, { at: to, marks: 2 }, ...after],
    eased: [before.length, before.length + 1],
  };
}

/** Marks that a seam could have, and what they cost before any other seam is looked at. */
interface Offer {
  readonly marks: SeamMarks;
  readonly word: number;
  readonly cost: number;
}

/** Offers that were worked out for a seam, by what was wished; kept as long as its room stays the same. */
const offersOf = remember(
  (_kept: object, _preferred: number, _isMirrored: boolean): Map<number, Offer | null> => new Map(),
);

function offerFor({ room, part, isMirrored }: Choice, wish: Wish): Offer | null {
  const pattern = (isMirrored ? mirroredPattern : patternOf)(room, part, wish);
  if (!pattern) return null;
  const eased = easedSpan(room);
  const marks = eased ? aroundEase(pattern, eased) : { places: pattern, eased: null };
  const isEven = !isMirrored && !room.isClosed && lopsidedness(marks.places, room.length) < SEEN_APART;
  return { marks, word: wordOf(marks.places), cost: isEven ? 1 : 0 };
}

interface Choice {
  readonly room: SeamRoom;
  readonly part: Stretch;
  readonly preferred: number;
  readonly rivals: Rivals;
  readonly chosen: ChosenMarks;
  readonly isMirrored: boolean;
}

/** The best pattern of n marks (or one more); null where none fits. */
function bestOf(choice: Choice, n: number, isChalked: boolean): SeamMarks | null {
  const { room, preferred, rivals, isMirrored, chosen } = choice;
  const known = offersOf(room.kept, preferred, isMirrored);
  const tries = isChalked || rivals.isCrowd ? FEW_TRIES : TRIES;
  let best: { marks: SeamMarks; cost: number } | null = null;
  for (let k = 0; k < tries; k += 1) {
    const wish = { n: k > tries / 2 ? n + 1 : n, k, preferred, isChalked };
    const key = (k * (MOST_MARKS + 2) + wish.n) * 2 + (isChalked ? 1 : 0);
    let offer = known.get(key);
    if (offer === undefined) known.set(key, (offer = offerFor(choice, wish)));
    if (!offer) continue;
    const most = best?.cost ?? Infinity;
    const cost = chosen.costOf(offer.marks.places, offer.word, rivals, offer.cost, most);
    if (!best || cost < most) best = { marks: offer.marks, cost };
    if (best.cost === 0) break;
  }
  return best && best.marks;
}

/**
 * The pattern with which a seam is least easily taken for another or for itself the other way round. The one it would have if it
 * were alone is tried first, so that patterns stay while lines move.
 */
function marksFor(choice: Choice): SeamMarks {
  const { room, part } = choice;
  const span = part.to - part.from;
  const eased = easedSpan(room);
  const none = eased ? aroundEase([], eased) : NO_MARKS;
  if (span < 0 || room.length < SHORTEST_MARKED) return none;
  const usual = Math.max(markCount(room.length, room.turning, span), room.isClosed ? 3 : 2);
  for (let n = usual; n > 0; n -= 1) {
    const marks = bestOf(choice, n, false) ?? bestOf(choice, n, true);
    if (marks) return marks;
  }
  return none;
}

/** The marks of a seam's mirror image, which runs as it does or against it. */
function imageMarks({ places, eased }: SeamMarks, { length }: SeamRoom, isAgainst: boolean): SeamMarks {
  if (!isAgainst) return { places, eased };
  const last = places.length - 1;
  return { places: readBackwards(places, length), eased: eased && [last - eased[1], last - eased[0]] };
}

/** Whether as much is eased in at two seams: a seam may differ from its image in what darts are closed at it. */
const isEasedAlike = (a: Seam, b: Seam): boolean =>
  a.eased.length === b.eased.length && Math.abs(easedOn(a, null) - easedOn(b, null)) < AS_MUCH;

/** Where the choice of a seam begins: by its line and its running number on it, so that other lines do not change it. */
function preferenceOf({ seam }: SeamRoom, running: number, piece: number): number {
  return seam.line.order * 7 + (seam.line.mirrored ? 3 : 0) + running * 5 + piece * 11;
}

/** One piece's seams with their room, and which of them are mirror images of earlier ones. */
export interface MarkableSeams {
  readonly rooms: readonly SeamRoom[];
  readonly images: ReadonlyMap<SeamId, SeamImage>;
  /** Whether symmetric panels are laid on the fold, so that what crosses it is cut alike on both sides. */
  readonly onFold: boolean;
}

/**
 * Marks for every seam of a garment, told apart over all its pieces. A seam and its mirror image across the fold get marks that are mirror
 * images, so that panels that are mirror images stay so.
 */
export function chooseMarks(pieces: readonly MarkableSeams[]): ReadonlyMap<SeamId, SeamMarks> {
  const found = new Map<SeamId, Chosen>();
  const chosen = new ChosenMarks();
  pieces.forEach(({ rooms, images, onFold }, piece) => {
    const running = new Map<Seam['line'], number>();
    for (const room of rooms) {
      const { id, line } = room.seam;
      const nth = running.get(line) ?? 0;
      running.set(line, nth + 1);
      const image = images.get(id);
      const of = image && image.of !== id ? found.get(image.of) : undefined;
      if (image && of && isEasedAlike(room.seam, of.room.seam)) {
        found.set(id, { room, marks: imageMarks(of.marks, room, image.isAgainst) });
        continue;
      }
      const isMirrored = onFold && image?.of === id && image.isAgainst;
      const marks = marksFor({
        room,
        part: clearPart(room),
        preferred: preferenceOf(room, nth, piece),
        rivals: chosen.rivalsOf(room, CROWD),
        isMirrored,
        chosen,
      });
      found.set(id, { room, marks });
      chosen.add({ room, marks });
    }
  });
  return new Map([...found].map(([id, { marks }]) => [id, marks] as const));
}
