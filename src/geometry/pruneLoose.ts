import type { NodedEdge, Noded } from './noding';
import { lengthOfPoints } from './vector';

/** A stretch that hangs on the rest by one end only, or by none, longer than an overshoot. */
export interface LooseStretch {
  /** Number of the polyline and the place on it where it ends in the open. */
  readonly polyline: number;
  readonly place: number;
  /** Whether the open end lies at the lower end of the stretch along the polyline. */
  readonly end: 'start' | 'end';
  /** The edge that ends in the open. */
  readonly edge: number;
}

export interface Pruned {
  /** For each edge whether it bounds something. */
  readonly kept: readonly boolean[];
  readonly loose: readonly LooseStretch[];
}

/**
 * Take away everything that hangs in the open, end by end, until every edge leads somewhere both ways.
 * Stretches shorter than `overshoot` mm go silently. A stretch that hung on one already reported is not reported again.
 */
export function pruneLoose({ nodes, edges }: Noded, overshoot: number): Pruned {
  const kept = edges.map(() => true);
  const atNode: number[][] = nodes.map(() => []);
  edges.forEach((e, i) => {
    atNode[e.from]!.push(i);
    atNode[e.to]!.push(i);
  });
  const lengths = edges.map((e) => lengthOfPoints(e.points));
  const left = (node: number): number[] => atNode[node]!.filter((e) => kept[e]);
  const explained = new Set<number>();
  const loose: LooseStretch[] = [];
  let tips = nodes.flatMap((_, node) => (atNode[node]!.length === 1 ? [node] : []));
  const drawnTips = new Set(tips);
  while (tips.length > 0) {
    const walks = tips.filter((tip) => left(tip).length === 1).map((tip) => walkIn(tip, edges, left));
    for (const walk of walks) {
      for (const e of walk.edges) kept[e] = false;
      const isOvershoot = walk.edges.reduce((sum, e) => sum + lengths[e]!, 0) < overshoot;
      if (explained.has(walk.tip) && !drawnTips.has(walk.tip)) explained.add(walk.last);
      else if (!isOvershoot) {
        loose.push(...looseEndsAt(walk.tip, walk.edges[0]!, edges));
        explained.add(walk.last);
      }
    }
    tips = [...new Set(walks.map((w) => w.last))].filter((node) => left(node).length === 1);
  }
  return { kept, loose };
}

interface Walk {
  readonly tip: number;
  readonly edges: readonly number[];
  /** Where the walk came to a junction or to another open end. */
  readonly last: number;
}

/** From an open end inwards to the first junction. */
function walkIn(tip: number, edges: readonly NodedEdge[], left: (node: number) => number[]): Walk {
  const walked: number[] = [];
  let node = tip;
  for (;;) {
    const next = left(node).find((e) => e !== walked[walked.length - 1]);
    if (next === undefined) break;
    walked.push(next);
    const e = edges[next]!;
    node = e.from === node ? e.to : e.from;
    if (left(node).length !== 2) break;
  }
  return { tip, edges: walked, last: node };
}

/** One entry for each polyline that runs along the stretch. */
function looseEndsAt(tip: number, edge: number, edges: readonly NodedEdge[]): LooseStretch[] {
  const { from, sources } = edges[edge]!;
  return sources.map(({ polyline, start, end }) => {
    const place = from === tip ? start : end;
    return { polyline, place, end: place === Math.min(start, end) ? 'start' : 'end', edge };
  });
}
