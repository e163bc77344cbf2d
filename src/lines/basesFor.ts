import { type Pt, endOf, startOf } from '../geometry';
import { type Base, type WholePiece, sewnEdge, grainFrame, heightOf, placeAcross } from '../pattern';
import { type Axis, centreOf } from './axis';
import { edgeId, meetsOf } from './edgeOnPiece';
import { levelsDown } from './levelOf';
import { isLost } from './lost';
import { type Bases, measureReach } from './reach';

/** One key per way of measuring, so that two can be told apart. */
export const basesKey = (bases: Bases): string => JSON.stringify(bases);

const endOfEdge = (whole: WholePiece, edge: number, end: 'first' | 'last'): Base => ({
  kind: 'edge end',
  ...edgeId(whole, edge),
  end,
});

interface Stop {
  readonly base: Base;
  readonly height: number;
}

/** The levels of a piece from top to bottom, as what heights are measured from. */
const levelStops = (whole: WholePiece): Stop[] =>
  levelsDown(whole).map(({ level, height }) => ({ base: { kind: 'level', name: level.name }, height }));

/** The ends of edges that lie farthest up and farthest down. */
function topAndBottom(whole: WholePiece): readonly [Stop, Stop] | null {
  const ends = whole.edges.flatMap((_, edge): Stop[] => {
    const { path } = sewnEdge(whole, edge);
    if (path.length === 0) return [];
    return [
      { base: endOfEdge(whole, edge, 'first'), height: heightOf(whole, startOf(path)) },
      { base: endOfEdge(whole, edge, 'last'), height: heightOf(whole, endOf(path)) },
    ];
  });
  if (ends.length === 0) return null;
  return [
    ends.reduce((a, b) => (b.height < a.height ? b : a)),
    ends.reduce((a, b) => (b.height > a.height ? b : a)),
  ];
}

const nearestTo = (height: number, stops: readonly Stop[]): Bases[] =>
  [...stops]
    .sort((a, b) => Math.abs(a.height - height) - Math.abs(b.height - height))
    .map(({ base }): Bases => [base]);

/** The two of some stops, from top to bottom, that a height lies between. */
function around(height: number, stops: readonly Stop[]): Bases[] {
  const below = stops.findIndex((s) => s.height > height);
  return below > 0 ? [[stops[below - 1]!.base, stops[below]!.base]] : [];
}

/** One level, nearest first; a share between the two levels, or level and end of the piece, round about; the ends of the piece. */
function downBases(whole: WholePiece, p: Pt): Bases[] {
  const height = heightOf(whole, p);
  const levels = levelStops(whole);
  const ends = topAndBottom(whole);
  if (!ends) return nearestTo(height, levels);
  const inside = levels.filter((l) => l.height > ends[0].height && l.height < ends[1].height);
  const shares = levels.length > 0 ? around(height, [ends[0], ...inside, ends[1]]) : [];
  return [
    ...nearestTo(height, levels),
    ...shares,
    [ends[0].base, ends[1].base],
    ...ends.map(({ base }): Bases => [base]),
  ];
}

/** The edges met at a point's height, from left to right. */
function edgesBeside(whole: WholePiece, p: Pt): Base[] {
  return whole.edges
    .flatMap((_, edge) =>
      meetsOf(sewnEdge(whole, edge).path, p, grainFrame(whole).across).map(({ point }) => ({
        edge,
        over: placeAcross(whole, point),
      })),
    )
    .sort((a, b) => a.over - b.over)
    .filter(({ edge }, i, all) => all.findIndex((o) => o.edge === edge) === i)
    .map(({ edge }) => ({ kind: 'edge', ...edgeId(whole, edge) }));
}

/** The centre; between it and the edge on the point's side; from one edge to the other. */
function acrossBases(whole: WholePiece, p: Pt): Bases[] {
  const centre: Base = { kind: 'centre' };
  const hasCentre = centreOf(whole) !== null;
  const beside = edgesBeside(whole, p);
  const [left, right] = [beside[0], beside.at(-1)];
  const wide: Bases[] = left && right && left !== right ? [[left, right]] : [];
  const toEdge = hasCentre ? beside.map((edge): Bases => [centre, edge]) : [];
  return [...(hasCentre ? [[centre] as const] : []), ...wide, ...toEdge, ...beside.map((b): Bases => [b])];
}

function edgeBases(whole: WholePiece, edge: number, p: Pt): Bases[] {
  const [first, last] = [endOfEdge(whole, edge, 'first'), endOfEdge(whole, edge, 'last')];
  return [
    [first, last],
    [first],
    [last],
    ...nearestTo(heightOf(whole, p), levelStops(whole)),
    ...around(heightOf(whole, p), levelStops(whole)),
    ...(centreOf(whole) ? [[{ kind: 'centre' }] as const] : []),
  ];
}

/**
 * Everything a point can be measured from on an axis, most sensible first: levels for heights, the centre for places across,
 * a share of the whole for places along an edge.
 */
export function basesFor(whole: WholePiece, axis: Axis): readonly Bases[] {
  const p = axis.at;
  const all =
    axis.kind === 'down'
      ? downBases(whole, p)
      : axis.kind === 'over'
        ? acrossBases(whole, p)
        : edgeBases(whole, axis.edge, p);
  const keys = all.map(basesKey);
  return all.filter(
    (bases, i) => keys.indexOf(keys[i]!) === i && !isLost(measureReach(whole, axis, bases, p)),
  );
}
