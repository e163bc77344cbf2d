import { type Cost, NO_COST, compareCosts, minus, plus } from './cost';
import { COST_OF_CUT, COST_OF_ROUND, type Conflict, conflictsOf } from './conflicts';
import { regionsWith } from './regions';
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
const PATIENCE = 20_000;

/** A set of choices: what is still allowed at junctions that differ from "anything", and at which ends seams are begun. */
interface State {
  readonly allowed: ReadonlyMap<number, readonly number[]>;
  readonly cuts: ReadonlySet<End>;
  readonly uncut: ReadonlySet<End>;
}

const ANYTHING: State = { allowed: new Map(), cuts: new Set(), uncut: new Set() };

interface Looked extends State {
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

  /** Drawing order of the line a seam would be begun on: the later one rather, as the earlier is more likely wanted whole. */
  #orderOf(way: Way): number {
    return way.kind === 'cut' ? this.#graph.stretches[way.end >> 1]!.line.order : 0;
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
      .map((end): Way => ({ kind: 'cut', end, cost: COST_OF_CUT }))
      .sort((a, b) => this.#orderOf(b) - this.#orderOf(a));
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
    for (let cuts = state.cuts.size; cuts > 0; cuts -= 1) bound = plus(bound, COST_OF_CUT);
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
    return { ...state, conflicts, bound };
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
function neededCuts(graph: SeamGraph, trails: Trails, cuts: ReadonlySet<End>): ReadonlySet<End> {
  let needed = cuts;
  for (const end of cuts) {
    const without = new Set([...needed].filter((e) => e !== end));
    if (conflictsOf(graph, trails, without).every((c) => c.kind === 'round')) needed = without;
  }
  return needed;
}

/** Best first: the part of all choices that promises most is parted on, until one has no fault: there is none better. */
function searched(graph: SeamGraph): { readonly found: Looked; readonly isProven: boolean } {
  const search = new Search(graph);
  const open = new OpenParts();
  let best: Looked | undefined = search.look(ANYTHING);
  while (best && best.conflicts.length > 0 && !search.isSpent) {
    for (const part of search.parted(best)) open.add(part);
    best = open.take();
  }
  if (best?.conflicts.length === 0) return { found: best, isProven: true };
  return { found: quickest(search, [best ?? ANYTHING, ANYTHING]), isProven: false };
}

/**
 * Choose what runs through at each junction: the cheapest choice by `Cost` in which the seams have an order, seams left partly open counted.
 * The straightest choice everywhere is looked at first and is nearly always the answer. Where it has a fault, the region about the fault
 * is searched: a set of choices is parted by the ways out of a fault, each part with a bound no choice in it can beat. When the patience is
 * spent, the most promising part is settled by the cheapest ways out.
 */
export function chooseThrough(graph: SeamGraph): Chosen {
  const straight = followTrails(graph, () => 0);
  const faults = conflictsOf(graph, straight, new Set());
  if (faults.length === 0) return { trails: straight, pair: () => 0, cuts: new Set(), isProven: true };
  const chosen = new Map<number, number>();
  const cuts = new Set<End>();
  let isProven = true;
  const places = new Set(faults.map((f) => graph.junctions[f.junctions[0]!]!.pairs[0]!.p >> 1));
  for (const region of regionsWith(graph, places)) {
    const { found, isProven: isBest } = searched(region.graph);
    isProven &&= isBest;
    for (const [j, allowed] of found.allowed) chosen.set(region.junctions[j]!, allowed[0]!);
    for (const e of found.cuts) cuts.add(2 * region.stretches[e >> 1]! + (e % 2));
  }
  const pair = (j: number): number => chosen.get(j) ?? 0;
  const trails = followTrails(graph, pair);
  return { trails, pair, cuts: neededCuts(graph, trails, cuts), isProven };
}
