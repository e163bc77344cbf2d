import type { OrderWish } from '../pattern';
import type { SewingPlan, Step, StepKey } from './plan';
import { type PlanGround, planSewing } from './planSewing';
import { turnRound } from './runs';
import type { Waits } from './sayNeed';

/** What becomes of a step dragged to another place. */
export type Moved =
  /** All wishes, for the design. */
  | { readonly ok: true; readonly wishes: readonly OrderWish[] }
  /** The steps that wait for each other, from the one that would come too early. */
  | { readonly ok: false; readonly why: readonly Waits[] };

type Steps = Pick<SewingPlan, 'steps'>;

/** The shortest chain of needs by which one step waits for another; empty if it does not. */
function waitsFor({ steps }: Steps, later: StepKey, first: StepKey): readonly Waits[] {
  const byKey = new Map(steps.map((s) => [s.key, s] as const));
  const by = new Map<StepKey, Waits>();
  const queue: StepKey[] = [later];
  for (const key of queue)
    for (const need of byKey.get(key)?.needs ?? []) {
      if (by.has(need.key) || need.key === later) continue;
      by.set(need.key, { of: key, need });
      queue.push(need.key);
    }
  const chain: Waits[] = [];
  for (let link = by.get(first); link; link = link.of === later ? undefined : by.get(link.of))
    chain.unshift(link);
  return chain;
}

/** Which steps have to come before which so that one lies right before another (last of all: null). */
function pairsFor({ steps }: Steps, key: StepKey, before: StepKey | null): readonly OrderWish[] {
  const from = steps.findIndex((s) => s.key === key);
  const to = before === null ? steps.length : steps.findIndex((s) => s.key === before);
  if (from < 0 || to < 0) return [];
  if (to < from) return [{ earlier: key, later: steps[to]!.key }];
  const passed = steps.slice(from + 1, to);
  // what another passed step waits for comes before it anyway
  const isImplied = (s: Step): boolean =>
    passed.some((p) => p !== s && waitsFor({ steps }, p.key, s.key).length > 0);
  return passed.filter((s) => !isImplied(s)).map((s) => ({ earlier: s.key, later: key }));
}

const isSame = (p: OrderWish, q: OrderWish): boolean => p.earlier === q.earlier && p.later === q.later;
const isOpposite = (p: OrderWish, q: OrderWish): boolean => p.earlier === q.later && p.later === q.earlier;

/** Place of a step by key; of a line that is sewn in one now, that of its only seam. */
function placeOf({ steps }: Steps, key: StepKey): number {
  const place = steps.findIndex((s) => s.key === key);
  return place >= 0 ? place : steps.findIndex((s) => s.key === key.replace(/ #\d+$/, ''));
}

/** Wishes with one more; what runs through where two seams of a piece cross is turned round for it. */
function withPair(
  ground: PlanGround,
  { steps }: Steps,
  wishes: readonly OrderWish[],
  pair: OrderWish,
): readonly OrderWish[] | Waits {
  const [earlier, later] = [pair.earlier, pair.later].map((k) => steps.find((s) => s.key === k)!) as [
    Step,
    Step,
  ];
  const isSeam = (s: Step): boolean => s.kind === 'seam' || s.kind === 'partial seam';
  const piece = ground.pieces.find((p) => p.whole.piece.id === earlier.piece);
  if (!piece || earlier.piece !== later.piece || !isSeam(earlier) || !isSeam(later)) return [...wishes, pair];
  const turned = turnRound(piece, wishes, pair.earlier, pair.later);
  return turned.can ? [...turned.wishes, pair] : { of: turned.of, need: turned.need };
}

const withWishes = (ground: PlanGround, order: readonly OrderWish[]): ReturnType<typeof planSewing> =>
  planSewing({ ...ground, design: { ...ground.design, sewing: { ...ground.design.sewing, order } } });

/**
 * Drag a step to right before another, or to the end. What it needs comes along; older wishes that contradict it are dropped.
 * @returns the wishes to keep with the design, or why it cannot be
 */
export function moveStep(ground: PlanGround, key: StepKey, before: StepKey | null): Moved {
  const { plan } = planSewing(ground);
  const old = ground.design.sewing.order;
  const pairs = pairsFor(plan, key, before).filter((p) => p.earlier !== p.later);
  let wishes: readonly OrderWish[] = old.filter((w) => !pairs.some((p) => isSame(w, p) || isOpposite(w, p)));
  for (const pair of pairs) {
    const next = withPair(ground, plan, wishes, pair);
    if ('need' in next) return { ok: false, why: [next] };
    wishes = next;
  }
  if (pairs.length === 0) return { ok: true, wishes: old };
  let planned = withWishes(ground, wishes);
  const isBefore = (earlier: StepKey, later: StepKey): boolean =>
    placeOf(planned.plan, earlier) < placeOf(planned.plan, later);
  if (before !== null && !isBefore(key, before)) {
    // it lay there only because of a wish that is dropped now
    wishes = [...wishes, { earlier: key, later: before }];
    planned = withWishes(ground, wishes);
  }
  const broken = pairs.find((p) => !isBefore(p.earlier, p.later));
  if (broken) return { ok: false, why: waitsFor(plan, broken.earlier, broken.later) };
  return { ok: true, wishes: wishes.filter((w) => !planned.refused.includes(w)) };
}
