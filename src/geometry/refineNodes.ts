import { directionAt } from './curve';
import { refAtPlace, type ChordedPath } from './drawnPath';
import { crossingNear, nearestRefFrom, neighbourRef } from './intersect';
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
}

export interface RefinedNodes {
  readonly points: readonly Pt[];
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
  const add = (node: number, polyline: number, place: number): void => {
    const here = strands[node]!;
    if (here.some((s) => s.polyline === polyline && s.place === place)) return;
    const chords = all[polyline]!;
    here.push({ chords, polyline, place, ref: refAtPlace(chords, place) });
  };
  for (const { from, to, sources } of edges) {
    for (const { polyline, start, end } of sources) {
      add(from, polyline, start);
      add(to, polyline, end);
    }
  }
  const points = nodes.map((p, i) => settle(p, strands[i]!));
  const refAt = (node: number, polyline: number, place: number): CurveRef =>
    strands[node]!.find((s) => s.polyline === polyline && s.place === place)!.ref;
  return { points, refAt };
}

/** Fix the strands' places and tell the node's point. */
function settle(rough: Pt, strands: Strand[]): Pt {
  const order = strands.toSorted((a, b) => rank(a) - rank(b) || a.polyline - b.polyline || a.place - b.place);
  const main = order[0];
  if (!main) return rough;
  const others = order.slice(1);
  if (!isAtCorner(main.ref)) {
    const mate = squarest(main, others);
    if (!mate || !cross2(main, mate, rough)) main.ref = nearestOn(main, rough);
  }
  const point = pointOn(main.chords.drawn.path, main.ref);
  for (const s of others) if (!isAtCorner(s.ref)) s.ref = nearestOn(s, point);
  return point;
}

const isAtCorner = (ref: CurveRef): boolean => ref.t === 0 || ref.t === 1;
const nearestOn = ({ chords, ref }: Strand, p: Pt): CurveRef => nearestRefFrom(chords.drawn.path, ref, p);

const isPathEnd = ({ drawn, closed }: ChordedPath, { index, t }: CurveRef): boolean =>
  !closed && ((index === 0 && t === 0) || (index === drawn.path.length - 1 && t === 1));

/** Outline first, then lines that run on, then lines that end. */
const rank = ({ chords, ref }: Strand): number =>
  chords.drawn.source.kind === 'outline' ? 0 : isPathEnd(chords, ref) ? 2 : 1;

/** The strand that crosses the main one most squarely; null if all run along it. */
function squarest(main: Strand, others: readonly Strand[]): Strand | null {
  const way = directionAt(main.chords.drawn.path[main.ref.index]!, main.ref.t);
  let best: Strand | null = null;
  let most = FLAT;
  for (const s of others) {
    if (isPathEnd(s.chords, s.ref)) continue;
    const sine = Math.abs(cross(way, directionAt(s.chords.drawn.path[s.ref.index]!, s.ref.t)));
    if (sine > most) [best, most] = [s, sine];
  }
  return best;
}

/** Move both strands to the true crossing near the rough one; false if there is none. */
function cross2(main: Strand, mate: Strand, rough: Pt): boolean {
  for (const a of named(main)) {
    for (const b of named(mate)) {
      const hit = crossingNear(main.chords.drawn.path[a.index]!, a.t, mate.chords.drawn.path[b.index]!, b.t);
      if (!hit || hit.t < 0 || hit.t > 1 || hit.u < 0 || hit.u > 1) continue;
      if (distance(hit.point, rough) > MOST_SHIFT) continue;
      main.ref = { index: a.index, t: hit.t };
      mate.ref = { index: b.index, t: hit.u };
      return true;
    }
  }
  return false;
}

/** The place of a strand as it stands, and on the neighbouring curve where a joint is near. */
function named({ chords, ref }: Strand): CurveRef[] {
  const before = ref.t < 0.1 ? neighbourRef(chords.drawn.path, ref, -1) : null;
  const after = ref.t > 0.9 ? neighbourRef(chords.drawn.path, ref, 1) : null;
  return [ref, ...(before ? [before] : []), ...(after ? [after] : [])];
}
