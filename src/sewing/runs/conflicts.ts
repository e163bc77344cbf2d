import type { Cost } from './cost';
import { type RingOfEndings, ringsOfEndings } from './rings';
import { type End, type SeamGraph, otherEnd } from './seamGraph';
import type { Trails } from './trails';

/** Junctions and ends of which one at least must be chosen otherwise, or begun as a partial seam, to be rid of a fault. */
export interface Conflict {
  readonly kind: 'ring' | 'round';
  readonly junctions: readonly number[];
  readonly cuts: readonly End[];
}

/** Junctions of a trail from its end to the junction it is met at, that one included. */
function junctionsBack(end: End, met: number, { junctionOf }: SeamGraph, { mate }: Trails): number[] {
  const passed: number[] = [];
  for (let e = otherEnd(end); ; e = otherEnd(mate[e]!)) {
    const j = junctionOf[e]!;
    passed.push(j);
    if (j === met || mate[e]! < 0) return passed;
  }
}

/** The far end of a trail. */
const farEnd = (end: End, { trails, trailOf }: Trails): End => {
  const { ends } = trails[trailOf[end >> 1]!]!;
  return ends[0] === end ? otherEnd(ends.at(-1)!) : ends[0]!;
};

function ofRing(ring: RingOfEndings, graph: SeamGraph, trails: Trails, cuts: ReadonlySet<End>): Conflict {
  const junctions = new Set<number>();
  const open: End[] = [];
  ring.forEach((ending, i) => {
    const met = ring.at(i - 1)!.junction;
    const passed = junctionsBack(ending.end, met, graph, trails);
    for (const j of passed) junctions.add(j);
    // A stretch that runs round from a junction to the same one leaves nothing to be finished.
    const isLoop = ring.length === 1 && passed.length < 2;
    if (!isLoop && !cuts.has(farEnd(ending.end, trails))) open.push(ending.end);
  });
  return { kind: 'ring', junctions: [...junctions], cuts: open };
}

/**
 * What stands in the way of a plan: rings of endings, which have no order, and closed seams beyond the one a part of the drawing that does
 * not reach the outline must have.
 */
export function conflictsOf(graph: SeamGraph, trails: Trails, cuts: ReadonlySet<End>): readonly Conflict[] {
  const rings = ringsOfEndings(trails, (e) => cuts.has(e.end));
  const rounds = trails.trails.filter((t) => t.isClosed);
  const inPart = (part: number): number =>
    rounds.filter((t) => graph.partOf[t.ends[0]! >> 1] === part).length;
  const extra = rounds.filter((t) => {
    const part = graph.partOf[t.ends[0]! >> 1]!;
    return !graph.floating[part] || inPart(part) > 1;
  });
  return [
    ...rings.map((r) => ofRing(r, graph, trails, cuts)),
    ...extra.map(({ ends }): Conflict => ({
      kind: 'round',
      junctions: ends.map((e) => graph.junctionOf[e]!),
      cuts: [],
    })),
  ];
}

/** What a seam costs that is begun before it can be sewn whole. */
export const COST_OF_CUT: Cost = [1, 0, 0, 0, 0, 0];

/** What a closed seam costs where none is needed. */
export const COST_OF_ROUND: Cost = [0, 0, 1, 0, 0, 0];
