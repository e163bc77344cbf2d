import { fillSteps, restOf } from './fillCloths';
import type { Fill, FillOrder } from './fillCloths';
import { compareScores, scoreOf } from './fillScore';
import type { FillScore } from './fillScore';
import type { FillSpace } from './fillSpace';

/** A fill and what it is worth. */
export interface ScoredFill {
  readonly fill: Fill;
  readonly score: FillScore;
}

interface Tried extends ScoredFill {
  readonly order: FillOrder;
  readonly trail: readonly Fill[];
}

/** Fills with unlike rests that are kept for a closer look. */
const MOST_KEPT = 5;

/** Orders tried in vain, for each piece and cloth, before it is given up. */
const PATIENCE = 12;

/** The best fills so far, one per set of pieces left over. */
class Kept {
  private readonly byRest = new Map<string, ScoredFill>();

  offer(space: FillSpace, { fill, score }: ScoredFill): void {
    const rest = restOf(space, fill).join();
    const known = this.byRest.get(rest);
    if (known && compareScores(known.score, score) <= 0) return;
    this.byRest.set(rest, { fill, score });
    const worst = this.best().slice(MOST_KEPT);
    for (const [key, kept] of this.byRest) if (worst.includes(kept)) this.byRest.delete(key);
  }

  best(): ScoredFill[] {
    return [...this.byRest.values()].sort((a, b) => compareScores(a.score, b.score));
  }
}

function swapped(list: readonly number[], i: number, j: number): number[] {
  const out = [...list];
  [out[i], out[j]] = [out[j]!, out[i]!];
  return out;
}

const indexIn = (length: number, random: () => number): number => Math.floor(random() * length);

/** Another order like the given one: two pieces or two cloths change places, or a piece left over comes first. */
function likeOrder({ pieces, cloths }: FillOrder, rest: readonly number[], random: () => number): FillOrder {
  const which = random();
  if (cloths.length > 1 && which < 0.25)
    return {
      pieces,
      cloths: swapped(cloths, indexIn(cloths.length, random), indexIn(cloths.length, random)),
    };
  if (rest.length > 0 && which < 0.5) {
    const piece = rest[indexIn(rest.length, random)]!;
    const others = pieces.filter((p) => p !== piece);
    const at = indexIn(pieces.length, random);
    return { pieces: [...others.slice(0, at), piece, ...others.slice(at)], cloths };
  }
  return { pieces: swapped(pieces, indexIn(pieces.length, random), indexIn(pieces.length, random)), cloths };
}

/** How much of a trail still holds for another order. */
function knownTrail({ order, trail }: Tried, next: FillOrder): readonly Fill[] {
  if (next.cloths.some((c, i) => c !== order.cloths[i])) return [];
  const first = next.pieces.findIndex((p, i) => p !== order.pieces[i]);
  return first < 0 ? trail : trail.slice(0, first + 1);
}

/**
 * Look for good ways to lay pieces on one's own cloths: the largest on the smallest cloth they fit, then other orders.
 * @param movable pieces that may lie there
 * @param density of the bought cloth's first plan, 0..1
 * @param until   when space.meter.work has come this far it ends; the first order is always laid
 * @returns the best fills with unlike rests, best first. Yields after each piece laid.
 */
export function* searchFills(
  space: FillSpace,
  movable: readonly number[],
  density: number,
  random: () => number,
  until: number,
): Generator<void, readonly ScoredFill[]> {
  const kept = new Kept();
  const first: FillOrder = {
    pieces: [...movable].sort((i, j) => space.areaOf(j) - space.areaOf(i) || i - j),
    cloths: space.cloths
      .map((_, c) => c)
      .sort((a, b) => space.cloths[a]!.area - space.cloths[b]!.area || a - b),
  };
  function* tried(order: FillOrder, known: readonly Fill[]): Generator<void, Tried> {
    const trail = yield* fillSteps(space, order, known);
    const fill = trail.at(-1)!;
    return { order, trail, fill, score: scoreOf(space, fill, density) };
  }
  let now = yield* tried(first, []);
  kept.offer(space, now);
  let best = now;
  const patience = PATIENCE * (movable.length + space.cloths.length);
  for (let vain = 0; vain < patience && space.meter.work < until; vain += 1) {
    const rest = restOf(space, now.fill).filter((p) => movable.includes(p));
    const order = likeOrder(now.order, rest, random);
    const next = yield* tried(order, knownTrail(now, order));
    kept.offer(space, next);
    if (compareScores(next.score, now.score) <= 0) now = next;
    if (compareScores(next.score, best.score) < 0) {
      best = next;
      vain = 0;
    }
  }
  return kept.best();
}
