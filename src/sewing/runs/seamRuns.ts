import { reversePath } from '../../geometry';
import type { LaidLine, PanelledPiece, SeamId, Stretch } from '../../panels';
import { type OrderWish, remember } from '../../pattern';
import type { Need, StepKey } from '../plan';
import type { SeamRun } from '../seamRun';
import { type Chosen, chooseThrough } from './chooseThrough';
import { lineName, seamKey } from './lineWish';
import { type SeamGraph, seamGraph } from './seamGraph';
import { type SeamItem, seamItems } from './seamItems';
import { setInCorners } from './setInCorners';
import type { Ending } from './trails';

const turnedRound = (s: Stretch): Stretch => ({
  ...s,
  a: s.b,
  b: s.a,
  from: s.to,
  to: s.from,
  path: reversePath(s.path),
});

/** The least numbered stretch: of the earliest line, the first along it. */
const firstOf = ({ ends }: Pick<SeamItem, 'ends'>): number =>
  ends.reduce((s, e) => Math.min(s, e >> 1), Infinity);

/** Stretches of an item end to end, in the direction of its earliest line. */
function stretchesOf(item: SeamItem, graph: SeamGraph): readonly Stretch[] {
  const first = firstOf(item);
  const isAgainst = item.ends.some((e) => e >> 1 === first && e % 2 === 1);
  const entries = isAgainst ? item.ends.map((e) => e ^ 1).reverse() : item.ends;
  const at = item.isClosed ? entries.findIndex((e) => e >> 1 === first) : 0;
  return [...entries.slice(at), ...entries.slice(0, at)].map((e) => {
    const { stretch } = graph.stretches[e >> 1]!;
    return e % 2 === 0 ? stretch : turnedRound(stretch);
  });
}

/** Keys of all items: by the earliest line, counted along it. */
function keysOf(items: readonly SeamItem[], graph: SeamGraph): ReadonlyMap<SeamItem, StepKey> {
  const counts = new Map<string, number>();
  const inOrder = items.toSorted((p, q) => firstOf(p) - firstOf(q));
  return new Map(
    inOrder.map((item) => {
      const name = lineName(graph.stretches[firstOf(item)]!.line);
      const k = (counts.get(name) ?? 0) + 1;
      counts.set(name, k);
      return [item, seamKey(name, k)] as const;
    }),
  );
}

/** Whether an end that meets a seam could run through itself: then it is a choice which is sewn first. */
function isChoice({ end, junction }: Ending, graph: SeamGraph): boolean {
  return graph.junctions[junction]!.pairs.some((o) => !o.isLastResort && (o.p === end || o.q === end));
}

function needsOf(
  item: SeamItem,
  graph: SeamGraph,
  itemOfStretch: readonly SeamItem[],
  keys: ReadonlyMap<SeamItem, StepKey>,
): readonly Need[] {
  const begun = item.begun.map((b): Need => ({
    key: keys.get(b)!,
    because: { kind: 'begun there', at: graph.junctions[b.openAt!]!.at },
  }));
  const met = item.met.map((e): Need => ({
    key: keys.get(itemOfStretch[e.end >> 1]!)!,
    because: { kind: isChoice(e, graph) ? 'is crossed' : 'ends on it', at: graph.junctions[e.junction]!.at },
  }));
  const seen = new Set<string>();
  return [...begun, ...met].filter(({ key, because }) => {
    const name = `${key}/${because.kind}`;
    if (key === keys.get(item) || seen.has(name)) return false;
    seen.add(name);
    return true;
  });
}

/** Items so that each comes after all that ends on it; among those that may come next, the latest drawn line first. */
function inSewingOrder(items: readonly SeamItem[], itemOfStretch: readonly SeamItem[]): readonly SeamItem[] {
  const before = new Map<SeamItem, Set<SeamItem>>();
  const after = new Map<SeamItem, SeamItem[]>();
  for (const item of items) {
    const first = new Set([...item.begun, ...item.met.map((e) => itemOfStretch[e.end >> 1]!)]);
    first.delete(item);
    before.set(item, first);
    for (const f of first) after.set(f, [...(after.get(f) ?? []), item]);
  }
  const ready = items.filter((i) => before.get(i)!.size === 0).sort((p, q) => firstOf(p) - firstOf(q));
  const done: SeamItem[] = [];
  for (let next = ready.pop(); next; next = ready.pop()) {
    done.push(next);
    for (const later of after.get(next) ?? []) {
      before.get(later)!.delete(next);
      if (before.get(later)!.size > 0) continue;
      const first = firstOf(later);
      const at = ready.findIndex((r) => firstOf(r) > first);
      ready.splice(at < 0 ? ready.length : at, 0, later);
    }
  }
  return done.length === items.length ? done : [...done, ...items.filter((i) => !done.includes(i))];
}

const linesOf = (item: SeamItem, graph: SeamGraph): readonly LaidLine[] =>
  [...new Set(item.ends.map((e) => e >> 1).sort((a, b) => a - b))]
    .map((s) => graph.stretches[s]!.line)
    .filter((line, i, all) => all.indexOf(line) === i);

/** What is sewn of one piece, and how it was chosen. */
export interface RunPlan {
  readonly graph: SeamGraph;
  readonly chosen: Chosen;
  readonly runs: readonly SeamRun[];
}

/** The runs with the choice behind them. */
export const runPlan = remember((piece: PanelledPiece, wishes: readonly OrderWish[]): RunPlan => {
  const graph = seamGraph(piece, wishes);
  const chosen = chooseThrough(graph);
  const items = seamItems(graph, chosen);
  const itemOfStretch: SeamItem[] = [];
  for (const item of items) for (const e of item.ends) itemOfStretch[e >> 1] = item;
  const keys = keysOf(items, graph);
  const listed = new Set<SeamId>();
  const runs = inSewingOrder(items, itemOfStretch).map((item): SeamRun => {
    const stretches = stretchesOf(item, graph);
    const lines = linesOf(item, graph);
    const seams = [...new Set(stretches.map((s) => s.seam))].filter((id) => !listed.has(id));
    for (const id of seams) listed.add(id);
    const isPart = item.openAt !== null || item.begun.length > 0;
    return {
      key: keys.get(item)!,
      kind: isPart ? 'partial seam' : 'seam',
      lines,
      order: lines[0]!.order,
      stretches,
      seams,
      isClosed: item.isClosed,
      corners: setInCorners(stretches, item.isClosed),
      openAt: item.openAt === null ? null : graph.junctions[item.openAt]!.node,
      finishes: item.begun[0] ? keys.get(item.begun[0])! : null,
      needs: needsOf(item, graph, itemOfStretch, keys),
    };
  });
  return { graph, chosen, runs };
});

/**
 * The seams of one piece as they are sewn, each after all it needs. A line that ends on another is sewn before it; where lines cross, one runs
 * through and the other is sewn in parts before it, chosen so that no seam has to be left partly open if that can be avoided, then as the
 * wishes say, with the fewest seams, the fewest corners set in and the straightest runs, earlier drawn lines rather running through. Where
 * lines end on each other in a ring, one is begun, left open and finished later. Which choice is best is proved for small
 * drawings; for large ones the search is broken off after some milliseconds and the best found so far settled. Remembered by
 * piece and wishes.
 */
export const seamRuns = (piece: PanelledPiece, wishes: readonly OrderWish[] = []): readonly SeamRun[] =>
  runPlan(piece, wishes).runs;
