import type { PanelledPiece } from '../../panels';
import type { OrderWish } from '../../pattern';
import type { Need, StepKey } from '../plan';
import type { SeamRun } from '../seamRun';
import { nameInKey, seamKey } from './lineWish';
import { runPlan } from './seamRuns';

/** Whether a seam can come before another, and what has to be wished for it. */
export type TurnedRound =
  /** All wishes, the new ones last; as given where nothing stands in the way. */
  | { readonly can: true; readonly wishes: readonly OrderWish[] }
  /**
   * What forbids it: `of` cannot be sewn before `need.key`. Where that is a crossing (`is crossed`), turning it round would leave a seam partly
   * open.
   */
  | { readonly can: false; readonly of: StepKey; readonly need: Need };

interface Link {
  readonly of: StepKey;
  readonly need: Need;
}

/** Plans made before a drag is given up. */
const TRIES = 24;

/** The run with this key; where its line is now sewn in one, that one. */
function runOf(key: StepKey, byKey: ReadonlyMap<StepKey, SeamRun>): SeamRun | undefined {
  const name = nameInKey(key);
  return byKey.get(key) ?? (name === null ? undefined : byKey.get(seamKey(name, 1)));
}

/** The shortest chain of needs by which one run waits for another; null if it does not. */
function waiting(runs: readonly SeamRun[], first: StepKey, last: StepKey): readonly Link[] | null {
  const byKey = new Map(runs.map((r) => [r.key, r] as const));
  const [from, to] = [runOf(first, byKey), runOf(last, byKey)];
  if (!from || !to || from === to) return null;
  const by = new Map<StepKey, Link>();
  const queue = [from];
  for (const run of queue) {
    for (const need of run.needs) {
      if (by.has(need.key)) continue;
      by.set(need.key, { of: run.key, need });
      const next = byKey.get(need.key);
      if (next) queue.push(next);
    }
  }
  const chain: Link[] = [];
  for (let link = by.get(to.key); link; link = link.of === from.key ? undefined : by.get(link.of))
    chain.unshift(link);
  return chain.length > 0 ? chain : null;
}

/** Whether a wish says about the lines of a link what turning it round would say. */
const isWished = (wishes: readonly OrderWish[], { of, need }: Link): boolean =>
  wishes.some((w) => nameInKey(w.earlier) === nameInKey(of) && nameInKey(w.later) === nameInKey(need.key));

/** A wish that says the opposite at the same crossings gives way. */
const withWish = (wishes: readonly OrderWish[], { of, need }: Link): readonly OrderWish[] => [
  ...wishes.filter(
    (w) => nameInKey(w.earlier) !== nameInKey(need.key) || nameInKey(w.later) !== nameInKey(of),
  ),
  { earlier: of, later: need.key },
];

const partlyOpen = (runs: readonly SeamRun[]): number => runs.filter((r) => r.openAt !== null).length;

/**
 * Whether `earlier` can be sewn before `later`: what runs through at the crossings between them is turned round as far as needed. Seams that end
 * on others stay before them, and no seam is left partly open for it. Keys of the plan for `wishes`.
 */
export function turnRound(
  piece: PanelledPiece,
  wishes: readonly OrderWish[],
  earlier: StepKey,
  later: StepKey,
): TurnedRound {
  let tries = 0;
  let forbids: Link | null = null;
  const mostOpen = partlyOpen(runPlan(piece, wishes).runs);
  const tryWith = (now: readonly OrderWish[]): readonly OrderWish[] | null => {
    tries += 1;
    const { runs } = runPlan(piece, now);
    if (partlyOpen(runs) > mostOpen) return null;
    const chain = waiting(runs, earlier, later);
    if (!chain) return now;
    forbids ??= chain.find((l) => l.need.because.kind !== 'is crossed') ?? chain[0]!;
    for (const link of chain) {
      if (link.need.because.kind !== 'is crossed' || isWished(now, link) || tries >= TRIES) continue;
      const found = tryWith(withWish(now, link));
      if (found) return found;
    }
    return null;
  };
  const found = tryWith(wishes);
  if (found) return { can: true, wishes: found };
  const { of, need } = forbids!;
  return { can: false, of, need };
}
