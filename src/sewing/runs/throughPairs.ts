import { type Pt, SET_IN_TURN, cross, dot } from '../../geometry';
import { type Cost, compareCosts } from './cost';
import { type LineWish, lineName } from './lineWish';
import type { End, StrandedStretch } from './seamGraph';

/** Two ends at a junction that are sewn in one go. */
export interface ThroughPair {
  readonly p: End;
  readonly q: End;
  /** How far the seam turns there, degrees, 0..180. */
  readonly turn: number;
  readonly cost: Cost;
  /** Bent where straight ones are to be had: taken only where every other choice would leave a seam partly open. */
  readonly isLastResort: boolean;
}

interface Offer {
  readonly p: End;
  readonly q: End;
  readonly turn: number;
  /** Drawing order of the line both are of where it runs on from one to the other; null where none does. */
  readonly line: number | null;
}

/** Turns this small are the hand's and count as none, degrees. */
const STRAIGHT_ENOUGH = 5;

/** Turn from one end to the other, degrees: 0 where they are in line. */
const turnBetween = (a: Pt, b: Pt): number => (Math.atan2(Math.abs(cross(a, b)), -dot(a, b)) * 180) / Math.PI;

function passing(stretches: readonly StrandedStretch[], p: End, q: End): number | null {
  const [a, b] = [stretches[p >> 1]!, stretches[q >> 1]!];
  const runsOn = (from: End, to: End): boolean =>
    from % 2 === 1 && to % 2 === 0 && stretches[from >> 1]!.next === to >> 1;
  return a.run === b.run && (runsOn(p, q) || runsOn(q, p)) ? a.line.order : null;
}

function offersAt(
  stretches: readonly StrandedStretch[],
  ends: readonly End[],
  leaving: readonly Pt[],
): Offer[] {
  return ends.flatMap((p, i) =>
    ends.slice(i + 1).map((q, k): Offer => ({
      p,
      q,
      turn: turnBetween(leaving[i]!, leaving[i + 1 + k]!),
      line: passing(stretches, p, q),
    })),
  );
}

const isStraight = (o: Offer): boolean => o.turn <= SET_IN_TURN;

/**
 * Which offers stand. Where three ends meet and two are in line, the third ends on them (a T): that is not open to choice, least of all where a line
 * drawn in one go is met by another; only a line that meets itself may be sewn as a round and a stem instead. Where more meet, what
 * is in line may run through, and what is drawn so, set in; where two pairs are in line, any other bent seam is the last resort. With nothing in
 * line anything may run through, set in.
 */
function standing(
  offers: readonly Offer[],
  ends: readonly End[],
  stretches: readonly StrandedStretch[],
): readonly Offer[] {
  const straight = offers.filter(isStraight);
  if (straight.length === 0) return offers;
  if (ends.length === 3) {
    const drawn = straight.filter((o) => o.line !== null);
    const strands = new Set(ends.map((e) => stretches[e >> 1]!.strand)).size;
    if (strands < (drawn.length > 0 ? 2 : 3)) return offers;
    return drawn.length > 0 ? drawn : straight;
  }
  const isCrossing = straight.some((o) =>
    straight.some((r) => r.p !== o.p && r.p !== o.q && r.q !== o.p && r.q !== o.q),
  );
  return isCrossing ? offers : offers.filter((o) => isStraight(o) || o.line !== null);
}

/** Whether a seam through p and q leaves the line that should come later in parts that are sewn before it. */
function isAgainst(
  { earlier, later }: LineWish,
  { p, q }: Offer,
  ends: readonly End[],
  names: readonly string[],
): boolean {
  const isIn = (e: End, set: ReadonlySet<string>): boolean => set.has(names[ends.indexOf(e)]!);
  if (!isIn(p, earlier) && !isIn(q, earlier)) return false;
  return ends.some((e) => e !== p && e !== q && isIn(e, later));
}

/** The pairs of ends that may run through a junction, the best first. */
export function pairsAt(
  stretches: readonly StrandedStretch[],
  ends: readonly End[],
  leaving: readonly Pt[],
  wishes: readonly LineWish[],
): readonly ThroughPair[] {
  const all = offersAt(stretches, ends, leaving);
  const offers = standing(all, ends, stretches);
  const names = wishes.length > 0 ? ends.map((e) => lineName(stretches[e >> 1]!.line)) : [];
  const byLiking = offers.toSorted(
    (a, b) =>
      (a.line ?? Infinity) - (b.line ?? Infinity) || Math.min(a.p, a.q) - Math.min(b.p, b.q) || a.q - b.q,
  );
  const someStraight = offers.some(isStraight);
  return byLiking
    .map((o, liking): ThroughPair => {
      const { p, q, turn } = o;
      const against = wishes.filter((w) => isAgainst(w, o, ends, names)).length;
      const corners = isStraight(o) ? 0 : 1;
      const turning = Math.max(0, Math.round(turn - STRAIGHT_ENOUGH));
      const isLastResort = someStraight && corners > 0 && o.line === null;
      return { p, q, turn, cost: [0, against, 0, corners, turning, liking], isLastResort };
    })
    .sort((a, b) => compareCosts(a.cost, b.cost));
}
