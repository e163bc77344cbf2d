import {
  add,
  crossStraight,
  cross,
  distance,
  dot,
  nearestOnPath,
  scale,
  subtract,
  type Pt,
} from '../../geometry';
import type { CatchField, CatchKind, CatchSpot } from './catchField';

/** Where an end lies, and what it has caught; kind null where it lies free. */
export interface Caught {
  readonly at: Pt;
  readonly kind: CatchKind | null;
  readonly word: string | null;
}

/** A spot this far beside a straight line, mm, still counts as lying on it. */
const BESIDE = 0.5;
/** Spots win over curves, and edges over levels, when several are in reach: factors on their distance. */
const SPOT_PULL = 0.6;
const LEVEL_PUSH = 1.3;

export const free = (at: Pt): Caught => ({ at, kind: null, word: null });

const nearer = (
  a: (CatchSpot & { rank: number }) | null,
  b: CatchSpot & { rank: number },
): CatchSpot & { rank: number } => (a !== null && a.rank <= b.rank ? a : b);

/**
 * Catch an end that may lie anywhere.
 * @param reach mm; nothing farther away is caught, 0 catches nothing
 */
export function catchAnywhere(field: CatchField, p: Pt, reach: number): Caught {
  let best: (CatchSpot & { rank: number }) | null = null;
  for (const spot of field.spots) {
    const away = distance(spot.at, p);
    if (away <= reach) best = nearer(best, { ...spot, rank: away * SPOT_PULL });
  }
  for (const { path, kind, word, straight } of field.curves) {
    if (path.length === 0) continue;
    const at = straight
      ? add(straight.origin, scale(straight.direction, dot(subtract(p, straight.origin), straight.direction)))
      : nearestOnPath(path, p).point;
    const away = distance(at, p);
    if (away <= reach)
      best = nearer(best, { at, kind, word, rank: away * (straight ? LEVEL_PUSH : 1) + reach * 0.15 });
  }
  return best ? { at: best.at, kind: best.kind, word: best.word } : free(p);
}

/** All places where the straight line through `origin` meets something, and spots lying on it. */
function spotsOnStraight(field: CatchField, origin: Pt, direction: Pt): (CatchSpot & { along: number })[] {
  const beside = (at: Pt): boolean => Math.abs(cross(direction, subtract(at, origin))) <= BESIDE;
  const onto = (at: Pt): Pt => add(origin, scale(direction, dot(subtract(at, origin), direction)));
  const spots = field.spots.filter(({ at }) => beside(at)).map((spot) => ({ ...spot, at: onto(spot.at) }));
  const crossings = field.curves.flatMap(({ path, kind, word, straight }): CatchSpot[] => {
    if (!straight)
      return crossStraight(path, origin, direction).map(({ point }) => ({ at: point, kind, word }));
    const turn = cross(direction, straight.direction);
    if (Math.abs(turn) < 1e-6) return [];
    const s = cross(subtract(straight.origin, origin), straight.direction) / turn;
    return [{ at: add(origin, scale(direction, s)), kind, word }];
  });
  return [...spots, ...crossings].map((spot) => ({
    ...spot,
    along: dot(subtract(spot.at, origin), direction),
  }));
}

/**
 * Catch an end that must stay on a straight line: the nearest meeting with an edge, line or level within reach.
 * Past the last edge the end stays on that edge, so that an over-long stroke ends where it can be sewn.
 * @param direction unit vector
 */
export function catchOnStraight(field: CatchField, origin: Pt, direction: Pt, p: Pt, reach: number): Caught {
  const along = dot(subtract(p, origin), direction);
  const ahead = spotsOnStraight(field, origin, direction).filter((spot) => spot.along > 1 || spot.along < -1);
  const rank = (spot: CatchSpot & { along: number }): number =>
    Math.abs(spot.along - along) *
    (spot.kind === 'edge' || spot.kind === 'line'
      ? 1
      : spot.kind === 'level' || spot.kind === 'centre'
        ? LEVEL_PUSH
        : SPOT_PULL);
  let best: (CatchSpot & { along: number }) | null = null;
  for (const spot of ahead) {
    if (Math.abs(spot.along - along) <= reach && (!best || rank(spot) < rank(best))) best = spot;
  }
  if (best) return { at: best.at, kind: best.kind, word: best.word };
  if (reach > 0) {
    const edges = ahead.filter((spot) => spot.kind === 'edge');
    const last = edges.reduce<(CatchSpot & { along: number }) | null>(
      (far, spot) => (!far || spot.along > far.along ? spot : far),
      null,
    );
    if (last && along > last.along && last.along > 0) return { at: last.at, kind: 'edge', word: 'edge' };
  }
  return free(add(origin, scale(direction, along)));
}

/** What a line can end on, so that it can be sewn: an edge or another line. */
const ENDS: readonly CatchKind[] = ['edge', 'line', 'corner', 'line end'];

/**
 * The first place ahead on a straight line where a panel line could end; null when there is none within reach.
 * @param direction unit vector; nothing behind the origin is found
 */
export function nextEndAlong(field: CatchField, origin: Pt, direction: Pt, reach: number): Caught | null {
  const first = spotsOnStraight(field, origin, direction)
    .filter(({ along, kind }) => along > 1 && along <= reach && ENDS.includes(kind))
    .sort((a, b) => a.along - b.along)[0];
  return first ? { at: first.at, kind: first.kind, word: first.word } : null;
}
