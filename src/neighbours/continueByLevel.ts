import { type Pt, crossStraight, dot, endOf, nearestOnPath, scale, startOf, subtract } from '../geometry';
import { type PanelLine, type WholePiece, edgePath, grainFrame, heightOf } from '../pattern';
import { type Continuation, runInto, tieName } from './continuation';
import { type EdgeRole, roleOfName } from './edgeRole';
import type { LineEnd } from './lineMeeting';
import type { Neighbours } from './neighbour';

/** A line square to the grain, within this over its length, mm. */
const SQUARE = 1;

/** An end of an edge that is the underarm point: where it runs into an edge of another role. */
interface Underarm {
  readonly edge: number;
  readonly end: 'first' | 'last';
  readonly at: Pt;
}

/** The underarm points of a piece: where an edge of one role meets one of another, in ring order or against it. */
function underarms(whole: WholePiece, role: EdgeRole, into: EdgeRole): Underarm[] {
  const n = whole.edges.length;
  const isOf = (edge: number, r: EdgeRole): boolean =>
    roleOfName(whole.edges[(edge + n) % n]!.plainName) === r;
  return whole.edges.flatMap((_, edge): Underarm[] => {
    if (!isOf(edge, role)) return [];
    const path = edgePath(whole, edge);
    return [
      ...(isOf(edge - 1, into) ? [{ edge, end: 'first', at: startOf(path) } as const] : []),
      ...(isOf(edge + 1, into) ? [{ edge, end: 'last', at: endOf(path) } as const] : []),
    ];
  });
}

/** How far below the underarm point (negative: above) a line square to the grain lies on a bodice; null for any other line. */
function levelBelow(whole: WholePiece, line: PanelLine, ends: readonly LineEnd[]): number | null {
  const points = underarms(whole, 'side seam', 'armhole');
  const own = ends.find((e) => e.line === line.id && isOnSleeveSide(whole, e.at));
  if (points.length === 0 || !own) return null;
  const heights = line.path.flat().map((p) => heightOf(whole, p));
  if (Math.max(...heights) - Math.min(...heights) > SQUARE) return null;
  return heightOf(whole, own.at) - heightOf(whole, points[0]!.at);
}

/** Whether a line ends at the armhole or at the side seam, beside which the sleeve hangs. */
function isOnSleeveSide(whole: WholePiece, at: Pt): boolean {
  const near = nearestOnPath(whole.stitching, at);
  const role = roleOfName(whole.edges[whole.edgeOf[near.index]!]!.plainName);
  return role === 'armhole' || role === 'side seam';
}

/** Where a level meets an edge of a sleeve, going from its underarm point. */
function placeAtLevel(whole: WholePiece, height: number): { edge: number; at: Pt } | null {
  const { along, across } = grainFrame(whole);
  const met = crossStraight(whole.stitching, scale(along, height), across);
  const first = met[0];
  if (!first || met.length < 2) return null;
  const edge = whole.edgeOf[first.index]!;
  const role = roleOfName(whole.edges[edge]!.plainName);
  return role === 'sleeve cap' || role === 'underarm seam' ? { edge, at: first.point } : null;
}

function onSleeve(
  whole: WholePiece,
  line: PanelLine,
  below: number,
  isDrawn: (h: number) => boolean,
): Continuation | null {
  const underarm = underarms(whole, 'underarm seam', 'sleeve cap')[0];
  if (!underarm) return null;
  const height = heightOf(whole, underarm.at) + below;
  if (isDrawn(height)) return null;
  const start = placeAtLevel(whole, height);
  const laid = start && runInto(whole, start.edge, start.at, (until) => ({ kind: 'square', until }), true);
  if (!start || !laid) return null;
  return {
    key: `${line.id} level ${whole.piece.id}`,
    piece: whole.piece.id,
    over: 'the same level',
    by: 'level',
    at: start.at,
    path: laid.path,
    once: false,
    tie: {
      kind: 'edge',
      ...tieName(whole, start.edge),
      along: 'grain',
      reach: {
        kind: 'from',
        base: { kind: 'edge end', ...tieName(whole, underarm.edge), end: underarm.end },
        by: below,
      },
    },
    run: laid.run,
  };
}

/** Whether a line reaches the outline of a piece at a height already, within 1 mm. */
const isThere =
  (whole: WholePiece, ends: readonly LineEnd[]) =>
  (height: number): boolean =>
    ends.some(
      (e) =>
        e.piece === whole.piece.id &&
        Math.abs(dot(subtract(e.at, scale(grainFrame(whole).along, height)), grainFrame(whole).along)) <
          SQUARE,
    );

/**
 * A bodice line square to the grain that reaches the armhole or the side seam goes on at the same level on the sleeve: as far above or below
 * the underarm point there, with the arm hanging (common practice, no source). It is held at that distance from the sleeve's
 * own underarm point, not by the bodice's line.
 */
export function levelContinuations(
  { wholes }: Pick<Neighbours, 'wholes'>,
  line: PanelLine,
  ends: readonly LineEnd[],
): Continuation[] {
  const whole = wholes.get(line.piece);
  const below = whole ? levelBelow(whole, line, ends) : null;
  if (below === null) return [];
  return [...wholes.values()]
    .filter((w) => w !== whole && w.edges.some((e) => roleOfName(e.plainName) === 'sleeve cap'))
    .flatMap((w) => onSleeve(w, line, below, isThere(w, ends)) ?? []);
}
