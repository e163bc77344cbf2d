import {
  type Path,
  type Pt,
  cross,
  directionAt,
  distance,
  dot,
  endOf,
  nearestOnPath,
  scale,
  startOf,
  MEETING_PLACE,
} from '../../geometry';
import { type PieceId, remember } from '../../pattern';
import type { Garment } from '../garment';
import { type SewnRun, sewnRuns } from './sewnRuns';

/** A run that ends on another one. */
export interface Ender {
  readonly run: SewnRun;
  readonly atStart: boolean;
  /** Unit vector from the meeting point along the run. */
  readonly away: Pt;
  /** Side of the run it ends on: 1 right of its direction, -1 left. */
  readonly side: 1 | -1;
}

/** A place where runs end on one that goes through. With one on each side it is a crossing. */
export interface SeamMeeting {
  readonly piece: PieceId;
  readonly at: Pt;
  readonly through: SewnRun;
  /** Unit direction of the run that goes through. */
  readonly direction: Pt;
  readonly enders: readonly Ender[];
}

/** Directions of a path's ends, pointing into it. */
function away(path: Path, atStart: boolean): Pt {
  const solid = path.filter((c) => distance(c[0], c[c.length - 1]!) > MEETING_PLACE);
  const curves = solid.length > 0 ? solid : path;
  return atStart ? directionAt(curves[0]!, 0) : scale(directionAt(curves.at(-1)!, 1), -1);
}

interface End {
  readonly run: SewnRun;
  readonly atStart: boolean;
  readonly at: Pt;
}

function endsOf(run: SewnRun): End[] {
  if (run.isClosed) return [];
  return [
    { run, atStart: true, at: startOf(run.path) },
    { run, atStart: false, at: endOf(run.path) },
  ];
}

/** Direction of the run where it passes a point; null where it does not, or ends there. */
function passing(run: SewnRun, at: Pt): Pt | null {
  if (!run.isClosed && [startOf(run.path), endOf(run.path)].some((p) => distance(p, at) < MEETING_PLACE))
    return null;
  const on = nearestOnPath(run.path, at);
  return on.distance < MEETING_PLACE ? directionAt(run.path[on.index]!, on.t) : null;
}

/** Every place where runs end on another run, piece by piece. Time grows with runs² of a piece. Remembered. */
export const seamMeetings = remember((garment: Garment): readonly SeamMeeting[] => {
  const runs = sewnRuns(garment);
  const ends = runs.flatMap(endsOf);
  return runs.flatMap((through): SeamMeeting[] => {
    const found: SeamMeeting[] = [];
    for (const end of ends) {
      if (end.run === through || end.run.piece !== through.piece) continue;
      if (found.some((m) => distance(m.at, end.at) < MEETING_PLACE)) continue;
      const direction = passing(through, end.at);
      if (!direction) continue;
      const here = ends.filter((e) => e.run !== through && distance(e.at, end.at) < MEETING_PLACE);
      const enders = here.map(({ run, atStart }): Ender => {
        const leaving = away(run.path, atStart);
        return { run, atStart, away: leaving, side: cross(direction, leaving) >= 0 ? 1 : -1 };
      });
      found.push({ piece: through.piece, at: end.at, through, direction, enders });
    }
    return found;
  });
});

/**
 * Which way along the through run an ender's allowances lie when they are pressed to its right (the side of perpendicular(its own
 * direction)): 1 with the run's direction, -1 against it.
 */
export function wayAlong({ atStart, away: leaving }: Ender, direction: Pt): 1 | -1 {
  const own = atStart ? leaving : scale(leaving, -1);
  return dot([-own[1], own[0]], direction) >= 0 ? 1 : -1;
}
