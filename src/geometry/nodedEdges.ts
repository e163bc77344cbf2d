import type { Net, Noded, NodedEdge, NodingPolyline, StretchSource } from './noding';
import type { Pt } from './types';

/** The split polylines as a graph of single segments; a segment that several polylines run along is there once. */
interface SegmentGraph {
  /** For each step k of the net (ids[k] to ids[k + 1]) the number of its segment; -1 at the end of a polyline. */
  readonly segmentOf: Int32Array;
  /** Steps along a segment, lowest first: firstStep[segment], then nextStep[step]; -1 ends the list. */
  readonly firstStep: number[];
  readonly nextStep: Int32Array;
  readonly steps: number[];
  /** Segments at a vertex: how many, and the first two. */
  readonly degree: Int32Array;
  readonly one: Int32Array;
  readonly two: Int32Array;
}

function graphOf(net: Net): SegmentGraph {
  const n = net.store.count;
  const graph: SegmentGraph = {
    segmentOf: new Int32Array(net.ids.length).fill(-1),
    firstStep: [],
    nextStep: new Int32Array(net.ids.length).fill(-1),
    steps: [],
    degree: new Int32Array(n),
    one: new Int32Array(n),
    two: new Int32Array(n),
  };
  const byLow = new Int32Array(n).fill(-1);
  const nextByLow: number[] = [];
  const high: number[] = [];
  const lastStep: number[] = [];
  const join = (v: number, segment: number): void => {
    if (graph.degree[v] === 0) graph.one[v] = segment;
    else graph.two[v] = segment;
    graph.degree[v]! += 1;
  };
  for (let p = 0; p + 1 < net.first.length; p += 1) {
    for (let k = net.first[p]!; k + 1 < net.first[p + 1]!; k += 1) {
      const [a, b] = [net.ids[k]!, net.ids[k + 1]!];
      const [low, top] = a < b ? [a, b] : [b, a];
      let segment = byLow[low]!;
      while (segment >= 0 && high[segment] !== top) segment = nextByLow[segment]!;
      if (segment < 0) {
        segment = high.length;
        high.push(top);
        nextByLow.push(byLow[low]!);
        byLow[low] = segment;
        graph.firstStep.push(k);
        graph.steps.push(0);
        join(a, segment);
        join(b, segment);
      } else graph.nextStep[lastStep[segment]!] = k;
      lastStep[segment] = k;
      graph.steps[segment]! += 1;
      graph.segmentOf[k] = segment;
    }
  }
  return graph;
}

/** Whether the same stretches run on through vertex v, so that it need not be a node. */
function runsThrough(graph: SegmentGraph, v: number): boolean {
  if (graph.degree[v] !== 2) return false;
  const [e, f] = [graph.one[v]!, graph.two[v]!];
  if (graph.steps[e] !== graph.steps[f]) return false;
  for (let k = graph.firstStep[e]!; k >= 0; k = graph.nextStep[k]!) {
    if (graph.segmentOf[k + 1] !== f && (k === 0 || graph.segmentOf[k - 1] !== f)) return false;
  }
  return true;
}

/** Join single segments into edges from node to node, in order along the polylines. */
export function nodedEdges(net: Net, polylines: readonly NodingPolyline[]): Noded {
  const graph = graphOf(net);
  const { ids, first, store } = net;
  const nodeOf = new Int32Array(store.count).fill(-1);
  const isNode = new Uint8Array(store.count);
  for (let v = 0; v < store.count; v += 1) isNode[v] = graph.degree[v]! > 0 && !runsThrough(graph, v) ? 1 : 0;
  polylines.forEach((p, i) => {
    if (p.closed && first[i + 1]! > first[i]!) isNode[ids[first[i]!]!] = 1;
  });
  const nodes: Pt[] = [];
  const nodeAt = (v: number): number => {
    if (nodeOf[v]! < 0) nodeOf[v] = nodes.push([store.xs[v]!, store.ys[v]!]) - 1;
    return nodeOf[v]!;
  };
  const polylineAt = polylineOfStep(net);
  const isTaken = new Uint8Array(graph.firstStep.length);
  const edges: NodedEdge[] = [];
  for (let p = 0; p + 1 < first.length; p += 1) {
    const last = first[p + 1]! - 1;
    for (let k = first[p]!; k < last;) {
      if (isTaken[graph.segmentOf[k]!]) {
        k += 1;
        continue;
      }
      const begin = k;
      const points: Pt[] = [[store.xs[ids[k]!]!, store.ys[ids[k]!]!]];
      do {
        isTaken[graph.segmentOf[k]!] = 1;
        k += 1;
        points.push([store.xs[ids[k]!]!, store.ys[ids[k]!]!]);
      } while (k < last && !isNode[ids[k]!] && !isTaken[graph.segmentOf[k]!]);
      edges.push({
        from: nodeAt(ids[begin]!),
        to: nodeAt(ids[k]!),
        points,
        sources: sourcesOf(net, graph, polylineAt, begin, k - begin),
      });
    }
  }
  return { nodes, edges };
}

/** Which polyline a step belongs to. */
function polylineOfStep(net: Net): Int32Array {
  const at = new Int32Array(net.ids.length);
  for (let p = 0; p + 1 < net.first.length; p += 1) at.fill(p, net.first[p]!, net.first[p + 1]!);
  return at;
}

/** Everything that runs along an edge of `count` steps that begins with step `begin`. */
function sourcesOf(
  net: Net,
  graph: SegmentGraph,
  polylineAt: Int32Array,
  begin: number,
  count: number,
): StretchSource[] {
  const sources: StretchSource[] = [];
  for (let k = graph.firstStep[graph.segmentOf[begin]!]!; k >= 0; k = graph.nextStep[k]!) {
    const forward = net.ids[k] === net.ids[begin];
    const start = forward ? net.places[k]! : net.places[k + 1]!;
    const end = forward ? net.places[k + count]! : net.places[k + 1 - count]!;
    sources.push({ polyline: polylineAt[k]!, start, end });
  }
  return sources;
}
