import type { Problem } from '../../pattern';
import { whyItDoesNotFit } from '../check/whyItDoesNotFit';
import type { LaySpace } from './laySpace';

/** One problem per panel that fits the cloth in none of its turns. */
export function tooWide(space: LaySpace): Problem[] {
  const { job } = space;
  const said = new Set<string>();
  return space.movers.flatMap(({ pieces }, i) => {
    const piece = job.pieces[pieces[0]!]!;
    if (space.turns[i]!.length > 0 || said.has(piece.panel)) return [];
    said.add(piece.panel);
    return [whyItDoesNotFit(piece, job)];
  });
}
