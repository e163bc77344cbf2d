import { boxOfPoints } from './box';
import { signedAreaOfPoints } from './area';
import { turn } from './orientation';
import { whereInRing } from './inside';
import type { HalfEdge } from './subdivision';
import type { Box, Polyline, Pt } from './types';

/** An edge of a planar drawing: its corner points, both nodes included. Edges meet at nodes only (see nodePolylines). */
export interface FaceEdge {
  readonly from: number;
  readonly to: number;
  readonly points: Polyline;
}

export interface TracedFace {
  /** Edges round the face, signedArea > 0. */
  readonly ring: readonly HalfEdge[];
  /** Rings of what lies loose inside the face, signedArea <= 0. */
  readonly holes: readonly (readonly HalfEdge[])[];
}

/** All bounded faces of a drawing, in order of their first half-edge (edge 0 forward, edge 0 backward, edge 1 forward …). */
export interface TracedFaces {
  readonly faces: readonly TracedFace[];
  /** For each edge the face whose ring or hole has it forwards; null is the unbounded face. */
  readonly forwardFace: readonly (number | null)[];
  /** The face that has it backwards. */
  readonly backwardFace: readonly (number | null)[];
}

/** Half-edge h belongs to edge h >> 1 and runs backwards when odd; its twin is h ^ 1. */
interface Wheel {
  readonly next: Int32Array;
  readonly originOf: (h: number) => number;
}

/**
 * Find the faces of a planar drawing. Every edge lies on two face sides (the same face twice for a slit).
 * Always ends: each half-edge has one successor and is one's successor, whatever the input.
 * @param nodeCount nodes are 0 to nodeCount - 1
 */
export function traceFaces(nodeCount: number, edges: readonly FaceEdge[]): TracedFaces {
  const wheel = turnWheels(nodeCount, edges);
  const cycles = cyclesOf(wheel, edges);
  const faceOf = assignFaces(cycles, componentsOf(nodeCount, edges), edges);
  const faces: { ring: readonly HalfEdge[]; holes: (readonly HalfEdge[])[] }[] = [];
  cycles.list.forEach((c, i) => {
    if (c.area > 0) faces[faceOf[i]!] = { ring: c.halves.map(asHalfEdge), holes: [] };
  });
  cycles.list.forEach((c, i) => {
    const face = faceOf[i];
    if (c.area <= 0 && face != null) faces[face]!.holes.push(c.halves.map(asHalfEdge));
  });
  const faceAt = (h: number): number | null => faceOf[cycles.cycleOf[h]!]!;
  return {
    faces,
    forwardFace: edges.map((_, e) => faceAt(2 * e)),
    backwardFace: edges.map((_, e) => faceAt(2 * e + 1)),
  };
}

const asHalfEdge = (h: number): HalfEdge => ({ edge: h >> 1, forward: (h & 1) === 0 });

/** Sort the half-edges leaving each node by direction and link each half-edge to the one that follows round its face. */
function turnWheels(nodeCount: number, edges: readonly FaceEdge[]): Wheel {
  const originOf = (h: number): number => (h & 1 ? edges[h >> 1]!.to : edges[h >> 1]!.from);
  const leaving: number[][] = Array.from({ length: nodeCount }, () => []);
  edges.forEach((e, i) => {
    leaving[e.from]!.push(2 * i);
    leaving[e.to]!.push(2 * i + 1);
  });
  const next = new Int32Array(edges.length * 2);
  for (const halves of leaving) {
    if (halves.length > 2) halves.sort((g, h) => byDirection(edges, g, h));
    halves.forEach((h, i) => {
      // Arriving against h, the face keeps to its own side: on with the half-edge just before h in turning order.
      next[h ^ 1] = halves[(i + halves.length - 1) % halves.length]!;
    });
  }
  return { next, originOf };
}

/** Node and first point after it on a half-edge. */
function firstStretch(edges: readonly FaceEdge[], h: number): [Pt, Pt] {
  const p = edges[h >> 1]!.points;
  return h & 1 ? [p[p.length - 1]!, p[p.length - 2]!] : [p[0]!, p[1]!];
}

/** Order of directions from +x over +y round; exact. */
function byDirection(edges: readonly FaceEdge[], g: number, h: number): number {
  const [o, p] = firstStretch(edges, g);
  const [, q] = firstStretch(edges, h);
  const [gHalf, hHalf] = [halfPlane(o, p), halfPlane(o, q)];
  return gHalf - hHalf || -turn(o, p, q) || g - h;
}

const halfPlane = (o: Pt, p: Pt): number => (p[1] > o[1] || (p[1] === o[1] && p[0] > o[0]) ? 0 : 1);

interface Cycle {
  readonly halves: readonly number[];
  readonly area: number;
}
interface Cycles {
  readonly list: readonly Cycle[];
  readonly cycleOf: Int32Array;
}

function cyclesOf({ next }: Wheel, edges: readonly FaceEdge[]): Cycles {
  const origin = edges[0]?.points[0] ?? [0, 0];
  const swept = edges.map((e) => signedAreaOfPoints([origin, ...e.points]));
  const cycleOf = new Int32Array(next.length).fill(-1);
  const list: Cycle[] = [];
  for (let h = 0; h < next.length; h += 1) {
    if (cycleOf[h]! >= 0) continue;
    const halves: number[] = [];
    let area = 0;
    for (let g = h; cycleOf[g]! < 0; g = next[g]!) {
      cycleOf[g] = list.length;
      halves.push(g);
      area += g & 1 ? -swept[g >> 1]! : swept[g >> 1]!;
    }
    list.push({ halves, area: isThereAndBack(halves) ? 0 : area });
  }
  return { list, cycleOf };
}

/** Whether a cycle runs every edge both ways: it then encloses nothing, whatever rounding says. */
function isThereAndBack(halves: readonly number[]): boolean {
  if (halves.length % 2 === 1) return false;
  const seen = new Set(halves);
  return halves.every((h) => seen.has(h ^ 1));
}

/** For each node a number shared by all nodes connected with it. */
function componentsOf(nodeCount: number, edges: readonly FaceEdge[]): (node: number) => number {
  const parent = Int32Array.from({ length: nodeCount }, (_, i) => i);
  const rootOf = (v: number): number => {
    let root = v;
    while (parent[root] !== root) root = parent[root]!;
    for (let w = v; parent[w] !== root;) [w, parent[w]] = [parent[w]!, root];
    return root;
  };
  for (const e of edges) parent[rootOf(e.from)] = rootOf(e.to);
  return rootOf;
}

/** Face number of each cycle; a cycle without area takes the smallest ring round it, null if there is none. */
function assignFaces(
  cycles: Cycles,
  componentOf: (node: number) => number,
  edges: readonly FaceEdge[],
): (number | null)[] {
  const component = cycles.list.map((c) => componentOf(edges[c.halves[0]! >> 1]!.from));
  const outer = cycles.list.flatMap((c, i) => (c.area > 0 ? [i] : []));
  const faceOf: (number | null)[] = cycles.list.map(() => null);
  outer.forEach((i, face) => (faceOf[i] = face));
  if (new Set(component).size < 2) return faceOf;
  const bySize = outer.toSorted((i, j) => cycles.list[i]!.area - cycles.list[j]!.area || i - j);
  const rings = new Map(bySize.map((i) => [i, boxed(pointsOfCycle(cycles.list[i]!.halves, edges))]));
  cycles.list.forEach((c, i) => {
    if (c.area > 0) return;
    const spot = edges[c.halves[0]! >> 1]!.points[0]!;
    const round = bySize.find((j) => component[j] !== component[i] && isWithin(spot, rings.get(j)!));
    faceOf[i] = round === undefined ? null : faceOf[round]!;
  });
  return faceOf;
}

interface BoxedRing {
  readonly points: Polyline;
  readonly box: Box;
}

const boxed = (points: Polyline): BoxedRing => ({ points, box: boxOfPoints(points) });

const isWithin = (p: Pt, { points, box }: BoxedRing): boolean =>
  p[0] >= box.minX &&
  p[0] <= box.maxX &&
  p[1] >= box.minY &&
  p[1] <= box.maxY &&
  whereInRing(p, points) === 'inside';

function pointsOfCycle(halves: readonly number[], edges: readonly FaceEdge[]): Pt[] {
  return halves.flatMap((h) => {
    const p = edges[h >> 1]!.points;
    return h & 1 ? p.slice(1).toReversed() : p.slice(0, -1);
  });
}

/**
 * How often closed polylines wind round each face: 1 inside a single ring with positive signedArea, 0 outside all.
 * @param weights for each edge: how many polylines run along it forwards, less how many backwards
 * @returns one number for each face; the unbounded face has 0
 */
export function windingNumbers(traced: TracedFaces, weights: readonly number[]): readonly number[] {
  const n = traced.faces.length;
  const winding: (number | undefined)[] = Array.from({ length: n + 1 }, () => undefined);
  const beside: { face: number; rise: number }[][] = Array.from({ length: n + 1 }, () => []);
  weights.forEach((w, e) => {
    const [ahead, behind] = [traced.forwardFace[e] ?? n, traced.backwardFace[e] ?? n];
    beside[behind]!.push({ face: ahead, rise: w });
    beside[ahead]!.push({ face: behind, rise: -w });
  });
  winding[n] = 0;
  const queue = [n];
  for (let face = queue.pop(); face !== undefined; face = queue.pop()) {
    for (const step of beside[face]!) {
      if (winding[step.face] !== undefined) continue;
      winding[step.face] = winding[face]! + step.rise;
      queue.push(step.face);
    }
  }
  return winding.slice(0, n).map((w) => w ?? 0);
}
