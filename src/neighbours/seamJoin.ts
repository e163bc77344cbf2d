import type { EdgeJob, PieceId } from '../pattern';
import type { EdgeRole } from './edgeRole';

/** An edge of a whole piece: `edge` indexes WholePiece.edges. */
export interface EdgeRef {
  readonly piece: PieceId;
  readonly edge: number;
}

/** One side of a seam: a whole edge, or the part of one between two sewn lengths from its first end in ring order, mm. */
export interface SeamSide extends EdgeRef {
  readonly from: number;
  readonly to: number;
}

/**
 * A seam of the garment between two outline edges. `a` belongs to the earlier piece (for an armhole and a cap: the armhole).
 * Where a piece is cut as a pair, the seams of both copies are drawn on the one traced shape. The centre seam of such a pair
 * has the same edge on both sides.
 */
export interface SeamJoin {
  readonly a: SeamSide;
  readonly b: SeamSide;
  /** Whether b's first end (at `from`) meets a's last end (at `to`). */
  readonly reversed: boolean;
  /** Whether the walk begins at a's last end: the agreed end is the underarm, or the neck end of a shoulder. */
  readonly beginsLast: boolean;
  /** What the agreed end is, in words. */
  readonly beginsAt: string;
  readonly role: EdgeRole | null;
}

/** One edge of one whole piece, and what becomes of it. */
export interface EdgeWork extends EdgeRef {
  /** Name on the whole piece, and its plain name: settings are kept by that. */
  readonly name: string;
  readonly plainName: string;
  readonly role: EdgeRole | null;
  readonly job: EdgeJob;
  /** Whether the user said so; else it is proposed. */
  readonly isAnswered: boolean;
  /** Whether the proposal is one to rely on. An unsure one is a question. */
  readonly isSure: boolean;
  /** The edges it is really joined to: a cap has two, an edge of a pair may have two. */
  readonly joined: readonly EdgeRef[];
}

/** What becomes of every edge of a garment. */
export interface EdgeJobs {
  /** By piece, in the order of WholePiece.edges. */
  readonly edges: ReadonlyMap<PieceId, readonly EdgeWork[]>;
  readonly joins: readonly SeamJoin[];
}

export const sameEdge = (a: EdgeRef, b: EdgeRef): boolean => a.piece === b.piece && a.edge === b.edge;
