import { signedAreaOfPoints } from './area';
import type { Settled } from './contractEdges';
import { placeAtRef, refAtPlace, type ChordedPath } from './drawnPath';
import { traceFaces, type TracedFace } from './faces';
import { nearestRefFrom } from './intersect';
import { mergeEdges } from './mergeEdges';
import type { Noded, NodedEdge, StretchSource } from './noding';
import { pruneLoose } from './pruneLoose';
import type { HalfEdge } from './subdivision';
import { SAME_POINT } from './tolerances';
import type { Pt } from './types';
import { lengthOfPoints } from './vector';

/** The long side of a sliver makes up at least this much of its boundary; else it is left as it is. */
const LONG_SIDE = 0.4;
const MOST_ROUNDS = 8;

/**
 * Close faces that are thinner than SAME_POINT on average: lines that run so near each other, or so near the outline, lie
 * on each other. The long side is taken away (never one along the outline) and what it came from is
 * added to the edges of the other side.
 * @param forced nodes that stay although nothing may meet there any more
 */
export function zipSlivers(
  settled: Settled,
  forced: (edges: readonly NodedEdge[]) => ReadonlySet<number>,
  all: readonly ChordedPath[],
): Settled {
  let { noded, traced } = settled;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const zipped = zipOnce(noded, traced.faces, all);
    if (!zipped) break;
    const { kept } = pruneLoose({ nodes: noded.nodes, edges: zipped }, Infinity);
    const left = zipped.filter((_, i) => kept[i]);
    noded = numberNodes({ nodes: noded.nodes, edges: mergeEdges(left, forced(left)) });
    traced = traceFaces(noded.nodes.length, noded.edges);
  }
  return { noded, traced };
}

/** Close every sliver that touches no other one being closed; null where there is none. */
function zipOnce(
  { nodes, edges }: Noded,
  faces: readonly TracedFace[],
  all: readonly ChordedPath[],
): readonly NodedEdge[] | null {
  const lengths = edges.map((e) => lengthOfPoints(e.points));
  const origin = nodes[0] ?? [0, 0];
  const swept = edges.map((e) => signedAreaOfPoints([origin, ...e.points]));
  const sum = (of: readonly number[], ring: readonly HalfEdge[], isSigned: boolean): number =>
    ring.reduce((s, { edge, forward }) => s + (isSigned && !forward ? -of[edge]! : of[edge]!), 0);
  const changed = new Map<number, NodedEdge | null>();
  for (const { ring, holes } of faces) {
    const perimeter = sum(lengths, ring, false);
    if (holes.length > 0 || 2 * sum(swept, ring, true) >= SAME_POINT * perimeter) continue;
    if (ring.length < 2 || ring.some((h) => changed.has(h.edge))) continue;
    const at = longSide(ring, edges, lengths, perimeter);
    if (at < 0) continue;
    const rest = [...ring.slice(at + 1), ...ring.slice(0, at)];
    for (const [i, e] of zipped(edges, lengths, nodes, ring[at]!, rest, all)) changed.set(i, e);
    changed.set(ring[at]!.edge, null);
  }
  if (changed.size === 0) return null;
  return edges.flatMap((e, i) => {
    const now = changed.get(i);
    return now === null ? [] : [now ?? e];
  });
}

/** Where in the ring its longest edge off the outline is; -1 if that is not long enough to be one side of it. */
function longSide(
  ring: readonly HalfEdge[],
  edges: readonly NodedEdge[],
  lengths: readonly number[],
  perimeter: number,
): number {
  let at = -1;
  ring.forEach(({ edge }, i) => {
    const isFree = edges[edge]!.sources.every((s) => s.polyline !== 0);
    const isTwice = ring.some((h, k) => k !== i && h.edge === edge);
    if (isFree && !isTwice && (at < 0 || lengths[edge]! > lengths[ring[at]!.edge]!)) at = i;
  });
  return at >= 0 && lengths[ring[at]!.edge]! >= LONG_SIDE * perimeter ? at : -1;
}

/** The edges of the other side, in ring order after the long one, each with the long one's sources added. */
function zipped(
  edges: readonly NodedEdge[],
  lengths: readonly number[],
  nodes: readonly Pt[],
  long: HalfEdge,
  rest: readonly HalfEdge[],
  all: readonly ChordedPath[],
): [number, NodedEdge][] {
  const total = rest.reduce((s, h) => s + lengths[h.edge]!, 0);
  const longEdge = edges[long.edge]!;
  const more: StretchSource[][] = rest.map(() => []);
  for (const source of longEdge.sources) {
    // The rest of the ring runs back from the long edge's last node to its first.
    const [begin, end] = long.forward ? [source.end, source.start] : [source.start, source.end];
    let [walked, place] = [0, begin];
    rest.forEach((h, i) => {
      walked += lengths[h.edge]!;
      const e = edges[h.edge]!;
      const node = nodes[h.forward ? e.to : e.from]!;
      const next =
        i === rest.length - 1 ? end : placeBeside(all[source.polyline]!, begin, end, walked / total, node);
      more[i]!.push({
        polyline: source.polyline,
        start: h.forward ? place : next,
        end: h.forward ? next : place,
      });
      place = next;
    });
  }
  return rest.map((h, i) => {
    const e = edges[h.edge]!;
    const added = more[i]!.filter(
      (s) => s.start !== s.end && e.sources.every((r) => r.polyline !== s.polyline),
    );
    return [h.edge, { ...e, sources: [...e.sources, ...added] }];
  });
}

/** The place on a path beside a point, near a fraction of the way between two places. */
function placeBeside(chords: ChordedPath, begin: number, end: number, fraction: number, p: Pt): number {
  const near = nearestRefFrom(chords.drawn.path, refAtPlace(chords, begin + (end - begin) * fraction), p);
  return Math.min(Math.max(begin, end), Math.max(Math.min(begin, end), placeAtRef(chords, near)));
}

/** The same drawing with only the nodes its edges use, numbered in the order of first use. */
export function numberNodes({ nodes, edges }: Noded): Noded {
  const numbers = new Map<number, number>();
  const used: Pt[] = [];
  const numberOf = (node: number): number => {
    const known = numbers.get(node);
    if (known !== undefined) return known;
    numbers.set(node, used.length);
    return used.push(nodes[node]!) - 1;
  };
  const renumbered = edges.map((e) => ({ ...e, from: numberOf(e.from), to: numberOf(e.to) }));
  return { nodes: used, edges: renumbered };
}
