import { type Pt, endOf, startOf } from '../geometry';
import { type Base, type WholePiece, sewnEdge } from '../pattern';
import { type Axis, centreOf } from './axis';
import { edgeId, meetsOf } from './edgeOnPiece';
import { grainFrame, heightOf, placeAcross } from './grainFrame';
import { levelsDown } from './levelOf';
import { isLost } from './lost';
import { type Bases, measureReach } from './reach';

const endOfEdge = (whole: WholePiece, edge: number, end: 'first' | 'last'): Base => ({
  kind: 'edge end',
  ...edgeId(whole, edge),
  end,
});

/** One level, nearest first; then the two that a point lies between, or the two it lies nearest to. */
function levelBases(whole: WholePiece, p: Pt): Bases[] {
  const height = heightOf(whole, p);
  const down = levelsDown(whole);
  const base = (i: number): Base => ({ kind: 'level', name: down[i]!.level.name });
  const single = down
    .map((l, i) => ({ i, away: Math.abs(l.height - height) }))
    .sort((a, b) => a.away - b.away)
    .map(({ i }): Bases => [base(i)]);
  if (down.length < 2) return single;
  const below = down.findIndex((l) => l.height > height);
  const lower = below < 0 ? down.length - 1 : Math.max(1, below);
  return [...single, [base(lower - 1), base(lower)]];
}

/** The ends of edges, farthest up and farthest down: what a height lies between on a piece without levels. */
function topAndBottom(whole: WholePiece): Bases[] {
  const ends = whole.edges.flatMap((_, edge) => {
    const { path } = sewnEdge(whole, edge);
    if (path.length === 0) return [];
    return [
      { base: endOfEdge(whole, edge, 'first'), height: heightOf(whole, startOf(path)) },
      { base: endOfEdge(whole, edge, 'last'), height: heightOf(whole, endOf(path)) },
    ];
  });
  if (ends.length === 0) return [];
  const top = ends.reduce((a, b) => (b.height < a.height ? b : a));
  const bottom = ends.reduce((a, b) => (b.height > a.height ? b : a));
  return [[top.base, bottom.base], [top.base], [bottom.base]];
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
    ...levelBases(whole, p),
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
      ? [...levelBases(whole, p), ...topAndBottom(whole)]
      : axis.kind === 'over'
        ? acrossBases(whole, p)
        : edgeBases(whole, axis.edge, p);
  return all.filter((bases) => !isLost(measureReach(whole, axis, bases, p)));
}

/** One key per way of measuring, so that two can be told apart. */
export const basesKey = (bases: Bases): string => JSON.stringify(bases);
