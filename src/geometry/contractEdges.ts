import type { TracedFaces } from './faces';
import type { Noded } from './noding';
import type { HalfEdge } from './subdivision';
import { finalNode } from './tinyEdges';

/** A planar drawing with its faces. */
export interface Settled {
  readonly noded: Noded;
  readonly traced: TracedFaces;
}

/** What is contracted: edges to take away, and for each node the node it has become, itself where it stays. */
export interface Contraction {
  readonly gone: ReadonlySet<number>;
  readonly alias: readonly number[];
  /** Faces all of whose edges go. */
  readonly goneFaces?: ReadonlySet<number>;
}

/**
 * Take edges away whose two nodes have become one, and number nodes, edges and faces anew, keeping their order.
 */
export function contractEdges({ noded, traced }: Settled, { gone, alias, goneFaces }: Contraction): Settled {
  const { nodes, edges } = noded;
  const left = edges.flatMap((_, i) => (gone.has(i) ? [] : [i]));
  const edgeNumbers = new Map(left.map((edge, i) => [edge, i]));
  const used = new Set(
    left.flatMap((i) => [finalNode(alias, edges[i]!.from), finalNode(alias, edges[i]!.to)]),
  );
  const nodeNumbers = new Map([...used].sort((a, b) => a - b).map((node, i) => [node, i]));
  const numberOf = (node: number): number => nodeNumbers.get(finalNode(alias, node))!;
  const ringLeft = (ring: readonly HalfEdge[]): HalfEdge[] =>
    ring.flatMap(({ edge, forward }) => (gone.has(edge) ? [] : [{ edge: edgeNumbers.get(edge)!, forward }]));
  const facesLeft = traced.faces.flatMap((f, i) => (goneFaces?.has(i) ? [] : [{ f, i }]));
  const faceNumbers = new Map(facesLeft.map(({ i }, number) => [i, number]));
  const faceOf = (face: number | null): number | null => (face === null ? null : faceNumbers.get(face)!);
  return {
    noded: {
      nodes: [...nodeNumbers.keys()].map((node) => nodes[node]!),
      edges: left.map((i) => ({ ...edges[i]!, from: numberOf(edges[i]!.from), to: numberOf(edges[i]!.to) })),
    },
    traced: {
      faces: facesLeft.map(({ f }) => ({ ring: ringLeft(f.ring), holes: f.holes.map(ringLeft) })),
      forwardFace: left.map((i) => faceOf(traced.forwardFace[i]!)),
      backwardFace: left.map((i) => faceOf(traced.backwardFace[i]!)),
    },
  };
}
