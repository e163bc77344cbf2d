import { dot, pathLength, pointAtLength } from '../../geometry';
import type { PanelId } from '../../panels';
import { type Colour, acrossFromMiddle, grainFrame, luminance } from '../../pattern';
import type { Garment } from '../garment';
import type { SeamMeeting } from './crossings';
import { type SewnRun, panelBeside, sideOfRun } from './sewnRuns';

/** Why allowances lie as they do. */
export type PressReason = 'nests' | 'bulk' | 'darker' | 'usual' | 'thick' | 'zip';

/** How much one side is to be preferred: positive for the right, negative for the left, and why. */
export interface Preference {
  readonly score: number;
  readonly because: Exclude<PressReason, 'nests' | 'thick' | 'zip'>;
}

/** Cloths nearer to each other than this in relative luminance count as equally dark. Our choice. */
const SAME_DARKNESS = 0.02;
/** A darker allowance under a lighter cloth shows through from this difference of relative luminance on. Our choice. */
export const SHOWS_THROUGH = 0.12;

/** One bulky side outweighs any difference of cloth; that outweighs habit. */
const BULK = 100;
const HABIT = 0.001;
/** Within this of the waist level, mm, a seam across is a waist seam. */
const AT_WAIST = 25;

/** The cloth a panel is cut from. @throws RangeError for a panel the garment does not have */
export function clothOf(garment: Garment, id: PanelId): Colour {
  const panel = garment.panelById.get(id);
  if (!panel) throw new RangeError(`no panel ${id} here`);
  const { colours } = garment.design;
  return colours.find((c) => c.id === panel.colour) ?? colours[0]!;
}

/** Mean luminance of the cloths along one side of a run, by length. */
function lightness(garment: Garment, run: SewnRun, side: 1 | -1): number {
  let [sum, total] = [0, 0];
  for (const s of run.seams) {
    const length = pathLength(s.seam.path);
    sum += luminance(clothOf(garment, panelBeside(s, side)).fill) * length;
    total += length;
  }
  return total > 0 ? sum / total : 0;
}

/** Darts whose side or mouth is caught in a run, on one side of it. */
function dartsAlong(garment: Garment, run: SewnRun, side: 1 | -1): number {
  const own = sideOfRun(garment, run, side);
  return own.reduce((sum, { panel, edge }) => {
    const ends = panel.darts.flatMap((d) => (d.kind === 'single' ? [d.mouth] : []));
    const caught = ends.filter(([a, b]) =>
      [a, b].some((p) => edge.path.some((c) => nearCurve(c[0], p) || nearCurve(c[c.length - 1]!, p))),
    );
    return sum + caught.length;
  }, 0);
}

const nearCurve = (a: readonly [number, number], b: readonly [number, number]): boolean =>
  Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]) < 0.1;

/** How many seams end on a run from the right less those from the left, darts counted too. */
function bulkOnRight(garment: Garment, run: SewnRun, meetings: readonly SeamMeeting[]): number {
  const enders = meetings.filter((m) => m.through === run).flatMap((m) => m.enders);
  const ended = enders.reduce((sum, e) => sum + e.side, 0);
  return ended + dartsAlong(garment, run, 1) - dartsAlong(garment, run, -1);
}

/**
 * What is usual where neither bulk nor cloth decides: a seam across goes up at the waist and down elsewhere, one along the body goes
 * towards the centre. Source for waist and centre (of darts): fabricatedcloset.com (n.d.); down elsewhere: common practice, no source.
 */
function habit(garment: Garment, run: SewnRun): number {
  const { whole } = garment.pieceById.get(run.piece)!;
  const { point, direction } = pointAtLength(run.path, pathLength(run.path) / 2);
  const { along } = grainFrame(whole);
  const right = [-direction[1], direction[0]] as const;
  if (Math.abs(dot(right, along)) >= Math.SQRT1_2) {
    const isWaist = whole.levels.some(
      (l) =>
        /waist/i.test(l.name) &&
        Math.abs(dot([point[0] - l.line[0][0], point[1] - l.line[0][1]], along)) < AT_WAIST,
    );
    return dot(right, along) > 0 === !isWaist ? HABIT : -HABIT;
  }
  const over = acrossFromMiddle(whole, point);
  const outwards = acrossFromMiddle(whole, [point[0] + right[0], point[1] + right[1]]) - over;
  return outwards * (over === 0 ? 1 : over) < 0 ? HABIT : -HABIT;
}

/** Which way a run would be pressed if no crossing asked for anything: away from bulk, else to the darker cloth, else as is usual. */
export function preferenceOf(garment: Garment, run: SewnRun, meetings: readonly SeamMeeting[]): Preference {
  const bulk = bulkOnRight(garment, run, meetings);
  if (bulk !== 0) return { score: -bulk * BULK, because: 'bulk' };
  const paler = lightness(garment, run, -1) - lightness(garment, run, 1);
  if (Math.abs(paler) > SAME_DARKNESS) return { score: paler, because: 'darker' };
  return { score: habit(garment, run), because: 'usual' };
}
