import type { Path, Pt } from '../geometry';
import { CORNER_TURN, cross, curvatureAt, directionAt, dot, isCubic, pointAt } from '../geometry';

/** How a path bends, for a strip centred on it. Turning is positive where the path turns from +x towards +y. */
export interface Bend {
  /** Sum of signed turning along curves plus 2·tan(turn/2) at joints, no unit: edges are length ± width/2 times this. */
  readonly turning: number;
  /** Where the path curves most, and the radius there, mm; Infinity and null on straight lines. */
  readonly tightest: { readonly radius: number; readonly at: Pt | null };
  /** Joints that turn by more than CORNER_TURN. */
  readonly corners: readonly Pt[];
  /** How far the path turns at each of them, signed, radians. */
  readonly turns: readonly number[];
}

const turnBetween = (a: Pt, b: Pt): number => Math.atan2(cross(a, b), dot(a, b));

/** Parameter steps along one cubic: fine enough that no step turns by half a circle. */
const STEPS = 64;

function mostCurved(c: Path[number]): { curvature: number; t: number } {
  const bend = (t: number): number => Math.abs(curvatureAt(c, t));
  let best = 0;
  for (let k = 1; k <= STEPS; k += 1) if (bend(k / STEPS) > bend(best)) best = k / STEPS;
  for (let step = 1 / STEPS; step > 1e-6; step /= 2) {
    for (const t of [Math.max(0, best - step), Math.min(1, best + step)]) if (bend(t) > bend(best)) best = t;
  }
  return { curvature: bend(best), t: best };
}

/** The bends of a path; a closed one has a joint where it starts. */
export function bendOf(path: Path, isClosed: boolean): Bend {
  let turning = 0;
  let tightest: Bend['tightest'] = { radius: Infinity, at: null };
  const corners: Pt[] = [];
  const turns: number[] = [];
  path.forEach((c, i) => {
    const before = path[i - 1] ?? (isClosed ? path.at(-1) : undefined);
    if (before) {
      const joint = turnBetween(directionAt(before, 1), directionAt(c, 0));
      turning += 2 * Math.tan(joint / 2);
      if (Math.abs(joint) > CORNER_TURN) {
        corners.push(pointAt(c, 0));
        turns.push(joint);
      }
    }
    if (!isCubic(c)) return;
    for (let k = 0; k < STEPS; k += 1)
      turning += turnBetween(directionAt(c, k / STEPS), directionAt(c, (k + 1) / STEPS));
    const { curvature, t } = mostCurved(c);
    if (curvature * tightest.radius > 1 || (tightest.at === null && curvature > 0))
      tightest = { radius: 1 / curvature, at: pointAt(c, t) };
  });
  return { turning, tightest, corners, turns };
}

/**
 * Lengths of the two long edges of a strip of a width centred on a path, mm: L ± (w/2)·Δθ (parallel curves; holds while
 * w/2 is below the least radius), mitred at corners. The first edge is on the side of −y of a path that runs along +x.
 */
export const stripEdges = (length: number, width: number, turning: number): readonly [number, number] => [
  length + (width / 2) * turning,
  length - (width / 2) * turning,
];
