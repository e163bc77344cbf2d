import { type Cost, NO_COST, compareCosts, minus, plus } from './cost';
import { COST_OF_ROUND, type Conflict, conflictsOf, costOfCut } from './conflicts';
import type { End, SeamGraph } from './seamGraph';
import { type Trails, followTrails } from './trails';

/** What runs through at each junction, and which trails are begun before they can be sewn whole. */
export interface Chosen {
  readonly trails: Trails;
  /** Index into `Junction.pairs` by junction. */
  readonly pair: (junction: number) => number;
  /** Ends at which a trail is begun as a partial seam. */
  readonly cuts: ReadonlySet<End>;
  /** Whether no better choice exists; false where the search was broken off. */
  readonly isProven: boolean;
}

/** Stretches looked at before the search is broken off: some milliseconds. */
const PATIENCE = 40_000;

/** A set of choices: what is still allowed at junctions that differ from "anything", and at which ends seams are begun. */
interface State {
  readonly allowed: ReadonlyMap<number, readonly number[]>;
  readonly cuts: ReadonlySet<End>;
  readonly uncut: ReadonlySet<End>;
}

interface Looked extends State {
  readonly trails: Trails;
  readonly conflicts: readonly WeighedConflict[];
  /** No choice of the set costs less. */
  readonly bound: Cost;
}

type Way =
  | { readonly kind: 'turn'; readonly junction: number; readonly cost: Cost }
  | { readonly kind: 'cut'; readonly end: End; readonly cost: Cost }
  | { readonly kind: 'let be'; readonly cost: Cost };

interface WeighedConflict {
  readonly conflict: Conflict;
  readonly ways: readonly Way[];
  readonly least: Cost;
}

class Search {
  readonly #graph: SeamGraph;
  readonly #any: readonly (readonly number[])[];
  #looked = 0;

  constructor(graph: SeamGraph) {
    this.#graph = graph;
    this.#any = graph.junctions.map((j) => j.pairs.map((_, i) => i));
  }

  get isSpent(): boolean {
    return this.#looked > PATIENCE;
  }

  #allowedAt(state: State, j: number): readonly number[] {
    return state.allowed.get(j) ?? this.#any[j]!;
  }

  #costAt(j: number, pair: number): Cost {
    return this.#graph.junctions[j]!.pairs[pair]!.cost;
  }

  /** The ways out of a conflict: another pair at a junction, a seam begun at an end, or letting a closed seam be. */
  #weigh(conflict: Conflict, state: State): WeighedConflict {
    const turns = conflict.junctions.flatMap((junction): Way[] => {
      const [now, next] = this.#allowedAt(state, junction);
      if (now === undefined || next === undefined) return [];
      return [
        { kind: 'turn', junction, cost: minus(this.#costAt(junction, next), this.#costAt(junction, now)) },
      ];
    });
    const cuts = conflict.cuts
      .filter((end) => !state.uncut.has(end))
      .map((end): Way => ({ kind: 'cut', end, cost: costOfCut(end, this.#graph) }));
    const letBe: Way[] = conflict.kind === 'round' ? [{ kind: 'let be', cost: COST_OF_ROUND }] : [];
    const ways = [...turns, ...cuts, ...letBe].sort((a, b) => compareCosts(a.cost, b.cost));
    return { conflict, ways, least: ways[0]?.cost ?? NO_COST };
  }

  /** The best choice of the set if nothing stood in its way, and what stands in its way. */
  look(state: State): Looked {
    this.#looked += this.#graph.stretches.length;
    const trails = followTrails(this.#graph, (j) => state.allowed.get(j)?.[0] ?? 0);
    const all = conflictsOf(this.#graph, trails, state.cuts).map((c) => this.#weigh(c, state));
    let bound = NO_COST;
    for (const [j, allowed] of state.allowed)
      bound = plus(bound, minus(this.#costAt(j, allowed[0]!), this.#costAt(j, 0)));
    for (const end of state.cuts) bound = plus(bound, costOfCut(end, this.#graph));
    const conflicts: WeighedConflict[] = [];
    const [junctions, ends] = [new Set<number>(), new Set<End>()];
    for (const weighed of all) {
      const { conflict: c, ways, least } = weighed;
      const isLetBe = c.kind === 'round' && ways.length === 1;
      if (!isLetBe) conflicts.push(weighed);
      // Conflicts that have nothing in common each cost their cheapest way at least.
      if (c.junctions.some((j) => junctions.has(j)) || c.cuts.some((e) => ends.has(e))) continue;
      for (const j of c.junctions) junctions.add(j);
      for (const e of c.cuts) ends.add(e);
      bound = plus(bound, least);
    }
    return { ...state, trails, conflicts, bound };
  }

  /** Whether a way can still be taken after others were. */
  #isOpenTo(state: State, way: Way): boolean {
    return way.kind !== 'turn' || this.#allowedAt(state, way.junction).length > 1;
  }

  #taken(state: State, way: Way): State {
    if (way.kind === 'cut') return { ...state, cuts: new Set([...state.cuts, way.end]) };
    if (way.kind === 'let be') return state;
    const allowed = this.#allowedAt(state, way.junction).slice(1);
    return { ...state, allowed: new Map([...state.allowed, [way.junction, allowed]]) };
  }

  #refused(state: State, way: Way): State {
    if (way.kind === 'cut') return { ...state, uncut: new Set([...state.uncut, way.end]) };
    if (way.kind === 'let be') return state;
    const [now] = this.#allowedAt(state, way.junction);
    return { ...state, allowed: new Map([...state.allowed, [way.junction, [now!]]]) };
  }

  /** Part a set of choices by the ways out of one conflict; no choice is lost but those that keep the conflict. */
  parted(state: Looked): Looked[] {
    const [conflict] = state.conflicts.toSorted(
      (a, b) => compareCosts(b.least, a.least) || a.ways.length - b.ways.length,
    );
    let rest: State = state;
    const parts: Looked[] = [];
    for (const way of conflict!.ways) {
      if (this.isSpent) break;
      parts.push(this.look(this.#taken(rest, way)));
      rest = this.#refused(rest, way);
    }
    return parts;
  }

  /** Out of every conflict the cheapest way, or by beginning a seam where that is asked, again and again: quick, not the best. */
  settled(from: State, byBeginning: boolean): Looked {
    let now = this.look({ ...from, uncut: new Set() });
    for (let round = 0; now.conflicts.length > 0 && round < ROUNDS; round += 1) {
      let next: State = now;
      for (const { ways } of now.conflicts) {
        const way = (byBeginning ? ways.find((w) => w.kind === 'cut') : null) ?? ways[0];
        if (way && this.#isOpenTo(next, way)) next = this.#taken(next, way);
      }
      now = this.look(next);
    }
    return now;
  }
}

/** Times every conflict is settled before what is found is taken as it is. */
const ROUNDS = 40;

/** Below 0 where a is more promising: no dearer, then nearer to an answer. */
const comparePromise = (a: Looked, b: Looked): number =>
  compareCosts(a.bound, b.bound) || a.conflicts.length - b.conflicts.length;

/** Parts by promise: the most promising is taken first. A binary heap. */
class OpenParts {
  readonly #parts: Looked[] = [];

  add(part: Looked): void {
    const parts = this.#parts;
    let at = parts.push(part) - 1;
    for (let up = (at - 1) >> 1; at > 0 && comparePromise(part, parts[up]!) < 0; up = (at - 1) >> 1) {
      parts[at] = parts[up]!;
      at = up;
    }
    parts[at] = part;
  }

  take(): Looked | undefined {
    const parts = this.#parts;
    const [first] = parts;
    const last = parts.pop();
    if (!last || last === first) return first;
    let at = 0;
    for (let down = 1; down < parts.length; down = 2 * at + 1) {
      if (down + 1 < parts.length && comparePromise(parts[down + 1]!, parts[down]!) < 0) down += 1;
      if (comparePromise(last, parts[down]!) <= 0) break;
      parts[at] = parts[down]!;
      at = down;
    }
    parts[at] = last;
    return first;
  }
}

/** The best of some quick answers: with no fault if there is one, then the cheapest. */
function quickest(search: Search, from: readonly State[]): Looked {
  const answers = from.flatMap((s) => [search.settled(s, false), search.settled(s, true)]);
  return answers.reduce((a, b) => {
    const less = Number(b.conflicts.length > 0) - Number(a.conflicts.length > 0);
    return (less || compareCosts(b.bound, a.bound)) < 0 ? b : a;
  });
}

/** Take back every cut without which the seams still have an order. */
function neededCuts(graph: SeamGraph, { trails, cuts }: Looked): ReadonlySet<End> {
  let needed = cuts;
  for (const end of cuts) {
    const without = new Set([...needed].filter((e) => e !== end));
    if (conflictsOf(graph, trails, without).every((c) => c.kind === 'round')) needed = without;
  }
  return needed;
}

/**
 * Choose what runs through at each junction: the cheapest choice by `Cost` in which the seams have an order, seams left partly open counted.
 * Best first: the straightest choice everywhere is looked at first and is nearly always the answer. A choice with a fault is parted by the
 * ways out of it, each part with a bound no choice in it can beat, so the first without a fault is the best there is. When the patience is spent,
 * the most promising part is settled by the cheapest ways out.
 */
export function chooseThrough(graph: SeamGraph): Chosen {
  const search = new Search(graph);
  const start: State = { allowed: new Map(), cuts: new Set(), uncut: new Set() };
  const open = new OpenParts();
  let best: Looked | undefined = search.look(start);
  while (best && best.conflicts.length > 0 && !search.isSpent) {
    for (const part of search.parted(best)) open.add(part);
    best = open.take();
  }
  const isProven = best !== undefined && best.conflicts.length === 0;
  const found = best && isProven ? best : quickest(search, [best ?? start, start]);
  const pair = (j: number): number => found.allowed.get(j)?.[0] ?? 0;
  return { trails: found.trails, pair, cuts: neededCuts(graph, found), isProven };
}
