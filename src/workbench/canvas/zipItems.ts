import paper from 'paper/dist/paper-core';
import type { PlacedClosing } from '../../garment';
import { type Path, type Pt, add, directionAt, perpendicular, scale, subtract } from '../../geometry';
import { INK } from './ink';
import { pathItem } from './shapes';
import type { Overlay } from './board';

const colour = (hex: string): paper.Color => new paper.Color(hex);

/** How far a zip's stop reaches to either side of its seam, mm on the piece. */
const STOP_REACH = 9;

/** A bar across the seam where a zip stops. */
function stopBar(opening: Path, at: Pt): Path {
  const last = opening.at(-1);
  if (!last) return [];
  const across = scale(perpendicular(directionAt(last, 1)), STOP_REACH);
  return [[subtract(at, across), add(at, across)]];
}

/** A zip on the table: its opening as a chalk strip with a close row of teeth, and the bar of its stop. */
function zipItems(opening: Path, stop: Pt): paper.Item[] {
  return [
    pathItem(opening, { strokeColor: colour(INK.chalk), strokeWidth: 9, strokeCap: 'butt' }),
    pathItem(opening, {
      strokeColor: colour(INK.graphite),
      strokeWidth: 7,
      strokeCap: 'butt',
      dashArray: [1.5, 3],
    }),
    pathItem(stopBar(opening, stop), { strokeColor: colour(INK.chalk), strokeWidth: 7 }),
    pathItem(stopBar(opening, stop), { strokeColor: colour(INK.graphite), strokeWidth: 3.5 }),
  ];
}

/** All zips of a garment, on the pieces they are sewn to. */
export const zipOverlays = (closings: readonly PlacedClosing[]): Overlay[] =>
  closings.flatMap(({ sides }) =>
    sides.map(({ piece, opening, stop }) => ({ piece, flat: zipItems(opening, stop), sized: [] })),
  );
