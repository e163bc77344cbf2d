import {
  type Curve,
  type Path,
  type Pt,
  cross,
  distance,
  endOf,
  endOfCurve,
  isCubic,
  mix,
  nearestOnPath,
  parallelCurve,
  pathLength,
  pointAtLength,
  reversePath,
  startOf,
  startOfCurve,
  subtract,
  withEnds,
} from '../geometry';

/** Two lines side by side. */
export interface SideBySide {
  /** Halfway between them, run as the first. */
  readonly middle: Path;
  /** Mean distance between them, mm. */
  readonly width: number;
  /** The most that the distance differs from the mean, mm. */
  readonly spread: number;
}

/** Places looked at along a line. */
const LOOKS = 48;
/** Distances may differ from their mean by this share of it, or by this much, mm, before the lines count as running apart. */
const MOST_APART = 0.2;
const LEAST_APART = 1;
/** Where one line ends this much farther on than the other, as a multiple of their distance, they do not lie side by side. */
const MOST_STAGGER = 3;

const places = (path: Path): Pt[] => {
  const total = pathLength(path);
  return Array.from({ length: LOOKS + 1 }, (_, i) => pointAtLength(path, (i * total) / LOOKS).point);
};

/** The distances from a path to another one's points, each weighed once. Ends are left out where the other one has ended already. */
const gapsTo = (path: Path, points: readonly Pt[]): number[] =>
  points
    .map((p) => ({ near: nearestOnPath(path, p), p }))
    .filter(({ near }) => {
      const isAtTip = (near.index === 0 && near.t <= 0) || (near.index === path.length - 1 && near.t >= 1);
      return !isAtTip;
    })
    .map(({ near }) => near.distance);

/** Halfway between two curves of one kind, point for point; a straight one is taken as a curve where the other is curved. */
function halfway(a: Curve, b: Curve): Curve | null {
  if (isCubic(a) !== isCubic(b)) return null;
  if (isCubic(a) && isCubic(b))
    return [mix(a[0], b[0], 0.5), mix(a[1], b[1], 0.5), mix(a[2], b[2], 0.5), mix(a[3], b[3], 0.5)];
  return [mix(startOfCurve(a), startOfCurve(b), 0.5), mix(endOfCurve(a), endOfCurve(b), 0.5)];
}

/** Halfway between paths of like build; null where they are built differently. */
function halfwayPath(a: Path, b: Path): Path | null {
  if (a.length !== b.length) return null;
  const out = a.map((c, i) => halfway(c, b[i]!));
  return out.every((c) => c !== null) ? out : null;
}

/**
 * The parallel of a path at `offset` mm on the side of (dy, −dx) for direction of travel (dx, dy). Straight joints are mitred; where a
 * curve meets another at a corner they are joined straight across. @returns null where it bends tighter than that
 */
export function parallelPath(path: Path, offset: number): Path | null {
  const sides = path.map((c) => parallelCurve(c, offset));
  if (sides.some((s) => s.swallows || s.pieces.length === 0)) return null;
  const out: Curve[] = [];
  for (const { pieces } of sides) {
    const [last, first] = [out.at(-1), pieces[0]!];
    const rest = pieces.slice(1);
    if (!last || distance(endOfCurve(last), startOfCurve(first)) < 1e-6) {
      out.push(last ? withEnds(first, endOfCurve(last), endOfCurve(first)) : first, ...rest);
      continue;
    }
    const corner = isCubic(last) || isCubic(first) ? null : meetingOf(last[0], last[1], first[0], first[1]);
    if (corner) {
      out[out.length - 1] = [startOfCurve(last), corner];
      out.push([corner, endOfCurve(first)], ...rest);
    } else out.push([endOfCurve(last), startOfCurve(first)], first, ...rest);
  }
  return out;
}

/** Where two straight lines drawn on meet; null where they run the same way. */
function meetingOf(a: Pt, b: Pt, c: Pt, d: Pt): Pt | null {
  const [r, s] = [subtract(b, a), subtract(d, c)];
  const turn = cross(r, s);
  return Math.abs(turn) < 1e-9 ? null : mix(a, b, cross(subtract(c, a), s) / turn);
}

/** The second path run as the first is. */
const runAlike = (a: Path, b: Path): Path =>
  distance(startOf(a), startOf(b)) + distance(endOf(a), endOf(b)) <=
  distance(startOf(a), endOf(b)) + distance(endOf(a), startOf(b))
    ? b
    : reversePath(b);

/** Why two lines cannot become one. */
export type ApartFault = 'run apart' | 'not side by side';

/**
 * What lies halfway between two lines that run side by side. Exact for parallel straight lines and for curves that are each other's
 * parallel point for point; for others the mean distance is taken.
 */
export function betweenLines(a: Path, other: Path): SideBySide | ApartFault {
  const b = runAlike(a, other);
  const gaps = [...gapsTo(a, places(b)), ...gapsTo(b, places(a))];
  if (gaps.length < LOOKS) return 'not side by side';
  const width = gaps.reduce((sum, g) => sum + g, 0) / gaps.length;
  const spread = Math.max(...gaps.map((g) => Math.abs(g - width)));
  const stagger = Math.max(distance(startOf(a), startOf(b)), distance(endOf(a), endOf(b)));
  if (stagger > MOST_STAGGER * width + LEAST_APART) return 'not side by side';
  if (spread > Math.max(LEAST_APART, MOST_APART * width)) return 'run apart';
  const side = nearestOnPath(b, pointAtLength(a, pathLength(a) / 2).point);
  const here = pointAtLength(a, pathLength(a) / 2);
  const isLeft = cross(here.direction, subtract(side.point, here.point)) < 0;
  const middle = halfwayPath(a, b) ?? parallelPath(a, isLeft ? width / 2 : -width / 2);
  return middle ? { middle, width, spread } : 'run apart';
}
