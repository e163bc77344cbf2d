import {
  type Path,
  type Pt,
  SQUARE_WITHIN,
  UNMOVED,
  distance,
  dot,
  endOf,
  isCubic,
  startOf,
  subtract,
} from '../geometry';
import { type LineTies, type PanelLine, type Run, type Tie, type Until, grainFrame } from '../pattern';
import { type Axis, steepness } from './axis';
import { basesFor } from './basesFor';
import { edgeId } from './edgeOnPiece';
import { type Landing, landingOf } from './landing';
import { isLost } from './lost';
import { type Bases, measureReach } from './reach';
import { runEnd } from './runLine';
import { type TieGround, tiePoint } from './tiePoint';

/** An edge at more than 30 degrees to the direction measured in meets it surely enough. */
const MEETS_SURELY = 0.5;

/** How a line runs where it is tied. */
export type Lie = 'across' | 'with' | 'any';

/** How a path lies to the grain. */
export function lieOf({ whole }: Pick<TieGround, 'whole'>, path: Path): Lie {
  if (path.length !== 1 || isCubic(path[0]!)) return 'any';
  const { along, across } = grainFrame(whole);
  const d = subtract(endOf(path), startOf(path));
  if (Math.abs(dot(d, along)) <= SQUARE_WITHIN) return 'across';
  return Math.abs(dot(d, across)) <= SQUARE_WITHIN ? 'with' : 'any';
}

type EdgeTie = Tie & { kind: 'edge' };

/** A tie on an edge, measured so and from these bases; null where they do not measure there. */
export function edgeTie(
  { whole }: Pick<TieGround, 'whole'>,
  edge: number,
  along: EdgeTie['along'],
  bases: Bases,
  at: Pt,
): EdgeTie | null {
  const reach = measureReach(whole, edgeAxis(edge, along, at), bases, at);
  return isLost(reach) ? null : { kind: 'edge', ...edgeId(whole, edge), along, reach };
}

/** What a tie on an edge is measured on. */
export const edgeAxis = (edge: number, along: EdgeTie['along'], at: Pt): Axis =>
  along === 'edge' ? { kind: 'edge', edge, at } : { kind: along === 'grain' ? 'down' : 'over', at };

/** Ways to measure along, best first: by height for lines across the grain, from the centre for lines with it, else along the edge. */
function waysOn(ground: TieGround, edge: number, at: Pt, lie: Lie): EdgeTie['along'][] {
  const steep = steepness(ground.whole, edge, at);
  const byHeight = steep > MEETS_SURELY;
  const byPlace = Math.sqrt(1 - Math.min(1, steep) ** 2) > MEETS_SURELY;
  const first: EdgeTie['along'][] = [];
  if (lie === 'across' && byHeight && ground.whole.levels.length > 0) first.push('grain');
  if (lie === 'with' && byPlace && ground.whole.foldLine) first.push('across');
  return [...first, 'edge', ...(byHeight ? (['grain', 'across'] as const) : (['across', 'grain'] as const))];
}

const holds = (ground: TieGround, tie: Tie, at: Pt): boolean => {
  const back = tiePoint(ground, tie, at);
  return !isLost(back) && distance(back, at) <= UNMOVED;
};

/** A tie that holds a point inside, from the nearest level and the centre where there are such. */
export function insideTie({ whole }: Pick<TieGround, 'whole'>, at: Pt): (Tie & { kind: 'inside' }) | null {
  const [down, over] = (['down', 'over'] as const).map((kind) => {
    const axis: Axis = { kind, at };
    for (const bases of basesFor(whole, axis)) {
      const reach = measureReach(whole, axis, bases, at);
      if (!isLost(reach)) return reach;
    }
    return null;
  });
  return down && over ? { kind: 'inside', down, over } : null;
}

/** On another line: from the centre for a line with the grain, by height for one across it, else a share of the line. */
function proposeOnLine(ground: TieGround, tie: Tie & { kind: 'line' }, at: Pt, lie: Lie): Tie {
  if (lie === 'any') return tie;
  const kind = lie === 'with' ? 'over' : 'down';
  const first = basesFor(ground.whole, { kind, at })[0];
  if (!first || first.length > 1) return tie;
  const reach = measureReach(ground.whole, { kind, at }, first, at);
  if (isLost(reach)) return tie;
  const placed: Tie = { ...tie, place: { kind, reach } };
  return holds(ground, placed, at) ? placed : tie;
}

/** The tie proposed for a point that lies on something; null where the piece has nothing to measure it from. */
export function proposeTie(ground: TieGround, landing: Landing, lie: Lie): Tie | null {
  const { at } = landing;
  if (landing.kind === 'dart') return landing.tie;
  if (landing.kind === 'line') return proposeOnLine(ground, landing.tie, at, lie);
  if (landing.kind === 'edge') {
    for (const along of waysOn(ground, landing.edge, at, lie)) {
      for (const bases of basesFor(ground.whole, edgeAxis(landing.edge, along, at))) {
        const tie = edgeTie(ground, landing.edge, along, bases, at);
        if (tie && holds(ground, tie, at)) return tie;
      }
    }
  }
  return insideTie(ground, at);
}

/** What a line goes on to where an end of it lies; null where it could not be met again. */
export function untilOf(landing: Landing): Until | null {
  if (landing.kind === 'edge') return { kind: 'outline' };
  if (landing.kind === 'centre') return { kind: 'centre' };
  if (landing.kind !== 'line') return null;
  return { kind: 'line', line: landing.tie.line, mirrored: landing.tie.mirrored };
}

const RANK: Readonly<Record<Landing['kind'], number>> = { dart: 0, edge: 1, line: 2, centre: 3, inside: 4 };

/** Ties of a straight line that keeps its direction; null where its other end cannot be found by that. */
function runTies(
  ground: TieGround,
  [start, end]: readonly [Landing, Landing],
  direction: { kind: 'square' } | { kind: 'with' } | { kind: 'angle'; degrees: number },
): LineTies | null {
  const lie: Lie = direction.kind === 'square' ? 'across' : direction.kind === 'with' ? 'with' : 'any';
  const ways = RANK[start.kind] <= RANK[end.kind] ? (['start', 'end'] as const) : (['end', 'start'] as const);
  for (const tied of ways) {
    const [held, other] = tied === 'start' ? [start, end] : [end, start];
    // A line with an end in the open is held at both.
    if (held.kind === 'inside') continue;
    const until = untilOf(other);
    const tie = proposeTie(ground, held, lie);
    if (!until || !tie) continue;
    const run: Run = { ...direction, until };
    if (isLost(runEnd(ground, run, held.at, other.at))) continue;
    return { nodes: tied === 'start' ? [tie, null] : [null, tie], run };
  }
  return null;
}

/**
 * Ties for a line as it lies: what holds each end, and its direction where it is square to the grain or runs with it. Points
 * between follow.
 * @param others lines of the piece that it may be tied to: none that hang on it
 * @returns null for an empty path or where nothing can hold it
 */
export function tiesFor(ground: TieGround, others: readonly PanelLine[], path: Path): LineTies | null {
  if (path.length === 0) return null;
  const ends = [startOf(path), endOf(path)].map((p) => landingOf(ground, others, p)) as [Landing, Landing];
  const lie = lieOf(ground, path);
  if (lie !== 'any') {
    const run = runTies(ground, ends, { kind: lie === 'across' ? 'square' : 'with' });
    if (run) return run;
  }
  const [first, last] = ends.map((landing) => proposeTie(ground, landing, lie));
  if (!first && !last) return null;
  return { nodes: [first ?? null, ...path.slice(1).map(() => null), last ?? null], run: null };
}
