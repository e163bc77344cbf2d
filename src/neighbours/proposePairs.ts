import type { WholePiece } from '../pattern';
import { type EdgeRole, type PieceWords, wordsOfPiece } from './edgeRole';

/** A piece with the edges of one name or role on it, as indices into WholePiece.edges. */
export interface Bearers {
  readonly whole: WholePiece;
  readonly edges: readonly number[];
}

/** Roles whose edges meet an edge of the same role on another piece. */
const MEETS_ITS_LIKE: readonly EdgeRole[] = ['side seam', 'shoulder', 'inside leg', 'crotch', 'waist'];

/** Roles whose two edges on one piece are sewn to each other; of a pair, the edge to that of the other copy. */
const MEETS_ITSELF: readonly EdgeRole[] = ['underarm seam', 'centre back', 'centre front', 'crotch', 'zip'];

export const meetsItsLike = (role: EdgeRole | null): boolean =>
  role === null || MEETS_ITS_LIKE.includes(role);
export const meetsItself = (role: EdgeRole | null): boolean => role !== null && MEETS_ITSELF.includes(role);

/** How well two pieces go together over an edge they both have: 0 not at all. */
function fit(a: PieceWords, b: PieceWords): number {
  const sameRest = a.rest === b.rest;
  const isOpposite = (a.part === 'front' && b.part === 'back') || (a.part === 'back' && b.part === 'front');
  if (a.side && b.side && a.side !== b.side && isOpposite) return 0;
  return (sameRest ? 4 : 0) + (isOpposite ? 2 : 0) + (a.side !== null && a.side === b.side ? 1 : 0);
}

/** A waist seam joins what is above to what is below: front to front. */
function fitAtWaist(a: PieceWords, b: PieceWords): number {
  return a.rest === b.rest ? 0 : 2 + (a.part === b.part ? 2 : 0);
}

export type Partner =
  { readonly kind: 'one'; readonly partners: readonly Bearers[] } | { readonly kind: 'none' | 'several' };

/**
 * The piece (or the two halves of one) that a piece's edge of a role is sewn to, judged by the pieces' names: front with back, lining
 * with lining, left with left. Several equally good ones are a question for the user.
 */
export function partnerOf(own: Bearers, all: readonly Bearers[], role: EdgeRole | null): Partner {
  const others = all.filter((o) => o.whole !== own.whole);
  if (others.length === 0) return { kind: 'none' };
  const words = wordsOfPiece(own.whole.name);
  const fitOf = role === 'waist' ? fitAtWaist : fit;
  const rated = others.map((o) => ({ o, rate: fitOf(words, wordsOfPiece(o.whole.name)) }));
  const best = Math.max(...rated.map((r) => r.rate));
  if (role === 'waist' && best === 0) return { kind: 'none' };
  const leaders = rated.filter((r) => r.rate === best).map((r) => r.o);
  if (leaders.length === 1) return { kind: 'one', partners: leaders };
  const areHalves =
    leaders.length === 2 &&
    own.edges.length === 2 &&
    leaders.every((l) => l.edges.length === 1) &&
    new Set(leaders.map((l) => wordsOfPiece(l.whole.name).side)).size === 2;
  return areHalves ? { kind: 'one', partners: leaders } : { kind: 'several' };
}
