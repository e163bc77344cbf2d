import type { Design, Piece } from './design';
import { openOut } from './openOut';
import type { Problem } from './problem';
import { remember } from './remember';
import type { WholePiece } from './wholePiece';

/** A piece opened out, and what did not fit. */
export interface OpenedPiece {
  readonly whole: WholePiece;
  readonly problems: readonly Problem[];
}

const openOnce = remember((piece: Piece, kind: 'net' | 'cut', included: number): OpenedPiece =>
  openOut(piece, kind === 'net' ? { kind, outer: 0 } : { kind, included }),
);

/** A traced piece opened out; done once as long as the piece and the kind of tracing stay. */
export function openedPiece(piece: Piece, design: Pick<Design, 'allowances'>): OpenedPiece {
  const { tracing } = design.allowances;
  return openOnce(piece, tracing.kind, tracing.kind === 'cut' ? tracing.included : 0);
}
