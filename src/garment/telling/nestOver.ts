import {
  type Pt,
  distance,
  dot,
  endOf,
  perpendicular,
  directionAt,
  scale,
  startOf,
  subtract,
  MOVED_END,
} from '../../geometry';
import { type LineEnd, type LineMeeting, type Neighbour, lengthOnSide, pointOnSide } from '../../neighbours';
import type { Garment } from '../garment';
import { pressingsOf } from './pressings';
import { sewnRuns } from './sewnRuns';

/** Which way allowances lie at a line's end on an outer edge, as a vector; null where they lie open or the end is not sewn. */
export function lying(garment: Garment, { piece, at }: LineEnd): Pt | null {
  for (const run of sewnRuns(garment)) {
    if (run.piece !== piece || run.isClosed || run.path.length === 0) continue;
    const towards = pressingsOf(garment).runs.get(run)?.towards ?? 0;
    if (towards === 0) continue;
    if (distance(startOf(run.path), at) < MOVED_END)
      return scale(perpendicular(directionAt(run.path[0]!, 0)), towards);
    if (distance(endOf(run.path), at) < MOVED_END)
      return scale(perpendicular(directionAt(run.path.at(-1)!, 1)), towards);
  }
  return null;
}

/** Whether a vector at a place of a seam's side points away from the agreed end. */
function pointsOn(garment: Garment, n: Neighbour, which: 'a' | 'b', at: Pt, v: Pt): boolean | null {
  const { wholes } = garment.neighbours;
  const s = lengthOnSide(wholes, n.join, which, at);
  if (s === null) return null;
  const step = 2;
  const way = subtract(
    pointOnSide(wholes, n.join, which, s + step),
    pointOnSide(wholes, n.join, which, s - step),
  );
  return dot(way, v) > 0;
}

/**
 * Whether the allowances of two panel seams that meet over an outer seam lie in opposite directions there, so that they lock into each
 * other; null where one of them is not pressed to a side.
 */
export function nestOver(garment: Garment, n: Neighbour, { a, b }: LineMeeting): boolean | null {
  const [va, vb] = [lying(garment, a), lying(garment, b)];
  if (!va || !vb) return null;
  const ends = n.join.a.piece === a.piece ? ([a, b] as const) : ([b, a] as const);
  const [first, second] = ends[0] === a ? [va, vb] : [vb, va];
  const [onA, onB] = [
    pointsOn(garment, n, 'a', ends[0].at, first),
    pointsOn(garment, n, 'b', ends[1].at, second),
  ];
  return onA === null || onB === null ? null : onA !== onB;
}
