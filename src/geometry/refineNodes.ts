import { directionAt } from './curve';
import { refAtPlace, type ChordedPath } from './drawnPath';
import { crossingNear, nearestFrom } from './intersect';
import type { NodedEdge } from './noding';
import { pointOn } from './path';
import { CHORD_SAGITTA } from './tolerances';
import type { CurveRef, Pt } from './types';
import { cross, distance } from './vector';

/** One drawn path passing through a node: where noding put it, and the place on the true curve. */
interface Strand {
  readonly chords: ChordedPath;
  readonly polyline: number;
  readonly place: number;
  ref: CurveRef;
  /** Edges that begin or end here and that another path runs along too. */
  readonly shared: number[];
}

export interface RefinedNodes {
  readonly points: readonly Pt[];
  /** How much a node may not be moved: 3 a corner of the outline, 2 on the outline, 1 a corner of a line, 0 anything else. */
  readonly hold: readonly number[];
  /** The path that decided a node's place, and the place on it. */
  readonly leads: readonly ({ readonly polyline: number; readonly ref: CurveRef } | null)[];
  /** Place on the true path of a drawn path's stretch that begins or ends at a node. */
  readonly refAt: (node: number, polyline: number, place: number) => CurveRef;
}

/** The true crossing may lie this far from where the chords crossed, mm: very flat crossings wander along. */
const MOST_SHIFT = 10 * CHORD_SAGITTA;
/** Sine of the angle below which two curves are taken to touch, not to cross. */
const FLAT = 1e-4;

/**
 * Put nodes where the true curves meet. A corner of the first path at the node (outline, then lines in order; paths
 * that run on before paths that end there) is taken as it is; else the crossing of that path with the one that crosses it most squarely;
 * else its nearest point. So no outline is ever bent to fit a line.
 */
export function refineNodes(
  nodes: readonly Pt[],
  edges: readonly NodedEdge[],
  all: readonly ChordedPath[],
): RefinedNodes {
  const strands: Strand[][] = nodes.map(() => []);
  const strandAt = (node: number, polyline: number, place: number): Strand => {
    const known = strands[node]!.find((s) => s.polyline === polyline && s.place === place);
    if (known) return known;
    const chords = all[polyline]!;
    const strand: Strand = { chords, polyline, place, ref: refAtPlace(chords, place), shared: [] };
    strands[node]!.push(strand);
    return strand;
  };
  edges.forEach(({ from, to, sources }, edge) => {
    for (const { polyline, start, end } of sources) {
      const [a, b] = [strandAt(from, polyline, start), strandAt(to, polyline, end)];
      if (sources.length === 1) continue;
      a.shared.push(edge);
      b.shared.push(edge);
    }
  });
  const mains = nodes.map((p, i) => settle(p, strands[i]!));
  keepOrder(strands);
  return {
    points: mains.map((main, i) => (main ? pointOn(main.chords.drawn.path, main.ref) : nodes[i]!)),
    hold: mains.map((main) => (main ? holdOf(main) : 0)),
    refAt: (node, polyline, place) => strandAt(node, polyline, place).ref,
    leads: mains.map((main) => (main ? { polyline: main.polyline, ref: main.ref } : null)),
  };
}

const holdOf = ({ chords, ref }: Strand): number =>
  (isAtCorner(ref) ? 1 : 0) + (chords.drawn.source.kind === 'outline' ? 2 : 0);

/** Places on one path must keep the order the chords have, even where flat crossings moved a long way. */
function keepOrder(strands: readonly Strand[][]): void {
  const along = strands.flat().sort((a, b) => a.polyline - b.polyline || a.place - b.place);
  along.forEach((s, i) => {
    const before = along[i - 1];
    if (before?.polyline === s.polyline && isBefore(s.ref, before.ref)) s.ref = before.ref;
  });
}

const isBefore = (a: CurveRef, b: CurveRef): boolean =>
  a.index < b.index || (a.index === b.index && a.t < b.t);

/** Fix the strands' places; returns the one that the node's point lies on. */
function settle(rough: Pt, strands: Strand[]): Strand | null {
  const order = strands.toSorted((a, b) => rank(a) - rank(b) || a.polyline - b.polyline || a.place - b.place);
  const main = order[0];
  if (!main) return null;
  const others = order.slice(1);
  if (!isAtCorner(main.ref)) {
    const mate = squarest(main, others);
    if (!mate || !moveToCrossing(main, mate, rough)) main.ref = nearestOn(main, rough);
  }
  const point = pointOn(main.chords.drawn.path, main.ref);
  for (const s of others) if (!isAtCorner(s.ref)) s.ref = nearestOn(s, point);
  return main;
}

const isAtCorner = (ref: CurveRef): boolean => ref.t === 0 || ref.t === 1;
const nearestOn = ({ chords, ref }: Strand, p: Pt): CurveRef => ({
  index: ref.index,
  t: nearestFrom(chords.drawn.path[ref.index]!, ref.t, p),
});

const isPathEnd = ({ drawn, closed }: ChordedPath, { index, t }: CurveRef): boolean =>
  !closed && ((index === 0 && t === 0) || (index === drawn.path.length - 1 && t === 1));

/** Outline first, then lines that run on, then lines that end. */
const rank = ({ chords, ref }: Strand): number =>
  chords.drawn.source.kind === 'outline' ? 0 : isPathEnd(chords, ref) ? 2 : 1;

/** The strand that crosses the main one most squarely; null if all run along it. One that shares an edge with it only parts from it here. */
function squarest(main: Strand, others: readonly Strand[]): Strand | null {
  const way = directionAt(main.chords.drawn.path[main.ref.index]!, main.ref.t);
  let best: Strand | null = null;
  let most = FLAT;
  for (const s of others) {
    if (isPathEnd(s.chords, s.ref) || s.shared.some((e) => main.shared.includes(e))) continue;
    const sine = Math.abs(cross(way, directionAt(s.chords.drawn.path[s.ref.index]!, s.ref.t)));
    if (sine > most) [best, most] = [s, sine];
  }
  return best;
}

/**
 * Move both strands to the true crossing near the rough one; false if there is none on these two curves. A neighbouring curve
 * is not tried: joints are points of the chords, so the chords know on which side of a joint the crossing is.
 */
function moveToCrossing(main: Strand, mate: Strand, rough: Pt): boolean {
  const [c, d] = [main.chords.drawn.path[main.ref.index]!, mate.chords.drawn.path[mate.ref.index]!];
  const hit = crossingNear(c, main.ref.t, d, mate.ref.t);
  if (!hit || hit.t < 0 || hit.t > 1 || hit.u < 0 || hit.u > 1) return false;
  if (distance(hit.point, rough) > MOST_SHIFT) return false;
  main.ref = { index: main.ref.index, t: hit.t };
  mate.ref = { index: mate.ref.index, t: hit.u };
  return true;
}
