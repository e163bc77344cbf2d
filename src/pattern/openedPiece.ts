import type { Design, EdgeAllowance, EdgeAnswer, Piece } from './design';
import { includedOf } from './includedWidth';
import { openOut } from './openOut';
import type { Problem } from './problem';
import { remember } from './remember';
import type { WholePiece } from './wholePiece';

/** A piece opened out, and what did not fit. */
export interface OpenedPiece {
  readonly whole: WholePiece;
  readonly problems: readonly Problem[];
}

const openOnce = remember(
  (
    piece: Piece,
    general: number | null,
    hem: number,
    edges: readonly EdgeAllowance[],
    answers: readonly EdgeAnswer[],
  ): OpenedPiece => openOut(piece, general === null ? null : { general, hem, edges, answers }),
);

/** A traced piece opened out; done once as long as the piece and what its outline includes stay. */
export function openedPiece(
  piece: Piece,
  { allowances, edgeJobs = [] }: Pick<Design, 'allowances'> & Partial<Pick<Design, 'edgeJobs'>>,
): OpenedPiece {
  const included = includedOf(piece.id, allowances, edgeJobs);
  if (!included) return openOnce(piece, null, 0, [], []);
  return openOnce(piece, included.general, included.hem, included.edges, included.answers);
}
