import type { WholePiece } from '../pattern';

/** What an edge is on the garment, whatever its tracer called it; null for a name of the tracer's own. */
export type EdgeRole =
  | 'hem'
  | 'neckline'
  | 'shoulder'
  | 'armhole'
  | 'side seam'
  | 'centre front'
  | 'centre back'
  | 'sleeve cap'
  | 'underarm seam'
  | 'waist'
  | 'inside leg'
  | 'crotch'
  | 'zip'
  | 'fold';

/** First match counts: the more particular words come first. Trade words, British and American. */
const ROLES: readonly (readonly [EdgeRole, RegExp])[] = [
  ['zip', /\b(zip|zipper)\b/],
  ['fold', /\bfold\b/],
  ['hem', /\b(hem|hemline)\b/],
  ['sleeve cap', /\b(cap|sleeve ?head|crown)\b/],
  ['underarm seam', /\b(under ?arm|sleeve seam)\b/],
  ['inside leg', /\b(inside leg|inner leg|in ?seam)\b/],
  ['crotch', /\b(crotch|rise|seat seam)\b/],
  ['centre front', /\b(cent(re|er) front|front cent(re|er)|cf)\b/],
  ['centre back', /\b(cent(re|er) back|back cent(re|er)|cb)\b/],
  ['side seam', /\bside( seam)?$|\bside\b/],
  ['armhole', /\b(armhole|arm hole|armscye|scye)\b/],
  ['shoulder', /\bshoulder\b/],
  ['neckline', /\bneck(line)?\b/],
  ['waist', /\bwaist(line)?\b/],
];

/** The role a plain edge name stands for, or null. */
export function roleOfName(plainName: string): EdgeRole | null {
  const name = plainName.toLowerCase().trim();
  return ROLES.find(([, words]) => words.test(name))?.[0] ?? null;
}

/** What a piece's name says of its place on the body. */
export interface PieceWords {
  readonly part: 'front' | 'back' | 'sleeve' | null;
  readonly side: 'left' | 'right' | null;
  /** The name without those words: 'lining' for 'lining, left front'. */
  readonly rest: string;
}

const PLACE_WORDS = /\b(front|back|sleeve|left|right|half|piece|panel|body|bodice)\b/g;

/** Read a piece's name. Left and right are the wearer's. */
export function wordsOfPiece(name: string): PieceWords {
  const text = name.toLowerCase().replace(/[-_.,:\d]+/g, ' ');
  const has = (word: string): boolean => new RegExp(`\\b${word}\\b`).test(text);
  return {
    part: has('sleeve') ? 'sleeve' : has('front') ? 'front' : has('back') ? 'back' : null,
    side: has('left') ? 'left' : has('right') ? 'right' : null,
    rest: text.replace(PLACE_WORDS, ' ').trim().replace(/\s+/g, ' '),
  };
}

/** An edge of a garment's piece: `edge` indexes WholePiece.edges. */
export interface EdgeInPlace {
  readonly whole: WholePiece;
  readonly edge: number;
}
