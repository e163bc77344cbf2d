import { type EdgeJobs, roleOfName } from '../../neighbours';
import type { Closing, EdgeAnswer, PieceId } from '../../pattern';
import { INNER_EDGE, type FacingPiece } from './facingPieces';

/** Edges that a zip is in, as `piece/edge`: facings stay open there. */
export const zippedEdges = (closings: readonly Closing[]): readonly string[] =>
  closings.flatMap(({ on }) => (on.kind === 'edge' ? [`${on.piece}/${on.edge}`] : []));

/** A seam of the garment that ends on a faced edge. */
interface Seam {
  readonly piece: PieceId;
  readonly edge: string;
}

/**
 * What becomes of the edges of facings: where the garment has a seam at the end of a faced edge, the facings of both its sides are sewn to
 * each other. They stay open at a zip; the faced edge itself and the inner edge are finished with the garment.
 */
export function facingAnswers(
  all: readonly FacingPiece[],
  jobs: EdgeJobs,
  zipped: readonly string[],
): readonly EdgeAnswer[] {
  const isOpen = ({ piece, edge }: Seam): boolean =>
    zipped.includes(`${piece}/${edge}`) ||
    (jobs.edges.get(piece) ?? []).some((w) => w.plainName === edge && w.job.kind === 'zip');
  // a shoulder ends on neckline and armhole: the facings of one go on in each other
  const facingOf = (from: string, to: Seam): FacingPiece | undefined =>
    all.find(
      ({ facing, piece }) =>
        facing.piece === to.piece &&
        (roleOfName(facing.edge) ?? facing.edge) === (roleOfName(from) ?? from) &&
        piece.edgeNames.some((e) => e.name === to.edge),
    );
  return all.flatMap(({ facing, piece }) =>
    [...new Set(piece.edgeNames.map((e) => e.name))].map((edge): EdgeAnswer => {
      const left: EdgeAnswer = { piece: piece.id, edge, job: { kind: 'left' } };
      if (edge === INNER_EDGE || edge === facing.edge) return left;
      const own = { piece: facing.piece, edge };
      const work = jobs.edges.get(facing.piece)?.find((w) => w.plainName === edge);
      const [to] = (work?.joined ?? []).map((j) => ({
        piece: j.piece,
        edge: jobs.edges.get(j.piece)![j.edge]!.plainName,
      }));
      const other = to && facingOf(facing.edge, to);
      if (!to || !other || isOpen(own) || isOpen(to)) return left;
      return { ...left, job: { kind: 'joins', piece: other.piece.id, edge: to.edge } };
    }),
  );
}
