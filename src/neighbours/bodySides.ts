import { type WholePiece, acrossFromMiddle, heightOf, middleOfEdge } from '../pattern';
import { wordsOfPiece } from './edgeRole';
import type { Bearers } from './proposePairs';

export type BodySide = 'left' | 'right' | null;

/**
 * The wearer's side of an edge: a front lies with the wearer's left on the drawing's right, a back the other way round (both right
 * side up). Null for the single edge of a half piece that is cut as a pair: it is on both sides.
 */
export function sideOf(whole: WholePiece, edge: number, isOnly: boolean): BodySide {
  const words = wordsOfPiece(whole.name);
  if (words.side) return words.side;
  if (isOnly) return null;
  const isRight = acrossFromMiddle(whole, middleOfEdge(whole, edge)) > 0;
  return isRight === (words.part === 'back') ? 'right' : 'left';
}

const byHeight =
  (whole: WholePiece) =>
  (a: number, b: number): number =>
    heightOf(whole, middleOfEdge(whole, a)) - heightOf(whole, middleOfEdge(whole, b));

/** The edges of one body side from top to bottom; an edge that is on both sides is on each. */
function ofSide({ whole, edges }: Bearers, side: BodySide): number[] {
  return edges
    .filter((e) => {
      const own = sideOf(whole, e, edges.length === 1);
      return own === null || side === null || own === side;
    })
    .sort(byHeight(whole));
}

/**
 * Which edge meets which, of two pieces that are sewn together along edges of one role: those of the wearer's left with those of the
 * left. Two pieces of unnamed kind are taken as one piece and its like, drawn alike: right with right as drawn.
 */
export function edgePairs(a: Bearers, b: Bearers): readonly (readonly [number, number])[] {
  const pairs = (['left', 'right'] as const).flatMap((side) => {
    const [own, others] = [ofSide(a, side), ofSide(b, side)];
    return own.slice(0, others.length).map((e, i) => [e, others[i]!] as const);
  });
  const seen = new Set<string>();
  return pairs.filter(([x, y]) => !seen.has(`${x} ${y}`) && Boolean(seen.add(`${x} ${y}`)));
}
