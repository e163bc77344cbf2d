import {
  type Path,
  type Pt,
  lengthAt,
  nearestOnPath,
  reversePath,
  subPath,
  distance,
  endOf,
  startOf,
  MEETING_PLACE,
} from '../../geometry';
import { type Panel, type Seam, alongSeam, sewnLength } from '../../panels';
import { heightOf, placeAcross } from '../../pattern';
import type { Garment } from '../garment';
import { type SeamMeeting, seamMeetings } from './crossings';
import { edgeAt, numbersOf } from './names';
import { isCrossing } from './pressings';
import { type RunSide, type SewnRun, panelBeside, sideOfRun } from './sewnRuns';

/** A match mark of a run: how far from its start as sewn, mm, and how many strokes it has. */
export interface RunNotch {
  readonly at: number;
  readonly marks: number;
  readonly seam: Seam;
  /** Eased in between this one and the next or last of its seam, mm; null where nothing is. */
  readonly ease: number | null;
}

const pathAlong = ({ edge, of }: RunSide): Path => {
  const path = alongSeam(edge);
  return of.forward ? path : reversePath(path);
};

/** Sewn length from the beginning of a path to the place nearest to a point, mm. */
function sewnTo(path: Path, panel: Panel, p: Pt): number {
  const ref = nearestOnPath(path, p);
  const before = subPath(path, { index: 0, t: 0 }, ref);
  return before.length === 0 ? 0 : Math.min(lengthAt(path, ref), sewnLength(before, panel.darts));
}

/** Notches along one side of a run, from its start. */
export function runNotches(garment: Garment, run: SewnRun, side: 1 | -1): readonly RunNotch[] {
  let before = 0;
  return sideOfRun(garment, run, side)
    .flatMap((part): RunNotch[] => {
      const path = pathAlong(part);
      const cut = garment.cutPieces[garment.panels.indexOf(part.panel)]!;
      const own = cut.notches.filter((n) => n.seam === part.of.seam.id);
      const notches = own.map(({ at, marks, ease }): RunNotch => ({
        at: before + sewnTo(path, part.panel, at),
        marks,
        ease,
        seam: part.of.seam,
      }));
      before += sewnLength(path, part.panel.darts);
      return notches;
    })
    .toSorted((a, b) => a.at - b.at);
}

/** A crossing on a run, from its start as sewn, mm. */
export interface RunCrossing {
  readonly at: number;
  readonly meeting: SeamMeeting;
}

/** Where seams sewn earlier meet on a run from both sides, seam to seam, from its start. */
export function runCrossings(garment: Garment, run: SewnRun): readonly RunCrossing[] {
  const sides = sideOfRun(garment, run, 1);
  return seamMeetings(garment)
    .filter((m) => m.through === run && isCrossing(m))
    .map((meeting): RunCrossing => {
      let before = 0;
      for (const part of sides) {
        const path = pathAlong(part);
        if (nearestOnPath(path, meeting.at).distance < 0.5) {
          return { meeting, at: before + sewnTo(path, part.panel, meeting.at) };
        }
        before += sewnLength(path, part.panel.darts);
      }
      return { meeting, at: lengthAt(run.path, nearestOnPath(run.path, meeting.at)) };
    })
    .toSorted((a, b) => a.at - b.at);
}

/** Where an end of a run is: at an outer edge, or at the panel beyond the seam it ends on. */
function endPlace(garment: Garment, run: SewnRun, atStart: boolean): string | null {
  const at = atStart ? startOf(run.path) : endOf(run.path);
  const edge = edgeAt(garment.pieceById.get(run.piece)!.whole, at);
  if (edge) return edge;
  const meeting = seamMeetings(garment).find(
    (m) => distance(m.at, at) < MEETING_PLACE && m.enders.some((e) => e.run === run),
  );
  if (!meeting) return null;
  const { side } = meeting.enders.find((e) => e.run === run)!;
  const far = meeting.through.seams
    .filter((s) => nearestOnPath(s.seam.path, at).distance < MEETING_PLACE)
    .map((s) => panelBeside(s, side > 0 ? -1 : 1));
  return far.length > 0 ? `panel ${numbersOf(garment, [...new Set(far)])}` : null;
}

/** What an end of a run is called: `the end at the armhole`, `the end at panel 5`, `the left end, right side up`. */
export function endWords(garment: Garment, run: SewnRun, atStart: boolean): string {
  const [own, other] = [endPlace(garment, run, atStart), endPlace(garment, run, !atStart)];
  if (own && own !== other) return `the end at ${own}`;
  const { whole } = garment.pieceById.get(run.piece)!;
  const [p, q] = atStart ? [startOf(run.path), endOf(run.path)] : [endOf(run.path), startOf(run.path)];
  const over = placeAcross(whole, p) - placeAcross(whole, q);
  const down = heightOf(whole, p) - heightOf(whole, q);
  if (Math.abs(down) > Math.abs(over)) return `the ${down < 0 ? 'upper' : 'lower'} end`;
  return `the ${over < 0 ? 'left' : 'right'} end, seen from the right side`;
}
