import { type Path, distance, nearestOnPath, pathLength, pointAtLength } from '../geometry';
import type { Piece } from './design';
import { halfWithoutFold } from './halfToWhole';
import { openOut } from './openOut';
import { nameCurves } from './outlineEdges';

/** An edge of a piece as traced: before a half one is opened out. */
export interface TracedEdge {
  /** Traced, proposed, or `edge 1` …: as settings are kept. */
  readonly plainName: string;
  readonly path: Path;
}

/** The edges of a piece's traced outline with the plain names they have on the whole piece, in ring order. The fold is no edge. */
export function tracedEdges(piece: Piece): readonly TracedEdge[] {
  const outline = piece.fold ? halfWithoutFold(piece.outline, piece.fold) : piece.outline;
  const { curves } = nameCurves(outline, piece.edgeNames, piece.name);
  const { whole } = openOut(piece, null);
  const count = (curves.at(-1)?.edge ?? -1) + 1;
  return Array.from({ length: count }, (_, e): TracedEdge => {
    const path = curves.filter((c) => c.edge === e).map((c) => c.curve);
    const { index } = nearestOnPath(whole.stitching, middle(path));
    return { plainName: whole.edges[whole.edgeOf[index]!]!.plainName, path };
  });
}

const middle = (path: Path): readonly [number, number] => pointAtLength(path, pathLength(path) / 2).point;

/** Names laid over one stretch of outline have their middles this near, mm. */
const SAME_STRETCH = 5;

/**
 * Give the edges of a plain name another one, by hand: a name is laid over their stretch of outline, as a tracing does it. Every
 * edge keeps the name it has now, so that naming one does not move the names of others. The same piece when there is no such
 * edge or no name.
 */
export function nameEdge(piece: Piece, plainName: string, name: string): Piece {
  const words = name.trim().replace(/\s+/g, ' ');
  const all = tracedEdges(piece);
  const named = all.filter((e) => e.plainName === plainName);
  if (named.length === 0 || words === '' || words === plainName) return piece;
  const isOf = (path: Path, edges: readonly TracedEdge[]): boolean =>
    edges.some((e) => path.length > 0 && distance(middle(e.path), middle(path)) < SAME_STRETCH);
  const kept = piece.edgeNames.filter((e) => !isOf(e.path, named));
  const settled = all
    .filter((e) => !named.includes(e) && !/^edge \d+$/.test(e.plainName))
    .filter((e) => !kept.some((k) => k.path.length > 0 && isOf(k.path, [e])))
    .map((e) => ({ name: e.plainName, path: e.path }));
  return {
    ...piece,
    edgeNames: [...kept, ...settled, ...named.map((e) => ({ name: words, path: e.path }))],
  };
}
