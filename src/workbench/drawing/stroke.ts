import { crossStraight, cross, distance, subtract, unit, type Path, type Pt } from '../../geometry';
import { type WholePiece, grainFrame } from '../../pattern';
import { runOf, squaredDirection, type Run } from './grainRun';
import { catchAnywhere, catchOnStraight, nextEndAlong, type Caught } from './catchPoint';
import type { CatchField } from './catchField';

/** A stroke as it is being drawn on one piece. */
export interface Stroke {
  readonly from: Caught;
  readonly to: Caught;
  readonly run: Run;
}

/** What becomes of a stroke: the path to keep and whether it stays on this side only. */
export interface StrokeResult {
  readonly path: Path;
  readonly once: boolean;
}

export interface StrokeManner {
  /** Not squared: the end goes where the hand goes. */
  readonly anyAngle: boolean;
  /** mm within which ends catch; 0 lets them lie free. */
  readonly reach: number;
}

/** Shortest stroke that is taken as meant, mm. */
export const SHORTEST_STROKE = 3;
/** This near the fold, mm, a point counts as on it. */
const ON_FOLD = 0.05;

/** How much farther than ends a free start reaches back to the edge or line behind it. */
const REACH_BACK = 2.5;

/** A start that lies free but only just inside is drawn back to the edge or line behind it. */
function drawnBack(field: CatchField, from: Caught, to: Pt, reach: number): Caught {
  if (from.kind !== null || reach <= 0 || distance(from.at, to) < SHORTEST_STROKE) return from;
  return nextEndAlong(field, from.at, unit(subtract(from.at, to)), reach * REACH_BACK) ?? from;
}

/** The stroke from a caught start to where the hand is now: squared off the grain or running with it unless any angle is asked for. */
export function strokeTo(
  whole: WholePiece,
  field: CatchField,
  from: Caught,
  hand: Pt,
  manner: StrokeManner,
): Stroke {
  const frame = grainFrame(whole);
  const to = manner.anyAngle
    ? catchAnywhere(field, hand, manner.reach)
    : catchOnStraight(field, from.at, squaredDirection(frame, from.at, hand), hand, manner.reach);
  return { from: drawnBack(field, from, to.at, manner.reach), to, run: runOf(frame, from.at, to.at) };
}

/** Side of the fold a point lies on: 0 on it. */
function sideOfFold(whole: WholePiece, p: Pt): -1 | 0 | 1 {
  if (!whole.foldLine) return 0;
  const [a, b] = whole.foldLine;
  const away = cross(unit(subtract(b, a)), subtract(p, a));
  return Math.abs(away) <= ON_FOLD ? 0 : away < 0 ? -1 : 1;
}

/** A drawn point without the dust of rounding: a millionth of a millimetre is kept. */
const tidy = ([x, y]: Pt): Pt => [Math.round(x * 1e6) / 1e6, Math.round(y * 1e6) / 1e6];

/**
 * The panel line a stroke leaves behind. On an opened-out piece with mirroring on, a line square to the fold is kept up to
 * the fold (its mirror image completes it); a slanting one over the centre, or one along the fold, is this side only.
 */
export function finishStroke(whole: WholePiece, from: Pt, to: Pt, mirroring: boolean): StrokeResult {
  const [a, b] = [tidy(from), tidy(to)];
  const straight: StrokeResult = { path: [[a, b]], once: !mirroring && whole.foldLine !== null };
  if (!whole.foldLine || !mirroring) return straight;
  const [sideA, sideB] = [sideOfFold(whole, a), sideOfFold(whole, b)];
  if (sideA === 0 && sideB === 0) return { ...straight, once: true };
  if (sideA * sideB >= 0) return straight;
  const fold = unit(subtract(whole.foldLine[1], whole.foldLine[0]));
  if (Math.abs(fold[0] * (b[0] - a[0]) + fold[1] * (b[1] - a[1])) > 0.001 * distance(a, b))
    return { ...straight, once: true };
  const meet = crossStraight([[a, b]], whole.foldLine[0], fold)[0];
  if (!meet) return straight;
  const longer = distance(a, meet.point) >= distance(meet.point, b);
  return { path: longer ? [[a, meet.point]] : [[b, meet.point]], once: false };
}
