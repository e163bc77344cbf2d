import { JOIN_GAP, type Pt, SAME_POINT, distance, nearestOnPath } from '../../geometry';
import type { DartShape, OutlinePlace, Piece } from '../design';
import { tracedCurves } from '../edgeCurves';
import { placeAtSewn, sewnLengthAt, sewnPath } from '../sewnEdge';
import { turnBetween } from './dartShape';
import { type TracedEdge, seesPlace, tracedEdges } from './outlinePlace';
import { placeDart } from './placeDart';
import { swingOutline } from './swingPiece';
import { isOnStretch, mouthPlace, placeOn } from './turnPart';

/** A place that a dart can be swung to. */
export interface SwingPlace {
  readonly place: OutlinePlace;
  /** On the traced outline. */
  readonly at: Pt;
  /** For people: `shoulder, middle`. */
  readonly words: string;
}

/** A place less far round from a leg than this is no other place worth the name, radians (10°). */
const LEAST_TURN = (10 * Math.PI) / 180;

const SPOTS = [
  { share: 0, word: 'first end' },
  { share: 0.5, word: 'middle' },
  { share: 1, word: 'last end' },
] as const;

const nthOf = (edges: readonly TracedEdge[], e: TracedEdge): number =>
  edges.filter((o) => o.names[0] === e.names[0]).indexOf(e);

/** Traced darts with their mouths on the traced outline. */
function placedOn(piece: Piece): readonly DartShape[] {
  const ring = swingOutline(piece).map((c) => c.curve);
  return piece.darts.map((d) => placeDart(d, ring).dart);
}

/** The name of an end, by the edge that begins there: an end is where two edges meet, or an edge and the fold. */
function endWord({ fold }: Piece, edges: readonly TracedEdge[], at: Pt, own: TracedEdge): string | null {
  const other = edges.find(
    (e) => e !== own && [e.path[0]![0], e.path.at(-1)!.at(-1)!].some((p) => distance(p, at) <= SAME_POINT),
  );
  if (other) return `end at ${other.names[0]}`;
  return fold && nearestOnPath([fold], at).distance <= JOIN_GAP ? 'end at the fold' : null;
}

/**
 * Sensible places to swing a traced dart to: the middles and ends of the edges that its point sees, each corner once, in ring order.
 * Empty for a double-pointed dart.
 * @param dart index in piece.darts
 */
export function swingPlaces(piece: Piece, dart: number): readonly SwingPlace[] {
  const placed = placedOn(piece);
  const own = placed[dart];
  if (!own || own.kind !== 'single') return [];
  const { curves } = tracedCurves(piece);
  const edges = tracedEdges(curves);
  const outline = swingOutline(piece);
  const mouth = mouthPlace(outline, own);
  const others = placed.filter((d) => d !== own);
  const found: SwingPlace[] = [];
  for (const edge of edges) {
    const sewn = sewnPath(edge.path, placed);
    for (const { share, word } of SPOTS) {
      const { point: at } = placeAtSewn(sewn, sewn.length * share);
      if (isOnStretch(placeOn(outline, at), mouth.from, mouth.to)) continue;
      if (found.some((f) => distance(f.at, at) <= 1)) continue;
      if (own.mouth.some((m) => Math.abs(turnBetween(m, own.point, at)) < LEAST_TURN)) continue;
      if (!seesPlace(outline, own.point, at, others)) continue;
      const [name] = edge.names;
      const words = `${name}, ${share === 0.5 ? word : (endWord(piece, edges, at, edge) ?? word)}`;
      found.push({ place: { edge: name, nth: nthOf(edges, edge), share }, at, words });
    }
  }
  return found;
}

/** The place of a point on the traced outline: on the edge nearest to it. Null for a piece without edges. */
export function placeNear(piece: Piece, p: Pt): { place: OutlinePlace; at: Pt } | null {
  const edges = tracedEdges(tracedCurves(piece).curves);
  const placed = placedOn(piece);
  const near = edges.map((edge) => ({ edge, near: nearestOnPath(edge.path, p) }));
  const best = near.sort((a, b) => a.near.distance - b.near.distance)[0];
  if (!best) return null;
  const sewn = sewnPath(best.edge.path, placed);
  const share = sewn.length > 0 ? sewnLengthAt(sewn, best.near) / sewn.length : 0;
  const nth = nthOf(edges, best.edge);
  return { place: { edge: best.edge.names[0], nth, share }, at: best.near.point };
}
