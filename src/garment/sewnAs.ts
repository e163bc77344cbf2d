import { type CutEdge, type EndReach, type PieceAllowances, type SewnAs, endReaches } from '../allowance';
import { SAME_POINT } from '../geometry';
import type { EdgeWork, Neighbours, SeamSide } from '../neighbours';
import type { PanelledPiece } from '../panels';
import { remember } from '../pattern';
import { type SewingPlan, edgeKey } from '../sewing';

/** A sliced piece with the widths it is cut with. */
interface Widened {
  readonly sliced: PanelledPiece;
  readonly allowances: PieceAllowances;
}

type Order = Pick<SewnAs, 'seams' | 'edges'>;

/** Edges that are sewn to others are sewn after everything within a piece where the plan does not say when. */
const AT_LAST = 1e9;

function edgeRank(work: EdgeWork, { stepOfEdge }: SewingPlan): number | null {
  const step = stepOfEdge.get(edgeKey(work));
  return step ?? (work.job.kind === 'joins' || work.job.kind === 'zip' ? AT_LAST : null);
}

/** Steps as places 0, 1, 2 … within a piece: they stay while only other pieces' steps change. */
function inPlaces(steps: readonly (number | null)[]): (number | null)[] {
  const known = [...new Set(steps.filter((s) => s !== null))].sort((a, b) => a - b);
  return steps.map((s) => (s === null ? null : known.indexOf(s)));
}

/** Remembered by what it says, so that a piece whose order stays keeps its cut pieces. */
const settledOrder = remember((_piece: object, said: string): Order => JSON.parse(said) as Order);
const settledSewn = remember((order: Order, ends: string): SewnAs => ({
  ...order,
  ends: JSON.parse(ends) as EndReach[],
}));

function orderOf({ whole, seams }: PanelledPiece, works: readonly EdgeWork[], plan: SewingPlan): Order {
  const steps = seams.map((s) => plan.stepOfSeam.get(s.id) ?? null);
  const ranks = inPlaces([...steps, ...works.map((w) => edgeRank(w, plan))]);
  const edges = works.map(({ job }, i): CutEdge => ({ job: job.kind, rank: ranks[seams.length + i]! }));
  return settledOrder(whole.piece, JSON.stringify({ seams: ranks.slice(0, seams.length), edges }));
}

/** Ends of outer edges that lie on each other when their seam is sewn, as keys of both; null where a side is left before its end. */
function meetingEnds({ jobs, wholes }: Neighbours): [string, string][] {
  const key = (side: SeamSide, at: 'from' | 'to'): string | null => {
    const isEnd =
      at === 'from'
        ? side.from < SAME_POINT
        : side.to > wholes.get(side.piece)!.edges[side.edge]!.length - SAME_POINT;
    return isEnd ? endKey(side.piece, side.edge, at === 'from' ? 'first' : 'last') : null;
  };
  return jobs.joins.flatMap(({ a, b, reversed }) =>
    (['from', 'to'] as const).flatMap((at): [string, string][] => {
      const other = reversed ? (at === 'from' ? 'to' : 'from') : at;
      const [own, met] = [key(a, at), key(b, other)];
      return own !== null && met !== null && own !== met ? [[own, met]] : [];
    }),
  );
}

const endKey = (piece: string, edge: number, end: EndReach['end']): string => `${piece}/${edge} ${end}`;

/**
 * When the seams and edges of each piece are sewn, for the corners of its cutting lines; in the order of the pieces. Ends of edges that are
 * sewn to each other run on equally far on both pieces: as far as the one that asks for more.
 */
export function sewnAs(
  pieces: readonly Widened[],
  plan: SewingPlan,
  neighbours: Neighbours,
): readonly SewnAs[] {
  const orders = pieces.map(({ sliced }) =>
    orderOf(sliced, neighbours.jobs.edges.get(sliced.whole.piece.id)!, plan),
  );
  const own = pieces.map(({ sliced, allowances }, i) =>
    endReaches(sliced, allowances, settledSewn(orders[i]!, '[]')),
  );
  const reaches = new Map(
    own.flatMap((ends, i) =>
      ends.map((e) => [endKey(pieces[i]!.sliced.whole.piece.id, e.edge, e.end), e.reach] as [string, number]),
    ),
  );
  const agreed = new Map<string, number>();
  for (const [one, other] of meetingEnds(neighbours)) {
    const most = Math.max(reaches.get(one) ?? 0, reaches.get(other) ?? 0);
    for (const key of [one, other]) agreed.set(key, Math.max(most, agreed.get(key) ?? 0));
  }
  return own.map((ends, i) => {
    const { id } = pieces[i]!.sliced.whole.piece;
    const longer = ends.flatMap((e): EndReach[] => {
      const reach = agreed.get(endKey(id, e.edge, e.end)) ?? 0;
      return reach > e.reach ? [{ ...e, reach }] : [];
    });
    return settledSewn(orders[i]!, JSON.stringify(longer));
  });
}
