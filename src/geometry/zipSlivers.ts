import { signedAreaOfPoints } from './area';
import type { Settled } from './contractEdges';
import { placeAtRef, refAtPlace, type ChordedPath } from './drawnPath';
import { traceFaces, type TracedFace } from './faces';
import { nearestRefFrom } from './intersect';
import { mergeEdges } from './mergeEdges';
import type { Noded, NodedEdge, StretchSource } from './noding';
import { pruneLoose } from './pruneLoose';
import type { HalfEdge } from './subdivision';
import { THINNEST_FACE } from './tolerances';
import type { Pt } from './types';
import { lengthOfPoints } from './vector';

/** The long side of a sliver makes up at least this much of its boundary; else it is left as it is. */
const LONG_SIDE = 0.4;
const MOST_ROUNDS = 8;

/**
 * Close faces that are thinner than THINNEST_FACE on average: lines that run so near each other, or so near the outline, lie
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
    if (holes.length > 0 || 2 * sum(swept, ring, true) >= THINNEST_FACE * perimeter) continue;
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
  const sources = rest.map((h) => [...edges[h.edge]!.sources]);
  for (const source of edges[long.edge]!.sources) {
    // The rest of the ring runs back from the long edge's last node to its first.
    const ends = long.forward
      ? { begin: source.end, end: source.start }
      : { begin: source.start, end: source.end };
    const { first, last, begin, end } = withoutTurnBacks(source.polyline, ends, rest, sources);
    const total = rest.slice(first, last).reduce((s, h) => s + lengths[h.edge]!, 0);
    let [walked, place] = [0, begin];
    for (let i = first; i < last; i += 1) {
      const { edge, forward } = rest[i]!;
      walked += lengths[edge]!;
      const node = nodes[forward ? edges[edge]!.to : edges[edge]!.from]!;
      const next =
        i === last - 1 ? end : placeBeside(all[source.polyline]!, begin, end, walked / total, node);
      const isThere = sources[i]!.some((s) => s.polyline === source.polyline);
      const [start, stop] = forward ? [place, next] : [next, place];
      if (!isThere && start !== stop) sources[i]!.push({ polyline: source.polyline, start, end: stop });
      place = next;
    }
  }
  return rest.map((h, i) => [h.edge, { ...edges[h.edge]!, sources: sources[i]! }]);
}

/** What is left of the other side for a path of the long one: rest[first] to rest[last - 1], from place `begin` to `end`. */
interface OtherSide {
  readonly first: number;
  readonly last: number;
  readonly begin: number;
  readonly end: number;
}

/** Where a path turns back at the tip of a sliver and runs along both its sides, the two runs cancel; it is taken off there. */
function withoutTurnBacks(
  polyline: number,
  ends: { begin: number; end: number },
  rest: readonly HalfEdge[],
  sources: StretchSource[][],
): OtherSide {
  let { begin, end } = ends;
  let [first, last] = [0, rest.length];
  /** The place at the far end of edge i, if the path runs on along it from `place`; the path is taken off the edge. */
  const turnedBack = (i: number, place: number, isAhead: boolean): number | null => {
    const at = sources[i]!.findIndex((s) => s.polyline === polyline);
    if (at < 0 || sources[i]!.length === 1) return null;
    const { start, end: stop } = sources[i]![at]!;
    const [near, far] = rest[i]!.forward === isAhead ? [start, stop] : [stop, start];
    if (near !== place) return null;
    sources[i]!.splice(at, 1);
    return far;
  };
  while (first < last) {
    const far = turnedBack(first, begin, true);
    if (far === null) break;
    begin = far;
    first += 1;
  }
  while (last > first) {
    const far = turnedBack(last - 1, end, false);
    if (far === null) break;
    end = far;
    last -= 1;
  }
  return { first, last, begin, end };
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
