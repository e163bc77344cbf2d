import type { Design, OrderWish, PieceId } from '../pattern';

/** An outer edge as keys of steps name it: `front/side seam`. */
const sideKey = (piece: PieceId, edge: string): string => `${piece}/${edge}`;

/** A key with the edges it names called otherwise: `hem front/hem`, `join front/shoulder back/shoulder #2`. */
function renamedKey(key: string, nameOf: ReadonlyMap<string, string>): string {
  const parts = /^(join|zip|edge|hem) (.+?)( #\d+)?$/.exec(key);
  if (!parts) return key;
  const [, kind, sides, nth = ''] = parts as unknown as [string, string, string, string?];
  const one = nameOf.get(sides);
  if (one !== undefined) return `${kind} ${one}${nth}`;
  // names may hold spaces: the place to part them is where both halves are edges
  const first = [...nameOf.keys()].find(
    (s) => sides.startsWith(`${s} `) && nameOf.has(sides.slice(s.length + 1)),
  );
  if (first === undefined) return key;
  return `${kind} ${nameOf.get(first)!} ${nameOf.get(sides.slice(first.length + 1))!}${nth}`;
}

/**
 * What is wanted of the sewing order once an edge of a piece has another name: steps along outer edges are known by the plain names of
 * these. Wishes that then say the same of one step are dropped.
 * @param edges every outer edge of the design before, by piece and plain name
 * @param nameOf what an edge of the renamed piece is called after
 */
export function renamedSteps(
  { order }: Design['sewing'],
  edges: readonly { readonly piece: PieceId; readonly edge: string }[],
  renamed: PieceId,
  nameOf: (edge: string) => string,
): readonly OrderWish[] {
  const names = new Map(
    edges.map(({ piece, edge }) => [
      sideKey(piece, edge),
      sideKey(piece, piece === renamed ? nameOf(edge) : edge),
    ]),
  );
  return order
    .map(({ earlier, later }) => ({ earlier: renamedKey(earlier, names), later: renamedKey(later, names) }))
    .filter(({ earlier, later }) => earlier !== later);
}
