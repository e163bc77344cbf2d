import {
  distance,
  distanceToSegment,
  flattenPath,
  JOIN_GAP,
  mix,
  nearestOnPath,
  SAME_POINT,
  subtract,
  dot,
  type Curve,
  type Line,
  type Path,
  type Pt,
  type Ring,
} from '../geometry';
import { problem, type Problem } from '../pattern';

/** The fold on the outline, and the outline with one exactly straight stretch there. */
export interface SnappedFold {
  readonly fold: Line;
  readonly outline: Ring;
}

const SAMPLES = 16;

/** Distance of the control points farthest from the line through a and b, mm: no point of the curve lies farther. */
function offAxis(c: Curve, [a, b]: Line): number {
  const l = distance(a, b);
  return Math.max(
    ...c.map((p) => Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / l),
  );
}

/** Where p lies along the line from a (0) to b (1). */
const along = (p: Pt, [a, b]: Line): number => dot(subtract(p, a), subtract(b, a)) / distance(a, b) ** 2;

/** How far the traced fold lies from the outline at its worst place. */
function gapTo(outline: Ring, fold: Line): { gap: number; at: Pt } {
  let worst = { gap: 0, at: fold[0] };
  for (let i = 0; i <= SAMPLES; i += 1) {
    const at = mix(fold[0], fold[1], i / SAMPLES);
    const gap = nearestOnPath(outline, at).distance;
    if (gap > worst.gap) worst = { gap, at };
  }
  return worst;
}

/**
 * The outline curves the fold lies along: from the one under its middle as far as they follow it, and on along the same
 * straight line. What continues a fold in a straight line lies on the same fold of the cloth.
 * @returns first and last index, last < first where the stretch runs through the ring's start; null if not straight there
 */
function stretchUnder(outline: Ring, fold: Line): { first: number; last: number } | null {
  const n = outline.length;
  const curve = (i: number): Curve => outline[((i % n) + n) % n]!;
  const follows = (i: number): boolean => offAxis(curve(i), fold) <= JOIN_GAP && overlaps(curve(i), fold);
  const middle = nearestOnPath(outline, mix(fold[0], fold[1], 0.5)).index;
  if (!follows(middle)) return null;
  let [first, last] = [middle, middle];
  const axis = (): Line => [curve(first)[0], curve(last).at(-1) as Pt];
  const goesOn = (i: number, end: Pt): boolean => {
    const far = curve(i).every((p) => distance(p, end) === 0) ? end : farEnd(curve(i), end);
    return (
      offAxis(curve(i), axis()) <= SAME_POINT &&
      dot(subtract(far, end), subtract(end, end === axis()[0] ? axis()[1] : axis()[0])) > 0
    );
  };
  while (last - first < n - 2 && (follows(last + 1) || goesOn(last + 1, axis()[1]))) last += 1;
  while (last - first < n - 2 && (follows(first - 1) || goesOn(first - 1, axis()[0]))) first -= 1;
  return { first: ((first % n) + n) % n, last: ((last % n) + n) % n };
}

const farEnd = (c: Curve, end: Pt): Pt =>
  distance(c[0], end) > distance(c.at(-1) as Pt, end) ? c[0] : (c.at(-1) as Pt);

/** Whether a curve near the fold's line covers some of the fold itself, more than a touch at its end. */
function overlaps(c: Curve, fold: Line): boolean {
  const [s, t] = [along(c[0], fold), along(c.at(-1) as Pt, fold)];
  const shared = Math.min(1, Math.max(s, t)) - Math.max(0, Math.min(s, t));
  return shared * distance(fold[0], fold[1]) > Math.min(JOIN_GAP, distance(c[0], c.at(-1) as Pt) / 2);
}

/** The stretch replaced by one straight line. */
function straightened(outline: Ring, first: number, last: number): SnappedFold {
  const fold: Line = [outline[first]![0], outline[last]!.at(-1) as Pt];
  const rest: Path =
    first <= last ? [...outline.slice(last + 1), ...outline.slice(0, first)] : outline.slice(last + 1, first);
  return { fold, outline: [fold, ...rest] };
}

/**
 * Lay a traced fold on the straight stretch of the outline it was traced along. Its ends move to the corners where that
 * stretch ends; the stretch becomes one straight line, so that the mirrored half joins exactly.
 * @param path as traced
 * @param piece name for problems
 */
export function snapFold(path: Path, outline: Ring, piece: string): SnappedFold | Problem {
  const points = flattenPath(path).points;
  const fold: Line = [points[0]!, points.at(-1)!];
  if (distance(...fold) < JOIN_GAP) return problem('fold-not-straight', {}, piece, fold[0]);
  const bend = points.reduce((most, p) => Math.max(most, distanceToSegment(p, ...fold).distance), 0);
  if (bend > JOIN_GAP) return problem('fold-not-straight', {}, piece, mix(...fold, 0.5));
  const { gap, at } = gapTo(outline, fold);
  if (gap > JOIN_GAP) return problem('fold-off-outline', { gap }, piece, at);
  const stretch = stretchUnder(outline, fold);
  if (!stretch) return problem('fold-not-straight', {}, piece, mix(...fold, 0.5));
  const snapped = straightened(outline, stretch.first, stretch.last);
  const covers = (p: Pt): boolean => distanceToSegment(p, ...snapped.fold).distance <= JOIN_GAP;
  return covers(fold[0]) && covers(fold[1])
    ? snapped
    : problem('fold-not-straight', {}, piece, mix(...fold, 0.5));
}
