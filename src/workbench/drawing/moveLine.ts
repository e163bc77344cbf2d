import {
  add,
  distance,
  dot,
  endOf,
  isCubic,
  perpendicular,
  scale,
  startOf,
  subtract,
  unit,
  type Path,
  type Pt,
} from '../../geometry';
import { movedPath, withPathEnds } from '../../lines';
import type { CatchField } from './catchField';
import type { Caught } from './catchPoint';

export const isStraight = (path: Path): boolean => path.length === 1 && !isCubic(path[0]!);

/**
 * Move a whole line; ends that hang on an edge, another line or the centre stay on it.
 * @param field what may be hung on, the line itself left out
 */
export const movePath = (path: Path, field: CatchField, delta: Pt): Path =>
  movedPath(
    path,
    field.curves.flatMap((curve) => (curve.kind === 'level' ? [] : [curve.path])),
    delta,
  );

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
