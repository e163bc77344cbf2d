import type { Chosen } from './chooseThrough';
import { type End, type SeamGraph, otherEnd } from './seamGraph';
import type { Ending, Trail } from './trails';

/** A trail, or the part of one that is sewn in one go: begun as a partial seam, or what is left to be finished. */
export interface SeamItem {
  readonly trail: number;
  /** Stretches by the ends at which they are entered. */
  readonly ends: readonly End[];
  readonly isClosed: boolean;
  /** The junction at which a begun seam is left open; null for all else. */
  readonly openAt: number | null;
  /** The begun parts of the same trail, for the part that finishes them. */
  readonly begun: readonly SeamItem[];
  /** Endings on it: their items come first. */
  readonly met: readonly Ending[];
}

/** Where in a trail's stretches an item lies. */
interface Range {
  readonly trail: number;
  from: number;
  to: number;
  readonly cut: End | null;
}

/** Trails parted where seams are begun; knows which part comes before which. */
class Parting {
  readonly #graph: SeamGraph;
  readonly #chosen: Chosen;
  readonly #ranges: Range[][];
  readonly #placeOf: Int32Array;
  readonly #met: Ending[][];

  constructor(graph: SeamGraph, chosen: Chosen) {
    this.#graph = graph;
    this.#chosen = chosen;
    const { trails, endings } = chosen.trails;
    this.#placeOf = new Int32Array(graph.stretches.length);
    for (const { ends } of trails) ends.forEach((e, i) => (this.#placeOf[e >> 1] = i));
    this.#ranges = trails.map(({ ends }, trail) => [{ trail, from: 0, to: ends.length, cut: null }]);
    this.#met = trails.map(() => []);
    for (const e of endings) this.#met[e.on]!.push(e);
  }

  #rangeOfStretch(s: number): Range {
    const place = this.#placeOf[s]!;
    return this.#ranges[this.#chosen.trails.trailOf[s]!]!.find((r) => place >= r.from && place < r.to)!;
  }

  /** The place in a trail that has a junction before it; 0 where a closed trail starts. */
  #placeOfJunction(trail: Trail, j: number): number {
    return trail.ends.findIndex((e, i) => (i > 0 || trail.isClosed) && this.#graph.junctionOf[e] === j);
  }

  /** The part a junction lies on: the one that is finished, where a begun one is left open there. */
  #rangeAt(e: Ending): Range {
    const trail = this.#chosen.trails.trails[e.on]!;
    const place = this.#placeOfJunction(trail, e.junction);
    const ranges = this.#ranges[e.on]!;
    return ranges.find((r) => r.cut !== null && place > r.from && place < r.to) ?? ranges[0]!;
  }

  /** All parts that cannot be sewn before the given ones. */
  #after(starts: readonly Range[]): ReadonlySet<Range> {
    const found = new Set(starts);
    for (const range of found) {
      const { ends } = this.#chosen.trails.trails[range.trail]!;
      const own = [ends[range.from]!, otherEnd(ends[range.to - 1]!)];
      for (const end of own) {
        const ending = this.#endingAt(end);
        if (ending) found.add(this.#rangeAt(ending));
      }
      if (range.cut !== null) found.add(this.#ranges[range.trail]![0]!);
    }
    return found;
  }

  readonly #endingAt = (end: End): Ending | undefined => {
    this.#byEnd ??= new Map(this.#chosen.trails.endings.map((e) => [e.end, e] as const));
    return this.#byEnd.get(end);
  };
  #byEnd: Map<End, Ending> | undefined;

  /** Begin a trail at an end: as far along as nothing meets it that must come later. */
  begin(cut: End): void {
    const ending = this.#endingAt(cut)!;
    const main = this.#ranges[ending.from]![0]!;
    const { ends } = this.#chosen.trails.trails[ending.from]!;
    const atStart = ends[main.from] === cut;
    const later = this.#after([this.#rangeAt(ending), main]);
    const mayPass = (junction: number): boolean =>
      this.#met[ending.from]!.every((e) => e.junction !== junction || !this.#isLater(e, main, later));
    // A seam that ends on itself is not begun all the way round: there has to be something left to finish.
    const mayTake = (met: End, reached: End): boolean =>
      mayPass(this.#graph.junctionOf[met]!) && this.#graph.junctionOf[reached] !== ending.junction;
    let far = atStart ? main.from + 1 : main.to - 1;
    if (atStart) while (far + 1 < main.to && mayTake(ends[far]!, otherEnd(ends[far]!))) far += 1;
    else while (far - 1 > main.from && mayTake(ends[far]!, ends[far - 1]!)) far -= 1;
    if (far <= main.from || far >= main.to) return;
    const [from, to] = atStart ? [main.from, far] : [far, main.to];
    if (atStart) main.from = far;
    else main.to = far;
    this.#ranges[ending.from]!.push({ trail: ending.from, from, to, cut });
  }

  #isLater(e: Ending, main: Range, later: ReadonlySet<Range>): boolean {
    const range = this.#rangeOfStretch(e.end >> 1);
    return range === main || later.has(range);
  }

  items(): readonly SeamItem[] {
    return this.#ranges.flatMap((ranges, trail): SeamItem[] => {
      const { ends, isClosed } = this.#chosen.trails.trails[trail]!;
      const metBy = new Map<Range, Ending[]>(ranges.map((r) => [r, []]));
      for (const e of this.#met[trail]!) metBy.get(this.#rangeAt(e))!.push(e);
      const [main, ...begun] = ranges;
      const parts = begun.map((r): SeamItem => {
        const open = ends[r.from] === r.cut ? ends[r.to]! : ends[r.from]!;
        const own = ends.slice(r.from, r.to);
        const openAt = this.#graph.junctionOf[open]!;
        return { trail, ends: own, isClosed: false, openAt, begun: [], met: metBy.get(r)! };
      });
      const own = ends.slice(main!.from, main!.to);
      return [
        ...parts,
        {
          trail,
          ends: own,
          isClosed: isClosed && parts.length === 0,
          openAt: null,
          begun: parts,
          met: metBy.get(main!)!,
        },
      ];
    });
  }
}

/** Part the chosen trails into what is sewn in one go: the begun parts of partial seams, what finishes them, and all others whole. */
export function seamItems(graph: SeamGraph, chosen: Chosen): readonly SeamItem[] {
  const parting = new Parting(graph, chosen);
  for (const cut of chosen.cuts) parting.begin(cut);
  return parting.items();
}
