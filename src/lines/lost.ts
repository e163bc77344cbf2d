import type { Base } from '../pattern';

/** Why a tie gives no place: what it refers to is gone, or is not met there. */
export interface Lost {
  readonly lost: string;
  readonly why: 'gone' | 'missed';
}

export const gone = (what: string): Lost => ({ lost: what, why: 'gone' });
export const missed = (what: string): Lost => ({ lost: what, why: 'missed' });
export const isLost = (x: unknown): x is Lost => typeof x === 'object' && x !== null && 'lost' in x;

/** `Waist` and `waist level` both give `the waist level`. */
export const sayLevel = (name: string): string =>
  `the ${(/level$/i.test(name) ? name : `${name} level`).toLowerCase()}`;

/** `the side seam`; edges without a name of their own are numbered: `edge 4`. */
export const sayEdge = (name: string): string => (/^edge \d+$/.test(name) ? name : `the ${name}`);

/** What a base is, in plain words. */
export function sayBase(base: Base): string {
  if (base.kind === 'level') return sayLevel(base.name);
  if (base.kind === 'centre') return 'the centre';
  return base.kind === 'edge' ? sayEdge(base.name) : `the ${base.end} end of ${sayEdge(base.name)}`;
}
