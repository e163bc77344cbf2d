import type { TracedFace } from './faces';
import type { Noded, NodedEdge } from './noding';
import type { RefinedNodes } from './refineNodes';
import { SAME_POINT } from './tolerances';
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
/** An edge whose chords are longer than this, mm, is no tiny edge, even if its ends have met: it goes round something. Refining moves no node half as far. */
const TINY = 50 * SAME_POINT;

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
  const isTiny = edges.map(
    ({ from, to, points }) =>
      distance(refined.points[from]!, refined.points[to]!) < ONE_NODE && lengthOfPoints(points) <= TINY,
  );
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

/**
 * The refined nodes after tiny edges have gone. The outline (path 0, which passes no place twice) is cut where the node kept lies,
 * so that it is not bent; lines may be, by less than ONE_NODE.
 */
export function withMergedNodes(refined: RefinedNodes, { alias }: TinyEdges): RefinedNodes {
  return {
    ...refined,
    points: refined.points.map((_, i) => refined.points[finalNode(alias, i)]!),
    refAt: (node, polyline, place) => {
      const lead = refined.leads[finalNode(alias, node)];
      return alias[node] !== node && polyline === 0 && lead?.polyline === 0
        ? lead.ref
        : refined.refAt(node, polyline, place);
    },
  };
}
