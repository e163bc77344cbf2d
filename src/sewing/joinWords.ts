import { type SeamJoin, type Wholes, sameEdge } from '../neighbours';
import { plainKey } from './edgeRing';
import { unique } from './task';

const isPair = (wholes: Wholes, { piece }: SeamJoin['a']): boolean =>
  wholes.get(piece)!.piece.cutting === 'pair';

/** Whether a seam is there on both sides of the body: drawn twice, or between pieces that are cut as a pair. */
function isTwice(joins: readonly SeamJoin[], wholes: Wholes): boolean {
  const names = joins.map((j) => `${plainKey(wholes, j.a)} ${plainKey(wholes, j.b)}`);
  const [{ a, b }] = joins as [SeamJoin];
  return new Set(names).size < names.length || (isPair(wholes, a) && isPair(wholes, b) && !sameEdge(a, b));
}

const nameOf = (wholes: Wholes, { piece, edge }: SeamJoin['a']): string =>
  wholes.get(piece)!.edges[edge]!.plainName;

/** What a step that sews pieces to each other is called: `both shoulders`, `the centre back`, `both sides and underarms in one go`. */
export function joinWords(joins: readonly SeamJoin[], wholes: Wholes): string {
  const twice = isTwice(joins, wholes);
  const [first] = joins as [SeamJoin];
  if (first.role === 'armhole')
    return twice ? 'both sleeves into the armholes' : 'the sleeve into the armhole';
  const roles = unique(joins.map((j) => j.role));
  if (roles.length > 1 && roles.includes('underarm seam'))
    return twice ? 'both sides and underarms, each in one go' : 'side and underarm in one go';
  const names = unique([nameOf(wholes, first.a), nameOf(wholes, first.b)]).join(' to ');
  return twice && !names.includes(' to ') ? `both ${names}s` : `the ${names}`;
}
