import { type End, type Junction, type SeamGraph, stretchOfEnd } from './seamGraph';

/** A part of the graph whose choices touch no other part's, and where its junctions and stretches are in the whole. */
export interface Region {
  readonly graph: SeamGraph;
  readonly junctions: readonly number[];
  readonly stretches: readonly number[];
}

/** For each stretch those it may have to come before, whichever pairs are chosen; stretches that may be sewn as one lead to each other. */
function mayComeBefore({ stretches, junctions }: SeamGraph): readonly (readonly number[])[] {
  const out: number[][] = stretches.map(() => []);
  for (const { ends, pairs } of junctions)
    for (const { p, q } of pairs) {
      out[p >> 1]!.push(q >> 1);
      out[q >> 1]!.push(p >> 1);
      for (const e of ends) if (e !== p && e !== q) out[e >> 1]!.push(p >> 1);
    }
  return out;
}

/** Number of the strongly connected part of each vertex (Tarjan 1972, without recursion). */
function strongParts(out: readonly (readonly number[])[]): Int32Array {
  const [seen, low] = [new Int32Array(out.length).fill(-1), new Int32Array(out.length)];
  const part = new Int32Array(out.length).fill(-1);
  const waiting: number[] = [];
  let [count, parts] = [0, 0];
  for (let root = 0; root < out.length; root += 1) {
    if (seen[root]! >= 0) continue;
    const way: { at: number; next: number }[] = [];
    const enter = (at: number): void => {
      seen[at] = low[at] = count;
      count += 1;
      waiting.push(at);
      way.push({ at, next: 0 });
    };
    enter(root);
    while (way.length > 0) {
      const top = way.at(-1)!;
      const to = out[top.at]![top.next];
      top.next += 1;
      if (to === undefined) {
        way.pop();
        const above = way.at(-1);
        if (above) low[above.at] = Math.min(low[above.at]!, low[top.at]!);
        if (low[top.at] !== seen[top.at]) continue;
        for (let w = -1; w !== top.at;) {
          w = waiting.pop()!;
          part[w] = parts;
        }
        parts += 1;
      } else if (seen[to]! < 0) enter(to);
      else if (part[to]! < 0) low[top.at] = Math.min(low[top.at]!, seen[to]!);
    }
  }
  return part;
}

function regionOf(graph: SeamGraph, stretches: readonly number[]): Region {
  const numberOf = new Map(stretches.map((s, i) => [s, i] as const));
  const local = (e: End): End => 2 * numberOf.get(stretchOfEnd(e))! + (e % 2);
  const isIn = (e: End): boolean => numberOf.has(stretchOfEnd(e));
  const junctionOf = new Int32Array(2 * stretches.length).fill(-1);
  const junctions = new Set<number>();
  for (const s of stretches)
    for (const e of [2 * s, 2 * s + 1]) {
      const j = graph.junctionOf[e]!;
      if (j >= 0 && graph.junctions[j]!.pairs.some((o) => isIn(o.p))) junctions.add(j);
    }
  const kept = [...junctions].map((j, number): Junction => {
    const whole = graph.junctions[j]!;
    const ends = whole.ends.filter(isIn).map(local);
    for (const e of ends) junctionOf[e] = number;
    return { ...whole, ends, pairs: whole.pairs.map((o) => ({ ...o, p: local(o.p), q: local(o.q) })) };
  });
  const part = {
    stretches: stretches.map((s) => graph.stretches[s]!),
    junctions: kept,
    junctionOf,
    partOf: Int32Array.from(stretches, (s) => graph.partOf[s]!),
    floating: graph.floating,
  };
  return { graph: part, junctions: [...junctions], stretches };
}

/**
 * Part a graph into regions: every ring of endings, and every closed seam, lies in one of them whatever is chosen, so each can be searched
 * alone. Only those with one of the given stretches.
 */
export function regionsWith(graph: SeamGraph, wanted: ReadonlySet<number>): readonly Region[] {
  const part = strongParts(mayComeBefore(graph));
  const parts = new Set([...wanted].map((s) => part[s]!));
  const inPart = new Map<number, number[]>([...parts].map((p) => [p, []]));
  graph.stretches.forEach((_, s) => inPart.get(part[s]!)?.push(s));
  return [...inPart.values()].map((stretches) => regionOf(graph, stretches));
}
