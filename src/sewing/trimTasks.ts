import type { PanelledPiece } from '../panels';
import type { OrderWish, Trim } from '../pattern';
import type { Need, StepKey } from './plan';
import type { SeamRun } from './seamRun';
import { type Reach, type Task, taskOf } from './task';
import { trimOrder } from './trimOrder';

/**
 * Trims of one piece as tasks, one to a strip: each is laid when the seams under it are sewn, before what is sewn along the outer edges
 * its ends reach, and in an order of trims that hides their raw ends (trimOrder.ts). The seams that catch ends must wait as well:
 * `trimsBeforeSeams`.
 * @param runs the piece's runs of seams in their usual order
 * @param wishes what the user wants earlier; followed among trims where it costs no raw end
 */
export function trimTasks(
  piece: PanelledPiece,
  runs: readonly SeamRun[],
  trims: readonly Trim[],
  wishes: readonly OrderWish[] = [],
): readonly Task[] {
  const { strips, needs } = trimOrder(piece, runs, trims, wishes);
  const place = new Map(runs.map((r, i) => [r.key, i] as const));
  return strips.map((strip, nth): Task => {
    const own = needs.get(strip.key) ?? [];
    return taskOf({
      key: strip.key,
      kind: 'trim',
      piece: piece.whole.piece.id,
      place: Math.max(-1, ...own.map((n) => place.get(n.key) ?? -1)) + 0.5 + nth / 10_000,
      needs: own,
      lines: [{ a: strip.panels, b: [] }],
      trim: strip.trim.id,
      reaches: strip.isClosed
        ? []
        : strip.ends.flatMap(({ edges, at }) => edges.map((edge): Reach => ({ edge, at }))),
      what: strip.trim.name,
    });
  });
}

/** Trims that must be laid before runs of seams, which catch their ends, by the run's key. */
export function trimsBeforeSeams(
  piece: PanelledPiece,
  runs: readonly SeamRun[],
  trims: readonly Trim[],
  wishes: readonly OrderWish[] = [],
): ReadonlyMap<StepKey, readonly Need[]> {
  const { needs } = trimOrder(piece, runs, trims, wishes);
  return new Map(runs.flatMap(({ key }) => (needs.has(key) ? [[key, needs.get(key)!] as const] : [])));
}
