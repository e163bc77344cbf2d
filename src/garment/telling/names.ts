import type { Pt } from '../../geometry';
import { nearestOnPath } from '../../geometry';
import { wordsOfPiece } from '../../neighbours';
import type { PanelId } from '../../panels';
import { type PieceId, type WholePiece, acrossFromMiddle, formatLength } from '../../pattern';
import { sayNumbers } from '../../sewing';
import type { Garment } from '../garment';
import { clothOf } from './pressScores';

/** `red`, `red and blue`, `red, blue and sand`. */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Beginning of a title: the piece a step is done on. */
export const titleStart = (garment: Pick<Garment, 'pieceById'>, id: PieceId | null): string =>
  id === null ? '' : `${pieceName(garment, id)}: `;

/** `1 notch`, `3 notches`. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** Panels by number: `1–3+5`. */
export const numbersOf = ({ plan }: Pick<Garment, 'plan'>, ids: readonly PanelId[]): string =>
  sayNumbers(ids.flatMap((id) => plan.numbers.get(id) ?? []));

/** A name longer than this is cut off: it stands in the middle of sentences. */
const LONGEST_NAME = 28;

/** A name that somebody typed, fit for a sentence. */
export const shortened = (name: string): string =>
  name.length <= LONGEST_NAME ? name : `${name.slice(0, LONGEST_NAME - 1).trimEnd()}…`;

/** More cloths than this are not listed behind the numbers. */
const MOST_CLOTHS = 3;

/** Panels by number and cloth: `4 (blue)`, `1+2 (sand and orange)`. */
export function panelWords(garment: Garment, ids: readonly PanelId[]): string {
  const cloths = [...new Set(ids.map((id) => shortened(clothOf(garment, id).name)))];
  const numbers = numbersOf(garment, ids);
  return cloths.length > MOST_CLOTHS || ids.length === 0 ? numbers : `${numbers} (${listed(cloths)})`;
}

/** A length in the user's unit. */
export const lengthIn =
  ({ design }: Pick<Garment, 'design'>) =>
  (mm: number): string =>
    formatLength(mm, design.units);

/**
 * A length too fine for tenths of a centimetre: in mm, or to 1/16 in. Source of nothing: it is how rules are read.
 */
export const fineIn =
  ({ design }: Pick<Garment, 'design'>) =>
  (mm: number): string =>
    formatLength(mm, design.units === 'in' ? 'in' : 'mm');

/** Nearer to the middle than this, mm, a place is on neither side. */
const MIDDLE = 5;

/**
 * The wearer's side of a place on a piece: a front lies with the wearer's left on the drawing's right, a back the other way round
 * (common practice, no source). Null on the middle, on pieces cut as a pair, and where the name does not tell.
 */
export function wearersSide(whole: WholePiece, at: Pt): 'left' | 'right' | null {
  const { part, side } = wordsOfPiece(whole.name);
  if (side) return side;
  if (whole.piece.cutting === 'pair' || (part !== 'front' && part !== 'back')) return null;
  const over = acrossFromMiddle(whole, at);
  if (Math.abs(over) < MIDDLE) return null;
  return over > 0 === (part === 'front') ? 'left' : 'right';
}

/** A place this near the outline lies on it, mm. */
const ON_OUTLINE = 0.1;

/** The outer edge that a place lies on: `the armhole`, `the wearer’s left side seam`; null inside the piece. */
export function edgeAt(whole: WholePiece, at: Pt): string | null {
  const near = nearestOnPath(whole.stitching, at);
  if (near.distance > ON_OUTLINE) return null;
  const edge = whole.edges[whole.edgeOf[near.index]!]!;
  const name = edge.naming === 'numbered' ? 'outer edge' : edge.plainName;
  const isTwice = whole.edges.filter((e) => e.plainName === edge.plainName).length > 1;
  const side = isTwice || edge.naming === 'numbered' ? wearersSide(whole, at) : null;
  return side ? `the wearer’s ${side} ${name}` : `the ${name}`;
}

/** A piece's name, `front`. @throws RangeError for one the garment does not have */
export function pieceName({ pieceById }: Pick<Garment, 'pieceById'>, id: PieceId): string {
  const piece = pieceById.get(id);
  if (!piece) throw new RangeError(`no piece ${id} here`);
  return shortened(piece.whole.name);
}

/** Whether a piece is cut as a pair: what is done to it is done again, mirrored. */
export const isPair = ({ pieceById }: Pick<Garment, 'pieceById'>, id: PieceId | null): boolean =>
  id !== null && pieceById.get(id)?.whole.piece.cutting === 'pair';
