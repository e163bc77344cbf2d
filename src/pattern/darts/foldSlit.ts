import {
  type Pt,
  SAME_POINT,
  curveLength,
  distance,
  distanceToSegment,
  pointAt,
  parameterAtLength,
  signedAreaOfPoints,
} from '../../geometry';
import type { DartShape } from '../design';
import { type SingleDart, dartPoints, turnBetween } from './dartShape';
import { seesPlace } from './outlinePlace';
import { type Outline, mouthPlace, stretch } from './turnPart';

/** Where a piece is slit so that one of its darts can lie shut, and which part turns. */
export interface Slit {
  readonly at: Pt;
  readonly turns: 'before' | 'after';
  /** Area of the part that turns, mm². */
  readonly area: number;
}

/** Angles that a slit should keep from both legs, best first, radians: 60°, and less where the point lies near an edge. */
const CLEAR_OF_LEGS = [60, 40, 25].map((d) => (d * Math.PI) / 180);
/** Places tried along the outline are this far apart, mm. */
const STEP = 6;
/** How near a slit may come to other darts, mm. */
const CLEAR_OF_DARTS = 5;

/**
 * The slit from a dart's point to the outline that turns the smallest part: clear of the dart's legs and of other darts. Null where every way to
 * the outline is barred.
 * @param isOutline whether a curve may be slit to (cuts that are no outline may not)
 */
export function foldSlit<T>(
  outline: Outline<T>,
  dart: SingleDart,
  others: readonly DartShape[],
  isOutline: (tag: T) => boolean = () => true,
): Slit | null {
  const tried = slitsOf(outline, dart, isOutline);
  for (const clear of CLEAR_OF_LEGS) {
    const fitting = tried.filter((s) => s.fromLegs >= clear).sort((a, b) => a.area - b.area);
    const found = fitting.find(
      (s) => isClearOf(s.at, dart.point, others) && seesPlace(outline, dart.point, s.at, others),
    );
    if (found) return found;
  }
  return null;
}

function slitsOf<T>(
  outline: Outline<T>,
  dart: SingleDart,
  isOutline: (tag: T) => boolean,
): (Slit & { fromLegs: number })[] {
  const { from, to } = mouthPlace(outline, dart);
  const round = stretch(outline, to, from);
  const spots = round.flatMap(({ curve, tag }): { at: Pt; free: boolean }[] => {
    const length = curveLength(curve);
    const n = Math.max(1, Math.ceil(length / STEP));
    return Array.from({ length: n }, (_, i) => ({
      at: pointAt(curve, parameterAtLength(curve, (length * i) / n)),
      free: isOutline(tag),
    }));
  });
  const after: number[] = [0];
  for (let i = 1; i < spots.length; i += 1)
    after.push(after[i - 1]! + signedAreaOfPoints([dart.point, spots[i - 1]!.at, spots[i]!.at]));
  const whole = after.at(-1) ?? 0;
  return spots.flatMap(({ at, free }, i) => {
    if (!free || i === 0) return [];
    const fromLegs = Math.min(...dart.mouth.map((m) => Math.abs(turnBetween(m, dart.point, at))));
    const areas = { before: whole - after[i]!, after: after[i]! };
    return (['before', 'after'] as const).map((turns) => ({
      at,
      turns,
      area: Math.abs(areas[turns]),
      fromLegs,
    }));
  });
}

/** Whether a slit keeps away from other darts; from the point that a dart shares with it, it starts. */
const isClearOf = (at: Pt, point: Pt, others: readonly DartShape[]): boolean =>
  others.every((d) => {
    const ends = d.kind === 'single' ? [...d.mouth, d.point] : [...dartPoints(d), d.points[1], d.points[3]];
    return ends.every(
      (p) => distance(p, point) <= SAME_POINT || distanceToSegment(p, point, at).distance >= CLEAR_OF_DARTS,
    );
  });
