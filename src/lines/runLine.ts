import { type Path, type Pt, add, cross, distance, dot, scale, subtract, unit } from '../geometry';
import { type Run, type WholePiece, grainFrame } from '../pattern';
import { meetsOf, nearestPlace, onItsSide } from './edgeOnPiece';
import { type Lost, gone, missed } from './lost';
import type { TieGround } from './tiePoint';
import { centreOf } from './axis';
import { sewnEdge } from '../pattern';

/** A line ends at least this far from where it begins, mm. */
const SHORTEST = 0.5;

/** Unit direction of a run on the drawing. */
function runDirection(whole: WholePiece, run: Run): Pt {
  const { along, across } = grainFrame(whole);
  if (run.kind === 'square') return across;
  if (run.kind === 'with') return along;
  const turn = (run.degrees * Math.PI) / 180;
  return add(scale(across, Math.cos(turn)), scale(along, Math.sin(turn)));
}

/** The endless straight line through a and b, met by another one; null where they run alike. */
function straightMeets(a: Pt, b: Pt, origin: Pt, direction: Pt): Pt | null {
  const along = unit(subtract(b, a));
  const turn = cross(direction, along);
  if (Math.abs(turn) < 1e-9) return null;
  return add(origin, scale(direction, cross(subtract(a, origin), along) / turn));
}

/** Everything that a run could end on, met by its straight line. */
function endsMet(ground: TieGround, run: Run, start: Pt): readonly { readonly point: Pt }[] | Lost {
  const { whole } = ground;
  const direction = runDirection(whole, run);
  if (run.until.kind === 'outline') return meetsOf(whole.stitching, start, direction);
  if (run.until.kind === 'line') {
    const path = ground.pathOf(run.until.line);
    if (!path) return gone('a panel line');
    return meetsOf(onItsSide(whole, path, run.until.mirrored), start, direction);
  }
  const centre = centreOf(whole);
  if (!centre) return gone('the centre');
  if ('edge' in centre) return meetsOf(sewnEdge(whole, centre.edge).path, start, direction);
  const point = straightMeets(...centre, start, direction);
  return point ? [{ point }] : [];
}

const ENDS = { outline: 'the outline', centre: 'the centre', line: 'a panel line' } as const;

/**
 * Where a line that keeps its direction ends.
 * @param start its tied end
 * @param hint where the other end would lie if the line had only been moved along: the meeting place nearest to it is meant
 */
export function runEnd(ground: TieGround, run: Run, start: Pt, hint: Pt): Pt | Lost {
  const met = endsMet(ground, run, start);
  if ('lost' in met) return met;
  const away = met.filter(({ point }) => distance(point, start) > SHORTEST);
  return nearestPlace(away, hint)?.point ?? missed(ENDS[run.until.kind]);
}

/** A straight line between its tied end and the one that was found. */
export const straightFrom = (tied: 'start' | 'end', held: Pt, other: Pt): Path =>
  tied === 'start' ? [[held, other]] : [[other, held]];

/** Degrees from across the grain towards down, 0 up to 180. */
export function angleToGrain(whole: WholePiece, a: Pt, b: Pt): number {
  const { along, across } = grainFrame(whole);
  const d = subtract(b, a);
  const degrees = (Math.atan2(dot(d, along), dot(d, across)) * 180) / Math.PI;
  return ((degrees % 180) + 180) % 180;
}
