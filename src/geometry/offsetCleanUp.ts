import { crossingNear } from './curveCrossing';
import { pointAt, subCurve, withEnds } from './curve';
import { traceFaces, windingNumbers } from './faces';
import { nodePolylines, type Noded } from './noding';
import { turn } from './orientation';
import type { OffsetCurve } from './rawOffset';
import { chordRing, meetings, type ChordRing } from './simplicity';
import { CHORD_SAGITTA, CLEAN_UP_SNAPS } from './tolerances';
import type { Pt } from './types';
import { distance } from './vector';

/** A stretch of one raw curve; runs against it when from > to. */
interface Stretch {
  readonly curve: number;
  readonly from: number;
  readonly to: number;
}

/** A border edge from node to node with the region on its inner side (perpendicular to its direction of travel). */
interface BorderEdge {
  readonly edge: number;
  readonly forward: boolean;
  readonly from: number;
  readonly to: number;
}

/**
 * The border of the region where a closed curve, which may cross itself, has a positive winding number.
 * The curve is noded as chords; the rings are cut from its true curves at the parameters found, crossings polished by
 * Newton's method. Outer rings have positive signedArea, holes negative; unordered.
 * Tried with ever coarser snapping until the rings are simple; where even that does not help the first try is taken.
 * @param raw    the closed curve
 * @param chords the same as chords
 */
export function borderOfPositive(raw: readonly OffsetCurve[], chords: ChordRing): OffsetCurve[][] {
  let first: OffsetCurve[][] | null = null;
  for (const snap of CLEAN_UP_SNAPS) {
    const rings = borderSnapped(raw, chords, snap);
    const asChords = rings.map((ring) =>
      chordRing(
        ring.map((c) => c.curve),
        CHORD_SAGITTA,
      ),
    );
    if (meetings(asChords).length === 0) return rings;
    first ??= rings;
  }
  return first ?? [];
}

function borderSnapped(raw: readonly OffsetCurve[], chords: ChordRing, snap: number): OffsetCurve[][] {
  const points = chords.xs.map((x, k): Pt => [x, chords.ys[k]!]);
  const corners = chords.refs.flatMap((ref, k) => (ref.t === 0 ? [k] : []));
  const noded = nodePolylines([{ points, closed: true, corners }], { snap });
  const loops = linkLoops(noded, borderEdges(noded));
  return loops.map((loop) => ringAlong(loop, noded, raw, chords)).filter((ring) => ring.length > 1);
}

/** Edges with a positive winding number on one side only. */
function borderEdges(noded: Noded): BorderEdge[] {
  const traced = traceFaces(noded.nodes.length, noded.edges);
  const weights = noded.edges.map((e) => e.sources.reduce((sum, s) => sum + (s.start < s.end ? 1 : -1), 0));
  const winding = windingNumbers(traced, weights);
  const isIn = (face: number | null | undefined): boolean => face != null && winding[face]! > 0;
  return noded.edges.flatMap(({ from, to }, edge): BorderEdge[] => {
    const [ahead, behind] = [isIn(traced.forwardFace[edge]), isIn(traced.backwardFace[edge])];
    if (ahead === behind) return [];
    return [ahead ? { edge, forward: true, from, to } : { edge, forward: false, from: to, to: from }];
  });
}

/** Join border edges to loops. Where several leave a node the loop keeps to its own part of the region. */
function linkLoops(noded: Noded, borders: readonly BorderEdge[]): BorderEdge[][] {
  const leaving = new Map<number, BorderEdge[]>();
  for (const b of borders) {
    const here = leaving.get(b.from);
    if (here) here.push(b);
    else leaving.set(b.from, [b]);
  }
  const taken = new Set<BorderEdge>();
  const loops: BorderEdge[][] = [];
  for (const first of borders) {
    if (taken.has(first)) continue;
    const loop: BorderEdge[] = [];
    let edge: BorderEdge | undefined = first;
    while (edge && !taken.has(edge)) {
      taken.add(edge);
      loop.push(edge);
      if (edge.to === first.from) break;
      edge = nextAround(noded, edge, leaving.get(edge.to)?.filter((e) => !taken.has(e)) ?? []);
    }
    if (loop.at(-1)!.to === first.from) loops.push(loop);
  }
  return loops;
}

/** The edge met first when turning from the way back over the inner side. */
function nextAround(
  noded: Noded,
  arriving: BorderEdge,
  choices: readonly BorderEdge[],
): BorderEdge | undefined {
  if (choices.length < 2) return choices[0];
  const [inner, node] = lastStretch(noded, arriving);
  const isBefore = (p: Pt, q: Pt): boolean => {
    const [sideP, sideQ] = [turn(inner, node, p) > 0, turn(inner, node, q) > 0];
    return sideP === sideQ ? turn(node, q, p) > 0 : sideP;
  };
  return choices.reduce((best, e) => (isBefore(firstPoint(noded, e), firstPoint(noded, best)) ? e : best));
}

function lastStretch(noded: Noded, { edge, forward }: BorderEdge): [Pt, Pt] {
  const { points } = noded.edges[edge]!;
  return forward ? [points.at(-2)!, points.at(-1)!] : [points[1]!, points[0]!];
}

function firstPoint(noded: Noded, { edge, forward }: BorderEdge): Pt {
  const { points } = noded.edges[edge]!;
  return forward ? points[1]! : points.at(-2)!;
}

/** The true curves along a loop. */
function ringAlong(
  loop: readonly BorderEdge[],
  noded: Noded,
  raw: readonly OffsetCurve[],
  chords: ChordRing,
): OffsetCurve[] {
  const stretches: Stretch[] = [];
  const starts: Pt[] = [];
  for (const border of loop) {
    const { start, end } = noded.edges[border.edge]!.sources[0]!;
    const [from, to] = border.forward ? [start, end] : [end, start];
    stretchesBetween(from, to, chords).forEach((s, i) => {
      const before = stretches.at(-1);
      if (before && before.curve === s.curve && before.to === s.from) {
        stretches[stretches.length - 1] = { ...before, to: s.to };
        return;
      }
      stretches.push(s);
      starts.push(i === 0 ? noded.nodes[border.from]! : pointAt(raw[s.curve]!.curve, s.from));
    });
  }
  const first = stretches[0];
  const last = stretches.at(-1);
  if (first && last && stretches.length > 1 && first.curve === last.curve && last.to === first.from) {
    stretches[0] = { ...last, to: first.to };
    starts[0] = starts.at(-1)!;
    stretches.pop();
    starts.pop();
  }
  return cutRing(stretches, starts, raw);
}

/** The raw curves between two places of the chord ring (point numbers with a fraction), in the direction of travel. */
function stretchesBetween(from: number, to: number, chords: ChordRing): Stretch[] {
  if (from > to) {
    return stretchesBetween(to, from, chords)
      .map(({ curve, from: a, to: b }) => ({ curve, from: b, to: a }))
      .reverse();
  }
  const at = (place: number): { curve: number; t: number } => {
    const n = chords.refs.length;
    const k = Math.min(n - 1, Math.floor(place));
    const { index, t } = chords.refs[k]!;
    const next = k + 1 < n && chords.refs[k + 1]!.index === index ? chords.refs[k + 1]!.t : 1;
    return { curve: index, t: t + (place - k) * (next - t) };
  };
  const [a, b] = [at(from), at(to)];
  if (a.curve === b.curve) return a.t < b.t ? [{ curve: a.curve, from: a.t, to: b.t }] : [];
  const out: Stretch[] = [];
  for (let curve = a.curve; curve <= b.curve; curve += 1) {
    const stretch = { curve, from: curve === a.curve ? a.t : 0, to: curve === b.curve ? b.t : 1 };
    if (stretch.to > stretch.from) out.push(stretch);
  }
  return out;
}

/** Cut the stretches from the raw curves, their ends on true crossings; stretches too short to tell are left out. */
function cutRing(
  stretches: readonly Stretch[],
  nodes: readonly Pt[],
  raw: readonly OffsetCurve[],
): OffsetCurve[] {
  const exact = stretches.map((s): Stretch => ({ ...s }));
  const starts = nodes.map((p): Pt => p);
  exact.forEach((after, i) => {
    const j = (i + exact.length - 1) % exact.length;
    const before = exact[j]!;
    const [a, b] = [raw[before.curve]!.curve, raw[after.curve]!.curve];
    const isJoint = (before.to === 1 && after.from === 0) || (before.to === 0 && after.from === 1);
    if (i === j || isJoint) return;
    const found = crossingNear(a, b, before.to, after.from);
    if (!found || distance(found.at, starts[i]!) > FARTHEST_POLISH) return;
    if (keepsItsWay(before.from, before.to, found.t) && keepsItsWay(found.u, after.from, after.to, true)) {
      exact[j] = { ...before, to: found.t };
      exact[i] = { ...after, from: found.u };
      starts[i] = found.at;
    }
  });
  return gluedRing(exact, starts, raw);
}

/** The cut stretches with their ends on the starts; one shorter than the snap distance is left out and its neighbours meet. */
function gluedRing(
  stretches: readonly Stretch[],
  starts: readonly Pt[],
  raw: readonly OffsetCurve[],
): OffsetCurve[] {
  const n = stretches.length;
  const cut = stretches.map((s) => subCurve(raw[s.curve]!.curve, s.from, s.to));
  const kept = cut.flatMap((c, i) => {
    const p = starts[i]!;
    const isNothing =
      c.every((r) => distance(r, p) < CLEAN_UP_SNAPS[0]) &&
      distance(p, starts[(i + 1) % n]!) < CLEAN_UP_SNAPS[0];
    return isNothing ? [] : [i];
  });
  return kept.map((i, k): OffsetCurve => {
    const next = kept[(k + 1) % kept.length]!;
    return { curve: withEnds(cut[i]!, starts[i]!, starts[next]!), origin: raw[stretches[i]!.curve]!.origin };
  });
}

/** A crossing found on chords may lie this far from the true one, mm: two flat crossing curves shift it along. */
const FARTHEST_POLISH = 1;

/** Whether a stretch still runs the same way when one end moves. */
function keepsItsWay(from: number, to: number, end: number, isStart = false): boolean {
  return isStart ? (to < end ? from < end : from > end) : to > from ? end > from : end < from;
}
