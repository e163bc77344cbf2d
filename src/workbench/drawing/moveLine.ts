import {
  add,
  crossStraight,
  directionAt,
  distance,
  dot,
  endOf,
  isCubic,
  nearestOnPath,
  perpendicular,
  scale,
  startOf,
  subtract,
  unit,
  withEnds,
  type Path,
  type Pt,
} from '../../geometry';
import type { CatchCurve, CatchField } from './catchField';
import type { Caught } from './catchPoint';

/** An end this near an edge or line, mm, hangs on it and stays on it when the line moves. */
const HANGS = 1;
/** How far an end is drawn on along its own direction to stay on what it hangs on, mm. */
const REDRAW = 400;

/** What an end hangs on, or null where it lies free. */
function hangsOn(field: CatchField, p: Pt): CatchCurve | null {
  let best: { curve: CatchCurve; away: number } | null = null;
  for (const curve of field.curves) {
    if (curve.kind === 'level' || curve.path.length === 0) continue;
    const away = nearestOnPath(curve.path, p).distance;
    if (away <= HANGS && (!best || away < best.away)) best = { curve, away };
  }
  return best?.curve ?? null;
}

export const isStraight = (path: Path): boolean => path.length === 1 && !isCubic(path[0]!);

/** The path with its first and last point moved; handles go along with their ends. */
export function withPathEnds(path: Path, start: Pt, end: Pt): Path {
  if (path.length === 1) return [withEnds(path[0]!, start, end)];
  return path.map((curve, i) => {
    if (i === 0) return withEnds(curve, start, curve[curve.length - 1]!);
    return i === path.length - 1 ? withEnds(curve, curve[0], end) : curve;
  });
}

/** Where an end that hung on a curve comes to lie after moving: drawn on or back along the line's own direction. */
function hungAgain(curve: CatchCurve, p: Pt, direction: Pt): Pt {
  const meets = crossStraight(curve.path, p, direction).filter(({ along }) => Math.abs(along) <= REDRAW);
  const near = meets.reduce<(typeof meets)[number] | null>(
    (b, m) => (!b || Math.abs(m.along) < Math.abs(b.along) ? m : b),
    null,
  );
  if (near) return near.point;
  const nearest = nearestOnPath(curve.path, p);
  return nearest.distance <= REDRAW / 4 ? nearest.point : p;
}

/**
 * Move a whole line; ends that hang on an edge, another line or the centre stay on it.
 * @param field what may be hung on, the line itself left out
 */
export function movePath(path: Path, field: CatchField, delta: Pt): Path {
  const shift = (p: Pt): Pt => add(p, delta);
  const [a, b] = [startOf(path), endOf(path)];
  const [onA, onB] = [hangsOn(field, a), hangsOn(field, b)];
  const moved: Path = path.map((curve) => curve.map(shift) as unknown as typeof curve);
  const last = moved[moved.length - 1]!;
  const start = onA ? hungAgain(onA, shift(a), directionAt(moved[0]!, 0)) : shift(a);
  const end = onB ? hungAgain(onB, shift(b), directionAt(last, 1)) : shift(b);
  return withPathEnds(moved, start, end);
}

/**
 * The movement nearest to the hand's that brings a straight line on to a level, corner, notch or other spot.
 * Only movement square to the line counts; curves move freely.
 */
export function catchMovement(
  path: Path,
  field: CatchField,
  delta: Pt,
  reach: number,
): { delta: Pt; caught: Caught | null } {
  if (!isStraight(path) || reach <= 0) return { delta, caught: null };
  const [a, b] = [startOf(path), endOf(path)];
  const u = unit(subtract(b, a));
  const normal = perpendicular(u);
  const wanted = dot(delta, normal);
  const levels = field.curves.flatMap(({ straight, kind, word }) =>
    straight && Math.abs(dot(straight.direction, normal)) < 1e-3 ? [{ at: straight.origin, kind, word }] : [],
  );
  let best: { off: number; caught: Caught } | null = null;
  for (const spot of [...levels, ...field.spots]) {
    const off = dot(subtract(spot.at, a), normal);
    if (Math.abs(off - wanted) > reach || Math.abs(off) < 1e-6) continue;
    if (!best || Math.abs(off - wanted) < Math.abs(best.off - wanted))
      best = { off, caught: { at: spot.at, kind: spot.kind, word: spot.word } };
  }
  if (!best) return { delta, caught: null };
  return { delta: add(scale(normal, best.off), scale(u, dot(delta, u))), caught: best.caught };
}

/** Move one end to a point; the other end stays. */
export const moveEnd = (path: Path, end: 'start' | 'end', to: Pt): Path =>
  end === 'start' ? withPathEnds(path, to, endOf(path)) : withPathEnds(path, startOf(path), to);

/** Draw a line's end on to a point straight ahead of it: the cure for an end in the open. */
export function extendTo(path: Path, end: 'start' | 'end', to: Pt): Path {
  const curve = end === 'start' ? path[0]! : path[path.length - 1]!;
  if (!isCubic(curve)) return moveEnd(path, end, to);
  const tip = end === 'start' ? startOf(path) : endOf(path);
  if (distance(tip, to) < 1) return moveEnd(path, end, to);
  return end === 'start' ? [[to, tip], ...path] : [...path, [tip, to]];
}
