import {
  type Path,
  type Pt,
  add,
  crossStraight,
  directionAt,
  endOf,
  nearestOnPath,
  startOf,
  withEnds,
} from '../geometry';

/** An end this near an edge or line, mm, hangs on it and stays on it when the line moves. */
const HANGS = 1;
/** How far an end is drawn on along its own direction to stay on what it hangs on, mm. */
const REDRAW = 400;

/** What an end hangs on, or null where it lies free. */
function hangsOn(holders: readonly Path[], p: Pt): Path | null {
  let best: { path: Path; away: number } | null = null;
  for (const path of holders) {
    if (path.length === 0) continue;
    const away = nearestOnPath(path, p).distance;
    if (away <= HANGS && (!best || away < best.away)) best = { path, away };
  }
  return best?.path ?? null;
}

/** Where an end that hung on a path comes to lie after moving: drawn on or back along the line's own direction. */
function hungAgain(holder: Path, p: Pt, direction: Pt): Pt {
  const meets = crossStraight(holder, p, direction).filter(({ along }) => Math.abs(along) <= REDRAW);
  const near = meets.reduce<(typeof meets)[number] | null>(
    (b, m) => (!b || Math.abs(m.along) < Math.abs(b.along) ? m : b),
    null,
  );
  if (near) return near.point;
  const nearest = nearestOnPath(holder, p);
  return nearest.distance <= REDRAW / 4 ? nearest.point : p;
}

/** The path with its first and last point moved; handles go along with their ends. */
export function withPathEnds(path: Path, start: Pt, end: Pt): Path {
  if (path.length === 1) return [withEnds(path[0]!, start, end)];
  return path.map((curve, i) => {
    if (i === 0) return withEnds(curve, start, curve[curve.length - 1]!);
    return i === path.length - 1 ? withEnds(curve, curve[0], end) : curve;
  });
}

/**
 * A whole line moved; ends that hang on something stay on it.
 * @param path    as traced, mm
 * @param holders what ends may hang on: edges, other lines, the centre; the line itself left out
 * @param delta   how far, mm
 */
export function movedPath(path: Path, holders: readonly Path[], delta: Pt): Path {
  const shift = (p: Pt): Pt => add(p, delta);
  const [a, b] = [startOf(path), endOf(path)];
  const [onA, onB] = [hangsOn(holders, a), hangsOn(holders, b)];
  const moved: Path = path.map((curve) => curve.map(shift) as unknown as typeof curve);
  const last = moved[moved.length - 1]!;
  const start = onA ? hungAgain(onA, shift(a), directionAt(moved[0]!, 0)) : shift(a);
  const end = onB ? hungAgain(onB, shift(b), directionAt(last, 1)) : shift(b);
  return withPathEnds(moved, start, end);
}
