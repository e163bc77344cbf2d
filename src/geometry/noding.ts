import { nodedEdges } from './nodedEdges';
import { forEachNearPair } from './nearPairs';
import { turnOf } from './orientation';
import { SAME_POINT } from './tolerances';
import type { Polyline, Pt } from './types';
import { VertexStore } from './vertexStore';

/** One input of nodePolylines. */
export interface NodingPolyline {
  readonly points: Polyline;
  /** The first point is not repeated; the closing stretch is implied. */
  readonly closed: boolean;
  /** Numbers of the points that are true corners: where points fall together these keep their place. Ends always count as such. */
  readonly corners?: readonly number[];
}

/**
 * A stretch of an input polyline. Places are point numbers with a fraction: 3.25 lies a quarter of the way from point 3
 * to point 4; the closing stretch of a closed one runs from n − 1 to n. `start` > `end` where the edge runs against it.
 */
export interface StretchSource {
  readonly polyline: number;
  readonly start: number;
  readonly end: number;
}

/** A stretch between two nodes that nothing else meets in between. */
export interface NodedEdge {
  readonly from: number;
  readonly to: number;
  /** Corner points, both nodes included. */
  readonly points: Polyline;
  /** At least one, lowest polyline first; the first one always runs forwards (start < end). */
  readonly sources: readonly StretchSource[];
}

export interface Noded {
  /** Where edges end: crossings, ends, starts of closed polylines, and wherever the set of sources changes. */
  readonly nodes: readonly Pt[];
  /** In order along the first polyline, then the next. Polylines shorter than the snap distance give none. */
  readonly edges: readonly NodedEdge[];
}

export interface NodingOptions {
  /** Points this close (mm) to each other or to a segment are drawn together. Default SAME_POINT. */
  readonly snap?: number;
}

/** The polylines while they are being split: a SegmentList, with the place each point has on its polyline. */
export interface Net {
  readonly store: VertexStore;
  ids: number[];
  places: number[];
  /** Places between which a step is measured: where the step to a point ends and where the step from it begins. They differ from its place only where input points have merged. */
  arrivals: number[];
  departures: number[];
  first: number[];
}

/**
 * Points are merged at this multiple of the snap distance. A point drawn on to a segment must lie far enough from both its ends
 * that both parts are shorter than the whole (distance > snap / cos 30°), else two points could take turns for ever.
 */
const MERGE = 4 / 3;
/** After this many rounds the snap distance is halved each round, so that splitting ends whatever the input. */
const FULL_SNAP_ROUNDS = 6;
const MOST_ROUNDS = 60;

/**
 * Split polylines wherever they meet, cross, touch or lie on each other, themselves included.
 * Points closer than the snap distance become one; a point closer than that to a segment is drawn into it; stretches
 * that then coincide become one edge with several sources. Repeats until nothing changes, so the edges meet at nodes only.
 * No point moves farther than a few times the snap distance. Never throws on finite input.
 */
export function nodePolylines(polylines: readonly NodingPolyline[], options: NodingOptions = {}): Noded {
  const snap = options.snap ?? SAME_POINT;
  const net = startNet(polylines, snap);
  splitUntilStable(net, snap);
  return nodedEdges(net, polylines);
}

function startNet(polylines: readonly NodingPolyline[], snap: number): Net {
  const total = polylines.reduce((sum, p) => sum + p.points.length, 0);
  const store = new VertexStore(snap * MERGE, total);
  const idOf = (p: Pt): number => store.findOrAdd(p[0], p[1], snap * MERGE);
  for (const { points, closed, corners } of polylines) {
    if (points.length > 0) idOf(points[0]!);
    // ends before corners: a short stretch drawn on to something has to keep the place where it meets that
    if (points.length > 0 && !closed) idOf(points[points.length - 1]!);
    for (const c of corners ?? []) idOf(points[c]!);
  }
  const net: Net = { store, ids: [], places: [], arrivals: [], departures: [], first: [0] };
  for (const { points, closed } of polylines) {
    const begin = net.ids.length;
    points.forEach((p, place) => append(net, begin, idOf(p), place));
    if (closed && points.length > 0) close(net, begin, points.length);
    net.first.push(net.ids.length);
  }
  return net;
}

/** Add a point to the polyline that begins at `begin`, unless it falls on the one before. */
function append(net: Net, begin: number, id: number, place: number): void {
  const last = net.ids.length - 1;
  if (last >= begin && net.ids[last] === id) {
    net.departures[last] = place;
    return;
  }
  net.ids.push(id);
  net.places.push(place);
  net.arrivals.push(place);
  net.departures.push(place);
}

/** Repeat the first point at the end; a last point that fell on it is moved up to close the ring. */
function close(net: Net, begin: number, place: number): void {
  const last = net.ids.length - 1;
  if (last > begin && net.ids[last] === net.ids[begin]) net.places[last] = place;
  else if (last > begin) append(net, begin, net.ids[begin]!, place);
}

/** Points to be put into segments, found in one round. */
interface Splits {
  readonly segments: number[];
  readonly ids: number[];
  readonly ts: number[];
}

function splitUntilStable(net: Net, snap: number): void {
  let fresh: readonly boolean[] | null = null;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const reach = round < FULL_SNAP_ROUNDS ? snap : snap * 0.5 ** (round - FULL_SNAP_ROUNDS + 1);
    const splits = findSplits(net, reach, fresh);
    if (splits.segments.length === 0) return;
    fresh = applySplits(net, splits);
  }
}

function findSplits(net: Net, reach: number, fresh: readonly boolean[] | null): Splits {
  const { store, ids, first } = net;
  const splits: Splits = { segments: [], ids: [], ts: [] };
  const { xs, ys } = store;
  const split = (segment: number, id: number, t: number): void => {
    splits.segments.push(segment);
    splits.ids.push(id);
    splits.ts.push(t);
  };
  /** Put point w into a segment if it lies close beside its inside. */
  const drawn = (segment: number, w: number): boolean => {
    const a = ids[segment]!;
    const b = ids[segment + 1]!;
    if (w === a || w === b) return false;
    const t = besideInside(xs, ys, w, a, b, reach);
    if (t > 0) split(segment, w, t);
    return t > 0;
  };
  const visit = (i: number, j: number): void => {
    const a = ids[i]!;
    const b = ids[i + 1]!;
    const c = ids[j]!;
    const d = ids[j + 1]!;
    let met = drawn(i, c);
    met = drawn(i, d) || met;
    met = drawn(j, a) || met;
    met = drawn(j, b) || met;
    if (met || a === c || a === d || b === c || b === d) return;
    if (!cross(xs, ys, a, b, c, d)) return;
    const [x, y] = crossing(xs, ys, a, b, c, d);
    const id = store.findOrAdd(x, y, reach * MERGE);
    if (id !== a && id !== b) split(i, id, along(xs, ys, id, a, b));
    if (id !== c && id !== d) split(j, id, along(xs, ys, id, c, d));
  };
  const isFresh = fresh ? (k: number): boolean => fresh[k]! : () => true;
  forEachNearPair({ xs, ys, ids, first }, reach, visit, isFresh);
  return splits;
}

/** Parameter of the foot of w on segment a b if w lies within reach of it and between its ends, else -1. */
function besideInside(
  xs: readonly number[],
  ys: readonly number[],
  w: number,
  a: number,
  b: number,
  reach: number,
): number {
  const dx = xs[b]! - xs[a]!;
  const dy = ys[b]! - ys[a]!;
  const wx = xs[w]! - xs[a]!;
  const wy = ys[w]! - ys[a]!;
  const l2 = dx * dx + dy * dy;
  const along = wx * dx + wy * dy;
  if (along <= 0 || along >= l2) return -1;
  const beside = wx * dy - wy * dx;
  return beside * beside <= reach * reach * l2 ? along / l2 : -1;
}

/** Whether segments a b and c d cross in their insides; exact. */
function cross(
  xs: readonly number[],
  ys: readonly number[],
  a: number,
  b: number,
  c: number,
  d: number,
): boolean {
  const side = (p: number, q: number, r: number): number =>
    turnOf(xs[p]!, ys[p]!, xs[q]!, ys[q]!, xs[r]!, ys[r]!);
  return side(a, b, c) > 0 !== side(a, b, d) > 0 && side(c, d, a) > 0 !== side(c, d, b) > 0;
}

/** Where the lines through a b and c d cross, measured from a so that little is lost to rounding; kept within the segment. */
function crossing(
  xs: readonly number[],
  ys: readonly number[],
  a: number,
  b: number,
  c: number,
  d: number,
): [number, number] {
  const [ux, uy] = [xs[b]! - xs[a]!, ys[b]! - ys[a]!];
  const [vx, vy] = [xs[d]! - xs[c]!, ys[d]! - ys[c]!];
  const [wx, wy] = [xs[c]! - xs[a]!, ys[c]! - ys[a]!];
  const t = Math.min(1, Math.max(0, (wx * vy - wy * vx) / (ux * vy - uy * vx) || 0));
  return [xs[a]! + ux * t, ys[a]! + uy * t];
}

/** Parameter of the foot of point w on segment a b, kept strictly inside. */
function along(xs: readonly number[], ys: readonly number[], w: number, a: number, b: number): number {
  const [dx, dy] = [xs[b]! - xs[a]!, ys[b]! - ys[a]!];
  const t = ((xs[w]! - xs[a]!) * dx + (ys[w]! - ys[a]!) * dy) / (dx * dx + dy * dy);
  return Math.min(1 - 1e-12, Math.max(1e-12, t));
}

/** Put the points in; returns for each segment of the new list whether it is new. */
function applySplits(net: Net, splits: Splits): boolean[] {
  const order = splits.segments.map((_, k) => k);
  order.sort((p, q) => splits.segments[p]! - splits.segments[q]! || splits.ts[p]! - splits.ts[q]! || p - q);
  const split: Net = { store: net.store, ids: [], places: [], arrivals: [], departures: [], first: [0] };
  const fresh: boolean[] = [];
  const push = (id: number, place: number, arrival: number, departure: number, isFresh: boolean): void => {
    split.ids.push(id);
    split.places.push(place);
    split.arrivals.push(arrival);
    split.departures.push(departure);
    fresh.push(isFresh);
  };
  let s = 0;
  for (let p = 0; p + 1 < net.first.length; p += 1) {
    for (let k = net.first[p]!; k < net.first[p + 1]!; k += 1) {
      const isSplit = s < order.length && splits.segments[order[s]!] === k;
      push(net.ids[k]!, net.places[k]!, net.arrivals[k]!, net.departures[k]!, isSplit);
      for (; s < order.length && splits.segments[order[s]!] === k; s += 1) {
        const id = splits.ids[order[s]!]!;
        if (id === split.ids[split.ids.length - 1] || id === net.ids[k + 1]) continue;
        const [from, to] = [net.departures[k]!, net.arrivals[k + 1]!];
        const last = split.places[split.places.length - 1]!;
        // Two points with the same foot still need places that tell their order.
        const place = Math.max(from + splits.ts[order[s]!]! * (to - from), last + (to - last) * 1e-9);
        push(id, place, place, place, true);
      }
    }
    split.first.push(split.ids.length);
  }
  Object.assign(net, split);
  return fresh;
}
