import type { TracedFace } from './faces';
import type { Noded, NodedEdge } from './noding';
import type { RefinedNodes } from './refineNodes';
import { SAME_POINT, TOUCH_GAP } from './tolerances';
import { distance, lengthOfPoints } from './vector';

/** What shrinks to points. */
export interface TinyEdges {
  readonly gone: ReadonlySet<number>;
  /** Faces of which nothing is left. */
  readonly goneFaces: ReadonlySet<number>;
  /** For each node the node it has become, itself where it stays. */
  readonly alias: readonly number[];
}

/** Nodes this near each other after refining are one, mm: noding keeps points farther apart, but refining moves them. */
const ONE_NODE = SAME_POINT / 2;
/** So are nodes that come together from up to this far apart, mm (refining moves no node half as far) if they truly meet. */
const FARTHEST_APART = 50 * SAME_POINT;

/** Whether an edge has shrunk to nothing; one with longer chords goes round something, even if its ends have met. */
function hasShrunk({ from, to, points }: NodedEdge, refined: RefinedNodes): boolean {
  const apart = distance(refined.points[from]!, refined.points[to]!);
  if (apart >= ONE_NODE) return false;
  return lengthOfPoints(points) <= (apart < TOUCH_GAP ? FARTHEST_APART : 5 * SAME_POINT);
}

/**
 * Edges whose ends have come together when nodes were put on the true curves, and faces with no other edges. An edge beside another one
 * between the same nodes stays, or the face between them would be lost.
 */
export function findTinyEdges(
  { nodes, edges }: Noded,
  faces: readonly TracedFace[],
  refined: RefinedNodes,
): TinyEdges {
  const draft = { gone: new Set<number>(), goneFaces: new Set<number>(), alias: nodes.map((_, i) => i) };
  const isTiny = edges.map((e) => hasShrunk(e, refined));
  if (!isTiny.includes(true)) return draft;
  const join = (edge: number): void => {
    const [a, b] = [finalNode(draft.alias, edges[edge]!.from), finalNode(draft.alias, edges[edge]!.to)];
    draft.gone.add(edge);
    if (a !== b) keepFirmer(draft.alias, a, b, refined);
  };
  faces.forEach(({ ring, holes }, face) => {
    if (holes.length > 0 || !ring.every((h) => isTiny[h.edge])) return;
    draft.goneFaces.add(face);
    for (const h of ring) join(h.edge);
  });
  edges.forEach((_, edge) => {
    if (isTiny[edge] && !draft.gone.has(edge) && isAlone(edge, edges, draft)) join(edge);
  });
  return draft;
}

/** Of two nodes the one on the outline or at a corner is kept, else the first. */
function keepFirmer(alias: number[], a: number, b: number, refined: RefinedNodes): void {
  if (refined.hold[b]! > refined.hold[a]!) alias[a] = b;
  else alias[b] = a;
}

/** Whether an edge joins two nodes that no other edge joins. */
function isAlone(edge: number, edges: readonly NodedEdge[], { gone, alias }: TinyEdges): boolean {
  const [a, b] = [finalNode(alias, edges[edge]!.from), finalNode(alias, edges[edge]!.to)];
  if (a === b) return false;
  return edges.every((e, k) => {
    if (k === edge || gone.has(k)) return true;
    const [c, d] = [finalNode(alias, e.from), finalNode(alias, e.to)];
    return !(c === a && d === b) && !(c === b && d === a);
  });
}

/** The node a node has become, however many steps it took. */
export function finalNode(alias: readonly number[], node: number): number {
  let at = node;
  while (alias[at] !== at) at = alias[at]!;
  return at;
}

/** Places on one curve closer than this are the same pass of a path, not two passes of one that crosses itself. */
const SAME_PASS = 0.01;

/**
 * The refined nodes after tiny edges have gone: a path that runs through both nodes that became one is cut where the node
 * kept lies, so that it is not bent.
 */
export function withMergedNodes(refined: RefinedNodes, { alias }: TinyEdges): RefinedNodes {
  return {
    ...refined,
    points: refined.points.map((_, i) => refined.points[finalNode(alias, i)]!),
    refAt: (node, polyline, place) => {
      const own = refined.refAt(node, polyline, place);
      const lead = refined.leads[finalNode(alias, node)];
      if (alias[node] === node || lead?.polyline !== polyline) return own;
      const isSamePass = lead.ref.index === own.index && Math.abs(lead.ref.t - own.t) < SAME_PASS;
      return polyline === 0 || isSamePass ? lead.ref : own;
    },
  };
}
