import { placeAtRef, refAtPlace, type ChordedPath } from './drawnPath';
import { contractEdges, type Settled } from './contractEdges';
import { nearestRefFrom } from './intersect';
import type { NodedEdge, StretchSource } from './noding';
import { pointOn } from './path';
import { LONGEST_TOUCH, SAME_POINT, SHORTEST_OVERLAP, TOUCH_GAP } from './tolerances';
import type { Pt } from './types';
import { distance, lengthOfPoints } from './vector';

/**
 * Where curves touch, or cross very flatly, noding draws them together for as long as they run within SAME_POINT of each other.
 * The ends of such a stretch lie on both curves only to within SAME_POINT, and everything cut from there on would be
 * bent by that much. So the ends are slid along to where the curves truly meet; where both ends come to the same
 * place the stretch shrinks to one node. Only nodes and places on the paths change, which face lies where does not: the chords
 * of the edges stay as they were and are of no more use afterwards.
 */
export function settleTouches({ noded, traced }: Settled, all: readonly ChordedPath[]): Settled {
  if (!noded.edges.some(isShared)) return { noded, traced };
  const draft: Draft = {
    nodes: [...noded.nodes],
    edges: [...noded.edges],
    gone: new Set(),
    alias: noded.nodes.map((_, i) => i),
    atNode: noded.nodes.map(() => []),
    all,
  };
  noded.edges.forEach((e, i) => {
    draft.atNode[e.from]!.push(i);
    if (e.to !== e.from) draft.atNode[e.to]!.push(i);
  });
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const before = [...draft.nodes];
    const gone = draft.gone.size;
    draft.edges.forEach((e, i) => {
      if (isShared(e) && !draft.gone.has(i)) settleEdge(draft, i);
    });
    if (gone === draft.gone.size && before.every((p, i) => p === draft.nodes[i])) break;
  }
  return contractEdges({ noded: { nodes: draft.nodes, edges: draft.edges }, traced }, draft);
}

/** Whether different paths run along an edge; one that runs along itself is left as it is. */
const isShared = ({ from, to, sources }: NodedEdge): boolean =>
  from !== to && sources.length > 1 && new Set(sources.map((s) => s.polyline)).size === sources.length;

interface Draft {
  readonly nodes: Pt[];
  readonly edges: NodedEdge[];
  readonly gone: Set<number>;
  readonly alias: number[];
  readonly atNode: number[][];
  readonly all: readonly ChordedPath[];
}

/** An end is slid only if that brings the curves this much nearer to each other. */
const WORTH = 0.25;
const SAMPLES = 64;
/** Where three curves touch in one point, one stretch can settle only after another has. */
const MOST_ROUNDS = 4;
/** A stretch with another edge between the same nodes shrinks only if that one is this many times longer: it becomes a loop. */
const LOOP = 3;

/** A place on a shared stretch: places of all its sources there, and how far apart they are. */
interface Spot {
  readonly places: readonly number[];
  readonly point: Pt;
  readonly gap: number;
}

function settleEdge(draft: Draft, index: number): void {
  const edge = draft.edges[index]!;
  if (lengthOfPoints(edge.points) < 2 * SAME_POINT) return;
  const [first, last] = [spotAt(edge, 0, draft.all), spotAt(edge, 1, draft.all)];
  const slidesFrom = first.gap > TOUCH_GAP && partsInto(draft, edge, index, edge.from) !== null;
  const slidesTo = last.gap > TOUCH_GAP && partsInto(draft, edge, index, edge.to) !== null;
  if (!slidesFrom && !slidesTo) return;
  const spots = Array.from({ length: SAMPLES + 1 }, (_, k) => spotAt(edge, k / SAMPLES, draft.all));
  const a = slidesFrom ? meetingSpot(spots) : 0;
  const b = slidesTo ? SAMPLES - meetingSpot(spots.toReversed()) : SAMPLES;
  if (a >= b || distance(spots[a]!.point, spots[b]!.point) < SHORTEST_OVERLAP) {
    if (first.gap <= TOUCH_GAP) return shrink(draft, index, edge.from, first);
    if (last.gap <= TOUCH_GAP) return shrink(draft, index, edge.to, last);
    if (slidesFrom && slidesTo) return shrink(draft, index, edge.from, closest(spots));
  }
  if (a >= b) return;
  if (spots[a]!.places.every((place, i) => place === spots[b]!.places[i])) {
    // A corner there has drawn both ends to itself: nothing would be left of the stretch.
    return slidesTo ? shrink(draft, index, edge.from, first) : shrink(draft, index, edge.to, last);
  }
  if (a > 0) slide(draft, index, edge.from, spots[a]!);
  if (b < SAMPLES) slide(draft, index, edge.to, spots[b]!);
}

const closest = (spots: readonly Spot[]): Spot => spots.reduce((best, s) => (s.gap < best.gap ? s : best));

/** The spot at a fraction of the way along a shared stretch; the first source leads. Ends keep their exact places. */
function spotAt(edge: NodedEdge, fraction: number, all: readonly ChordedPath[]): Spot {
  const placeOf = (s: StretchSource): number =>
    fraction === 1 ? s.end : s.start + (s.end - s.start) * fraction;
  const isEnd = fraction === 0 || fraction === 1;
  const [lead, ...others] = edge.sources as [StretchSource, ...StretchSource[]];
  const leadChords = all[lead.polyline]!;
  const leadPlace = isEnd ? placeOf(lead) : cornerNear(leadChords, placeOf(lead));
  const point = pointOn(leadChords.drawn.path, refAtPlace(leadChords, leadPlace));
  const places = [leadPlace];
  let gap = 0;
  for (const s of others) {
    const chords = all[s.polyline]!;
    const near = nearestRefFrom(chords.drawn.path, refAtPlace(chords, placeOf(s)), point);
    gap = Math.max(gap, distance(point, pointOn(chords.drawn.path, near)));
    const [low, high] = [Math.min(s.start, s.end), Math.max(s.start, s.end)];
    const place = cornerNear(chords, placeAtRef(chords, near));
    places.push(isEnd ? placeOf(s) : Math.min(high, Math.max(low, place)));
  }
  return { places, point, gap };
}

/** A place that is the same point as a joint of two curves is that joint. */
function cornerNear(chords: ChordedPath, place: number): number {
  const corner = Math.round(place);
  const p = chords.points[corner];
  if (!p || chords.refs[corner]!.t !== 0) return place;
  const q = pointOn(chords.drawn.path, refAtPlace(chords, place));
  return distance(p, q) < SAME_POINT ? corner : place;
}

/** Number of the first spot where the curves have come together, 0 where they never do or only too far along. */
function meetingSpot(spots: readonly Spot[]): number {
  const first = spots[0]!;
  let best = 0;
  for (let k = 1; k < spots.length; k += 1) {
    if (spots[k]!.gap < spots[best]!.gap) best = k;
    if (spots[k]!.gap <= TOUCH_GAP) break;
  }
  const isWorth =
    spots[best]!.gap <= WORTH * first.gap && distance(first.point, spots[best]!.point) <= LONGEST_TOUCH;
  return isWorth ? best : 0;
}

/** Edges that carry the stretch's sources on beyond a node, if nothing else meets there; else null. */
function partsInto(draft: Draft, edge: NodedEdge, index: number, node: number): readonly number[] | null {
  const beyond = draft.atNode[node]!.filter((e) => e !== index && !draft.gone.has(e));
  const ends = beyond.flatMap((e) => {
    const other = draft.edges[e]!;
    if (other.from === other.to) return [null];
    return other.sources.map((s) => ({ polyline: s.polyline, place: other.from === node ? s.start : s.end }));
  });
  const placeAt = (s: StretchSource): number => (edge.from === node ? s.start : s.end);
  const isCarried = (s: StretchSource): boolean =>
    ends.filter((x) => x?.polyline === s.polyline && x.place === placeAt(s)).length === 1;
  return ends.length === edge.sources.length && edge.sources.every(isCarried) ? beyond : null;
}

/** Move the node at one end of a shared stretch to a spot on it, with everything that goes on from there. */
function slide(draft: Draft, index: number, node: number, spot: Spot): void {
  const edge = draft.edges[index]!;
  for (const e of [index, ...partsInto(draft, edge, index, node)!]) {
    draft.edges[e] = reended(draft.edges[e]!, node, edge, spot);
  }
  draft.nodes[node] = spot.point;
}

/** The edge with its end at `node` moved to the spot: its places there become the spot's. */
function reended(e: NodedEdge, node: number, shared: NodedEdge, spot: Spot): NodedEdge {
  const placeOf = (s: StretchSource): number =>
    spot.places[shared.sources.findIndex((r) => r.polyline === s.polyline)]!;
  const sources = e.sources.map((s) =>
    e.from === node ? { ...s, start: placeOf(s) } : { ...s, end: placeOf(s) },
  );
  return { ...e, sources };
}

/** Take the shared stretch away and join its two nodes at the spot. The node kept is moved there only if it slides itself. */
function shrink(draft: Draft, index: number, kept: number, spot: Spot): void {
  const edge = draft.edges[index]!;
  const other = edge.from === kept ? edge.to : edge.from;
  const most = LOOP * lengthOfPoints(edge.points);
  const isTinyParallel = (e: number): boolean =>
    e !== index &&
    !draft.gone.has(e) &&
    (draft.edges[e]!.from === other || draft.edges[e]!.to === other) &&
    lengthOfPoints(draft.edges[e]!.points) < most;
  if (draft.atNode[kept]!.some(isTinyParallel)) return;
  const beyond = partsInto(draft, edge, index, other)!;
  const slidesKept = partsInto(draft, edge, index, kept);
  if (slidesKept !== null && distance(spot.point, draft.nodes[kept]!) > 0) {
    for (const e of slidesKept) draft.edges[e] = reended(draft.edges[e]!, kept, edge, spot);
    draft.nodes[kept] = spot.point;
  }
  for (const e of beyond) {
    const moved = reended(draft.edges[e]!, other, edge, spot);
    const [from, to] = [moved.from === other ? kept : moved.from, moved.to === other ? kept : moved.to];
    draft.edges[e] = { ...moved, from, to };
  }
  draft.gone.add(index);
  draft.alias[other] = kept;
  draft.atNode[kept] = [...new Set([...draft.atNode[kept]!, ...beyond])];
  draft.atNode[other] = [];
}
