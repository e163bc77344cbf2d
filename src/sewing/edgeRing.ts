import type { EdgeRef, Neighbours, SeamJoin, SeamSide, Wholes } from '../neighbours';

/** What of the neighbours depends on pieces and answers only, not on panel lines. */
export type EdgesKnown = Pick<Neighbours, 'jobs' | 'wholes'>;

/** The edges before and after an edge in ring order. */
function besides(wholes: Wholes, { piece, edge }: EdgeRef): readonly [EdgeRef, EdgeRef] {
  const n = wholes.get(piece)!.edges.length;
  return [
    { piece, edge: (edge + n - 1) % n },
    { piece, edge: (edge + 1) % n },
  ];
}

/** Whether two edges of a piece meet at a corner. */
export const areBeside = (wholes: Wholes, one: EdgeRef, other: EdgeRef): boolean =>
  one.piece === other.piece && besides(wholes, one).some((e) => e.edge === other.edge);

/** `piece/edge` by plain name: the same for an edge and its mirror image, so that steps about both are told once. */
export const plainKey = (wholes: Wholes, { piece, edge }: EdgeRef): string =>
  `${piece}/${wholes.get(piece)!.edges[edge]!.plainName}`;

/** Whether a seam's side is a whole edge: a sleeve's cap is shared by two seams. */
const isWhole = (wholes: Wholes, { piece, edge, from, to }: SeamSide): boolean =>
  from < 1 && to > wholes.get(piece)!.edges[edge]!.length - 1;

/** Pairs of edges that run on in each other once a seam is sewn: those at its two ends. */
export function runsOn(
  wholes: Wholes,
  { a, b, reversed }: SeamJoin,
): readonly (readonly [EdgeRef, EdgeRef])[] {
  if (!isWhole(wholes, a) || !isWhole(wholes, b)) return [];
  const [ownFirst, ownLast] = besides(wholes, a);
  const [first, last] = besides(wholes, b);
  return [
    [ownFirst, reversed ? last : first],
    [ownLast, reversed ? first : last],
  ];
}
