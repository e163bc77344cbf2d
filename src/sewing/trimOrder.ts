import type { PanelledPiece, SeamId } from '../panels';
import { type OrderWish, type Trim, remember } from '../pattern';
import type { Need, StepKey } from './plan';
import type { SeamRun } from './seamRun';
import { coversOf, endsAt } from './trimEndings';
import { type SewnOrder, type TrimStrip } from './trimStrip';
import { trimStrips } from './trimStrips';

/** The strips of a piece with what must be done before each, and before the seams that catch their ends. */
export interface TrimOrder {
  readonly strips: readonly TrimStrip[];
  readonly needs: ReadonlyMap<StepKey, readonly Need[]>;
}

/** A way to hide one end. `after` comes after `before`. */
interface Choice {
  readonly before: StepKey;
  readonly after: StepKey;
  readonly cost: number;
}

/** An end inside the piece. The choices stand by cost. */
interface Ending {
  readonly at: Need['because']['at'];
  readonly choices: readonly Choice[];
}

/** A raw end outweighs everything, then an end that has to be tucked under what is laid already, then what was wished for. */
const RAW = 1_000_000;
const TUCKED = 1000;
const UNWISHED = 10;
/** Of two trims the one listed first is laid first, if nothing else tells. */
const OUT_OF_LIST = 0.001;
/** Ways tried before the best one found so far is taken. */
const MOST_TRIED = 4000;

/** What is known to come before what: seams by their needs, strips by the seams under them, ends by what hides them. */
class Before {
  readonly #after = new Map<StepKey, Set<StepKey>>();

  add(before: StepKey, after: StepKey): void {
    const known = this.#after.get(before) ?? new Set();
    this.#after.set(before, known.add(after));
  }

  remove(before: StepKey, after: StepKey): void {
    this.#after.get(before)?.delete(after);
  }

  has(before: StepKey, after: StepKey): boolean {
    return this.#after.get(before)?.has(after) ?? false;
  }

  leadsTo(from: StepKey, to: StepKey): boolean {
    const seen = new Set([from]);
    const waiting = [from];
    for (let key = waiting.pop(); key !== undefined; key = waiting.pop()) {
      if (key === to) return true;
      for (const next of this.#after.get(key) ?? []) {
        if (seen.has(next)) continue;
        seen.add(next);
        waiting.push(next);
      }
    }
    return false;
  }
}

/** The order of seams as far as their needs tell it. */
function orderOfRuns(runs: readonly SeamRun[]): SewnOrder & { readonly before: Before } {
  const runsOf = new Map<SeamId, StepKey[]>();
  for (const r of runs) for (const s of r.seams) runsOf.set(s, [...(runsOf.get(s) ?? []), r.key]);
  const before = new Before();
  for (const r of runs) for (const n of r.needs) before.add(n.key, r.key);
  return {
    before,
    runOf: (seam) => runsOf.get(seam)?.at(-1),
    isBefore: (earlier, later) => {
      const [a, b] = [runsOf.get(earlier)?.at(-1), runsOf.get(later)?.at(-1)];
      return a !== undefined && b !== undefined && a !== b && before.leadsTo(a, b);
    },
  };
}

/** What the ends of strips may be hidden by, in the order in which they are decided: those with the least choice first. */
function endingsOf(
  strips: readonly TrimStrip[],
  piece: PanelledPiece,
  order: SewnOrder,
  wishes: readonly OrderWish[],
): Ending[] {
  const rank = new Map(strips.map((s, i) => [s.key, i] as const));
  const isAgainst = (before: StepKey, after: StepKey): boolean =>
    wishes.some((w) => w.earlier === after && w.later === before);
  const costOf = (before: StepKey, after: StepKey): number =>
    (isAgainst(before, after) ? UNWISHED : 0) + (rank.get(before)! > rank.get(after)! ? OUT_OF_LIST : 0);
  const endings = strips
    .filter((s) => !s.isClosed)
    .flatMap((strip) =>
      strip.ends
        .filter((e) => e.edges.length === 0)
        .map((end): Ending => {
          const covers = coversOf(strip, end, strips, piece, order);
          const seams = [...new Set(covers.seams.map((x) => order.runOf(x) as StepKey | undefined))];
          const over = covers.strips.flatMap((t): Choice[] => [
            { before: strip.key, after: t.key, cost: costOf(strip.key, t.key) },
            ...(endsAt(t, end.at)
              ? []
              : [{ before: t.key, after: strip.key, cost: TUCKED + costOf(t.key, strip.key) }]),
          ]);
          const caught = seams.flatMap((run): Choice[] =>
            run === undefined ? [] : [{ before: strip.key, after: run, cost: 0 }],
          );
          return { at: end.at, choices: [...caught, ...over].sort((a, b) => a.cost - b.cost) };
        }),
    );
  return endings.sort((a, b) => a.choices.length - b.choices.length);
}

/** Choose a way for each end so that the fewest stay raw. The best of all where few hang together, else a good one. */
function choose(endings: readonly Ending[], before: Before): readonly (Choice | null)[] {
  const least = endings.map((e) => e.choices[0]?.cost ?? RAW);
  const rest = least.map((_, i) => least.slice(i).reduce((sum, c) => sum + c, 0));
  let best: { cost: number; taken: readonly (Choice | null)[] } = { cost: Infinity, taken: [] };
  let tried = 0;
  const taken: (Choice | null)[] = [];
  const goOn = (i: number, cost: number): void => {
    if (cost + (rest[i] ?? 0) >= best.cost || (tried > MOST_TRIED && best.cost < Infinity)) return;
    const ending = endings[i];
    if (!ending) {
      best = { cost, taken: [...taken] };
      return;
    }
    tried += 1;
    for (const choice of ending.choices) {
      if (before.leadsTo(choice.after, choice.before)) continue;
      const isNew = !before.has(choice.before, choice.after);
      if (isNew) before.add(choice.before, choice.after);
      taken.push(choice);
      goOn(i + 1, cost + choice.cost);
      taken.pop();
      if (isNew) before.remove(choice.before, choice.after);
    }
    taken.push(null);
    goOn(i + 1, cost + RAW);
    taken.pop();
  };
  goOn(0, 0);
  return best.taken;
}

/**
 * The order of trims on one piece: each is laid when the seams under it are sewn, before the seams and trims that hide its ends. Where
 * trims end on each other in a ring, one is tucked under what is laid already. Chosen so that the fewest raw ends are left.
 */
export const trimOrder = remember(
  (
    piece: PanelledPiece,
    runs: readonly SeamRun[],
    trims: readonly Trim[],
    wishes: readonly OrderWish[],
  ): TrimOrder => {
    const order = orderOfRuns(runs);
    const strips = trimStrips(piece, trims, order);
    const needs = new Map<StepKey, Need[]>();
    const note = (key: StepKey, need: Need): void => {
      const own = needs.get(key) ?? [];
      if (!own.some((n) => n.key === need.key)) needs.set(key, [...own, need]);
    };
    for (const strip of strips)
      for (const r of runs.filter(({ seams }) => seams.some((s) => strip.seams.includes(s)))) {
        order.before.add(r.key, strip.key);
        note(strip.key, { key: r.key, because: { kind: 'lies on it', at: null } });
      }
    const endings = endingsOf(strips, piece, order, wishes);
    choose(endings, order.before).forEach((choice, i) => {
      if (choice)
        note(choice.after, { key: choice.before, because: { kind: 'end is caught', at: endings[i]!.at } });
    });
    return { strips, needs };
  },
);
