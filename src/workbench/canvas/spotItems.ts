import paper from 'paper/dist/paper-core';
import { type Path, endOf, mirrorAcross, startOf, subtract, transformPath, unit } from '../../geometry';
import type { PanelLine, WholePiece } from '../../pattern';
import { middleOf } from '../drawing/bendLine';
import { INK } from './ink';
import { pathItem, sizedItem } from './shapes';

/** Half the length of a tick, pixels. */
const TICK = 15;

const colour = (hex: string): paper.Color => new paper.Color(hex);

/** The tick itself: a stroke of chalk across the way of the line, of one size at every zoom. */
function tick(path: Path): paper.Item {
  const at = middleOf(path[Math.floor(path.length / 2)]!);
  const [ux, uy] = unit(subtract(endOf(path), startOf(path)));
  const stroke = (hex: string, width: number): paper.Path =>
    new paper.Path({
      segments: [
        [at[0] - ux * TICK, at[1] - uy * TICK],
        [at[0] + ux * TICK, at[1] + uy * TICK],
      ],
      strokeColor: colour(hex),
      strokeWidth: width,
      strokeCap: 'round',
      strokeScaling: false,
      insert: false,
    });
  return sizedItem(at, 2 * TICK, () => 2 * TICK, [stroke(INK.indigo, 7), stroke(INK.chalk, 4)]);
}

/** Where a line would have to lie for less cloth to be bought: thinly dashed, with its mirror image, and a tick of chalk in the middle. */
export function spotItems(
  spot: Path,
  line: PanelLine,
  whole: WholePiece,
): { flat: paper.Item[]; sized: paper.Item[] } {
  const image = whole.foldLine && !line.once ? [transformPath(spot, mirrorAcross(whole.foldLine))] : [];
  const dashes = [spot, ...image].flatMap((path) => [
    pathItem(path, { strokeColor: colour(INK.indigo), strokeWidth: 1, dashArray: [2, 5] }),
  ]);
  return { flat: dashes, sized: [tick(spot)] };
}
