import { problem } from '../../pattern';
import type { Problem } from '../../pattern';
import type { LaySpace } from './laySpace';

/** One problem per panel that fits the cloth in none of its turns. */
export function tooWide(space: LaySpace): Problem[] {
  const { job } = space;
  const said = new Set<string>();
  return space.movers.flatMap(({ pieces }, i) => {
    const piece = job.pieces[pieces[0]!]!;
    if (space.turns[i]!.length > 0 || said.has(piece.panel)) return [];
    said.add(piece.panel);
    const facts = {
      panel: piece.number,
      across: space.widthNeeded[i]!,
      width: job.width - 2 * job.margin,
      colour: job.colourName,
    };
    return [problem('panel-wider-than-cloth', facts)];
  });
}
