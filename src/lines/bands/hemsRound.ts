import { type EdgeJobs, type EdgeRef, type SeamJoin, sameEdge } from '../../neighbours';
import { type PieceId, type WholePiece } from '../../pattern';

/** Whole pieces by id. */
type Wholes = ReadonlyMap<PieceId, WholePiece>;

/** An end of an edge, in ring order. */
export interface EdgeEnd extends EdgeRef {
  readonly end: 'first' | 'last';
}

export const isHem = (jobs: EdgeJobs, { piece, edge }: EdgeRef): boolean =>
  jobs.edges.get(piece)?.[edge]?.job.kind === 'hem';

const countOf = (wholes: Wholes, piece: PieceId): number => wholes.get(piece)!.edges.length;

/** The end of the neighbouring edge that an edge's end touches. */
export function touching(wholes: Wholes, { piece, edge, end }: EdgeEnd): EdgeEnd {
  const n = countOf(wholes, piece);
  return end === 'first'
    ? { piece, edge: (edge + n - 1) % n, end: 'last' }
    : { piece, edge: (edge + 1) % n, end: 'first' };
}

/** An end of an edge, where it is sewn to another, and that seam; a side is the whole edge there or a part that reaches this end. */
export interface EndOverSeam {
  readonly join: SeamJoin;
  readonly which: 'a' | 'b';
  readonly far: EdgeEnd;
}

const REACHES = 0.01;

/** The ends of edges that an edge's end meets once the seams are closed. Of a pair's centre seam it is its own. */
export function endsOverSeams(
  wholes: Wholes,
  joins: readonly SeamJoin[],
  at: EdgeEnd,
): readonly EndOverSeam[] {
  const length = wholes.get(at.piece)!.edges[at.edge]!.length;
  return joins.flatMap((join) => {
    const isSame = sameEdge(join.a, join.b);
    return (['a', 'b'] as const).flatMap((which): EndOverSeam[] => {
      const side = join[which];
      if (!sameEdge(side, at) || (isSame && which === 'b')) return [];
      const reaches = at.end === 'first' ? side.from <= REACHES : side.to >= length - REACHES;
      if (!reaches) return [];
      const { piece, edge } = join[which === 'a' ? 'b' : 'a'];
      const turned = at.end === 'first' ? 'last' : 'first';
      return [{ join, which, far: { piece, edge, end: join.reversed ? turned : at.end } }];
    });
  });
}

/**
 * All hem edges that go round with one: over the seams at its ends on to the next hem, until no other is found. In the order they are
 * found, the one given first. Empty when it is no hem.
 */
export function hemsRound(wholes: Wholes, jobs: EdgeJobs, start: EdgeRef): readonly EdgeRef[] {
  const found: EdgeRef[] = isHem(jobs, start) ? [{ piece: start.piece, edge: start.edge }] : [];
  const take = (ref: EdgeRef): void => {
    if (isHem(jobs, ref) && !found.some((f) => sameEdge(f, ref)))
      found.push({ piece: ref.piece, edge: ref.edge });
  };
  for (const hem of found) {
    for (const end of ['first', 'last'] as const) {
      const beside = touching(wholes, { ...hem, end });
      take(beside);
      for (const { far } of endsOverSeams(wholes, jobs.joins, beside)) take(touching(wholes, far));
    }
  }
  return found;
}
