import { type Pt, add, dot, perpendicular, scale, unit } from '../../geometry';
import { type PieceId, remember } from '../../pattern';
import type { Garment } from '../garment';
import { type Ender, type SeamMeeting, seamMeetings } from './crossings';
import { pressingsOf } from './pressings';
import type { SewnRun } from './sewnRuns';
import { widthOfSeam } from './widths';

/** Layers of cloth over one another where seams meet. */
export interface LayersAt {
  readonly piece: PieceId;
  readonly at: Pt;
  /** The seam that goes through. */
  readonly through: SewnRun;
  readonly enders: readonly SewnRun[];
  /** The most layers that lie over one another there, trims counted. */
  readonly most: number;
  /** The same if the through seam were pressed open; and if all were. */
  readonly throughOpen: number;
  readonly allOpen: number;
}

/**
 * Layers that a home machine still takes and an iron still flattens: two seams pressed to one side that cross and nest make 7.
 * Common practice, no source.
 */
export const MOST_LAYERS = 8;

/** How finely the neighbourhood of a meeting is looked at: directions round it, and how far out as a share of the least allowance. */
const DIRECTIONS = 24;
const OUT = 0.4;

/** A seam that ends at the meeting, as a straight line through it with its allowances on `ways` sides. */
export interface Strip {
  readonly right: Pt;
  readonly width: number;
  readonly towards: 1 | -1 | 0;
}

/** Layers that a unit has at a place near the meeting: its cloth, and the allowances of its seams lying there. */
function layersOf(strips: readonly Strip[], q: Pt): number {
  return strips.reduce((sum, { right, width, towards }) => {
    const over = dot(q, right);
    if (Math.abs(over) > width) return sum;
    if (towards === 0) return sum + 1;
    return over * towards > 0 ? sum + 2 : sum;
  }, 1);
}

/**
 * Most layers near a meeting. Each unit is its cloth with the allowances of seams sewn earlier; when the through seam is pressed, its
 * allowances (units folded back along it, seams and all) come to lie on the one side or, open, each on its own.
 */
export function stackOf(left: readonly Strip[], right: readonly Strip[], through: Strip, along: Pt): number {
  const reach = OUT * Math.min(through.width, ...[...left, ...right].map((s) => s.width));
  let most = 0;
  for (let i = 0; i < DIRECTIONS; i += 1) {
    const turn = (2 * Math.PI * (i + 0.5)) / DIRECTIONS;
    const q: Pt = [reach * Math.cos(turn), reach * Math.sin(turn)];
    const over = dot(q, through.right);
    const image: Pt = add(scale(along, dot(q, along)), scale(through.right, -over));
    const [own, other] = over > 0 ? [right, left] : [left, right];
    let count = layersOf(own, q);
    if (through.towards === 0 || over * through.towards > 0) count += layersOf(own, image);
    if (over * through.towards > 0) count += layersOf(other, q);
    most = Math.max(most, count);
  }
  return most;
}

/** Trims that lie over a run's lines: one layer each. */
function trimsOver({ design }: Garment, run: SewnRun): number {
  const lines = new Set(run.seams.map((s) => s.seam.line.line));
  return design.trims.filter((t) => t.on.kind === 'line' && lines.has(t.on.line)).length;
}

function layersOfMeeting(garment: Garment, meeting: SeamMeeting): LayersAt {
  const { runs } = pressingsOf(garment);
  const widthOf = (run: SewnRun): number =>
    Math.max(...run.seams.map((s) => widthOfSeam(garment, s.seam)), 0.1);
  const stripOf = ({ run, atStart, away }: Ender, open: boolean): Strip => ({
    right: perpendicular(atStart ? away : scale(away, -1)),
    width: widthOf(run),
    towards: open ? 0 : (runs.get(run)?.towards ?? 0),
  });
  const { through, direction, enders } = meeting;
  const along = unit(direction);
  const count = (throughOpen: boolean, endersOpen: boolean): number =>
    stackOf(
      enders.filter((e) => e.side < 0).map((e) => stripOf(e, endersOpen)),
      enders.filter((e) => e.side > 0).map((e) => stripOf(e, endersOpen)),
      {
        right: perpendicular(along),
        width: widthOf(through),
        towards: throughOpen ? 0 : (runs.get(through)?.towards ?? 0),
      },
      along,
    );
  const trims = [through, ...enders.map((e) => e.run)].reduce((sum, r) => sum + trimsOver(garment, r), 0);
  return {
    piece: meeting.piece,
    at: meeting.at,
    through,
    enders: enders.map((e) => e.run),
    most: count(false, false) + trims,
    throughOpen: count(true, false) + trims,
    allOpen: count(true, true) + trims,
  };
}

/** Layers of cloth at every place where panel seams meet, as they are pressed. Remembered; worked out only when asked for. */
export const layersAt = remember((garment: Garment): readonly LayersAt[] =>
  seamMeetings(garment).map((m) => layersOfMeeting(garment, m)),
);

/** How far off a line would have to end so that the seams do not pile up: both allowances clear of each other, mm. */
export function movedBy(garment: Garment, { enders, through }: LayersAt): number {
  const width = Math.max(
    ...[through, ...enders].flatMap((r) => r.seams.map((s) => widthOfSeam(garment, s.seam))),
  );
  return Math.ceil((2 * width) / 5) * 5;
}
