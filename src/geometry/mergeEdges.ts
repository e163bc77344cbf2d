import type { NodedEdge, StretchSource } from './noding';

/**
 * Join edges over nodes where, after others have been taken away, nothing meets any more and the same stretches run on.
 * @param forced nodes that stay
 * @returns edges in the order of their first parts; node numbers as before
 */
export function mergeEdges(edges: readonly NodedEdge[], forced: ReadonlySet<number>): readonly NodedEdge[] {
  const atNode = new Map<number, number[]>();
  edges.forEach((e, i) => {
    for (const node of [e.from, e.to]) {
      const list = atNode.get(node);
      if (list) list.push(i);
      else atNode.set(node, [i]);
    }
  });
  const isUsed = edges.map(() => false);
  /** The edge that simply carries this one on beyond its `to`. */
  const following = (at: NodedEdge, own: number): number | null => {
    const here = atNode.get(at.to)!;
    if (here.length !== 2 || forced.has(at.to)) return null;
    const next = here[0] === own ? here[1]! : here[0]!;
    return next !== own && !isUsed[next] && carriesOn(at, edges[next]!) ? next : null;
  };
  const merged: NodedEdge[] = [];
  edges.forEach((edge, i) => {
    if (isUsed[i]) return;
    isUsed[i] = true;
    let [whole, own] = [edge, i];
    for (let next = following(whole, own); next !== null; next = following(whole, own)) {
      isUsed[next] = true;
      whole = joined(whole, edges[next]!);
      own = next;
    }
    merged.push(whole);
  });
  return merged;
}

/** Whether each source of one edge runs on in a source of the next, which must itself begin where the first ends. */
function carriesOn(e: NodedEdge, f: NodedEdge): boolean {
  return (
    e.to === f.from &&
    e.sources.length === f.sources.length &&
    e.sources.every((s) => carryOn(s, f) !== undefined)
  );
}

const carryOn = (s: StretchSource, f: NodedEdge): StretchSource | undefined =>
  f.sources.find(
    (r) => r.polyline === s.polyline && r.start === s.end && r.end > r.start === s.end > s.start,
  );

const joined = (e: NodedEdge, f: NodedEdge): NodedEdge => ({
  from: e.from,
  to: f.to,
  points: [...e.points, ...f.points.slice(1)],
  sources: e.sources.map((s) => ({ ...s, end: carryOn(s, f)!.end })),
});
