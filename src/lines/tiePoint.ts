import { type Path, type Pt, distance, pathLength, pointAtLength } from '../geometry';
import {
  type Base,
  type LineId,
  type PlacedDart,
  type Reach,
  type Tie,
  type WholePiece,
  grainFrame,
  placeAcross,
  pointInGrain,
} from '../pattern';
import { pointOnEdge } from './axis';
import { edgeAsSewn, findEdge, meetsOf, nearestPlace, onItsSide } from './edgeOnPiece';
import { type Lost, gone, isLost, missed, sayEdge } from './lost';
import { reachOn } from './reach';

/** What a tie is worked out from. */
export interface TieGround {
  readonly whole: WholePiece;
  /** Another line of the same piece as it lies now, drawn side; null when there is none of that name. */
  pathOf(line: LineId): Path | null;
  /** Where a line of a neighbour arrives on an edge of this piece once the seam is closed. */
  arrival(tie: Tie & { kind: 'neighbour' }, hint: Pt): Pt | Lost;
}

type EdgeTie = Tie & { kind: 'edge' };

/** Where a path is met at a height or a place across the grain, nearest to where the point was; null where it is not. */
function metOnPath(
  whole: WholePiece,
  path: Path,
  kind: 'down' | 'over',
  reach: Reach,
  hint: Pt,
): Pt | Lost | null {
  const { along, across } = grainFrame(whole);
  const place = reachOn(whole, { kind, at: hint }, reach);
  if (isLost(place)) return place;
  const [origin, direction] =
    kind === 'down' ? [pointInGrain(whole, place, 0), across] : [pointInGrain(whole, 0, place), along];
  return nearestPlace(meetsOf(path, origin, direction), hint)?.point ?? null;
}

/** Where a height or a place across the grain is met by an edge, nearest to where the point was. */
function edgeByGrain(whole: WholePiece, tie: EdgeTie, hint: Pt): Pt | Lost {
  const sewn = edgeAsSewn(whole, tie);
  if (!sewn) return gone(sayEdge(tie.name));
  const kind = tie.along === 'grain' ? 'down' : 'over';
  return metOnPath(whole, sewn.path, kind, tie.reach, hint) ?? missed(sayEdge(tie.name));
}

function onEdge(whole: WholePiece, tie: EdgeTie, hint: Pt): Pt | Lost {
  if (tie.along !== 'edge') return edgeByGrain(whole, tie, hint);
  const edge = findEdge(whole, tie);
  if (edge === null) return gone(sayEdge(tie.name));
  const place = reachOn(whole, { kind: 'edge', edge, at: hint }, tie.reach);
  return isLost(place) ? place : pointOnEdge(whole, edge, place);
}

const usesEdge = (reach: Reach): boolean => {
  const leans = (base: Base): boolean => base.kind === 'edge' || base.kind === 'centre';
  return reach.kind === 'from' ? leans(reach.base) : reach.bases.some(leans);
};

/** Height and place across lean on each other where both are measured from edges: taken in turns until they agree. */
const MOST_TURNS = 60;
const AGREE = 1e-10;

function inside(whole: WholePiece, tie: Tie & { kind: 'inside' }, hint: Pt): Pt | Lost {
  let at = hint;
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const down = reachOn(whole, { kind: 'down', at }, tie.down);
    if (isLost(down)) return down;
    // The place across is asked for at the new height.
    const level = pointInGrain(whole, down, placeAcross(whole, at));
    const over = reachOn(whole, { kind: 'over', at: level }, tie.over);
    if (isLost(over)) return over;
    const next = pointInGrain(whole, down, over);
    const moved = distance(next, at);
    at = next;
    if (moved < AGREE || !usesEdge(tie.down)) return at;
  }
  return at;
}

/** A point of a dart: the one it comes to, or either of a double-pointed one. */
export const dartPoint = (dart: PlacedDart, point: 0 | 1): Pt =>
  dart.kind === 'single' ? dart.point : dart.points[point === 0 ? 0 : 2];

function onLine(ground: TieGround, tie: Tie & { kind: 'line' }, hint: Pt): Pt | Lost {
  const { whole } = ground;
  const path = ground.pathOf(tie.line);
  if (!path || path.length === 0) return gone('a panel line');
  const other = onItsSide(whole, path, tie.mirrored);
  const { place } = tie;
  if (place.kind === 'share') return pointAtLength(other, pathLength(other) * place.share).point;
  return metOnPath(whole, other, place.kind, place.reach, hint) ?? missed('a panel line');
}

/**
 * Where a tie holds its point.
 * @param hint where the point was: tells which of several meeting places is meant
 */
export function tiePoint(ground: TieGround, tie: Tie, hint: Pt): Pt | Lost {
  const { whole } = ground;
  switch (tie.kind) {
    case 'edge':
      return onEdge(whole, tie, hint);
    case 'inside':
      return inside(whole, tie, hint);
    case 'line':
      return onLine(ground, tie, hint);
    case 'dart': {
      const dart = whole.darts.find((d) => d.traced === tie.dart && d.mirrored === tie.mirrored);
      return dart ? dartPoint(dart, tie.point) : gone('a dart');
    }
    case 'neighbour':
      return ground.arrival(tie, hint);
  }
}
