import type { EdgeJobs } from '../../neighbours';
import {
  type Lining,
  type MovedRun,
  type Piece,
  type PieceId,
  type Problem,
  type WholePiece,
  movedRuns,
  problem,
} from '../../pattern';
import {
  type NamedCurve,
  closedUp,
  dartsKept,
  edgeNamesOf,
  namedStitching,
  notchesAlong,
  pathOf,
  stretch,
  tracedHalf,
} from './namedRing';
import { nearestOnPath } from '../../geometry';

/** Id of a piece's lining. */
export const liningId = (piece: PieceId): PieceId => `${piece} lining` as PieceId;

/** The outline with its hems moved up: side edges are cut where the new hems meet them. */
function withHems(ring: readonly NamedCurve[], runs: readonly MovedRun[], name: string | null): NamedCurve[] {
  if (runs.length === 0) return [...ring];
  const path = pathOf(ring);
  return runs.flatMap((run, i): NamedCurve[] => {
    const next = runs[(i + 1) % runs.length]!;
    const [from, to] = [nearestOnPath(path, run.to.point), nearestOnPath(path, next.from.point)];
    return [...run.path.map((curve) => ({ curve, name })), ...stretch(ring, from, to)];
  });
}

/** A piece's lining, and what did not fit. */
export interface LiningPiece {
  readonly of: PieceId;
  readonly piece: Piece;
  readonly problems: readonly Problem[];
}

/**
 * The lining of a piece: its stitching line before it was sliced, darts as traced, hems taken up by so many mm. Its outline is the
 * stitching line whatever the tracing was.
 * @param whole opened out with all darts where they were traced
 * @param opensAtFold a zip is there: the lining is cut as a pair with a seam instead
 */
export function liningPiece(
  whole: WholePiece,
  jobs: EdgeJobs,
  hemsOf: readonly number[],
  { shorter }: Pick<Lining, 'shorter'>,
  opensAtFold: boolean,
): LiningPiece {
  const { piece, name } = whole;
  const runs = shorter > 0 && hemsOf.length > 0 ? movedRuns(whole, hemsOf, shorter) : [];
  const hemNames = jobs.edges.get(piece.id)?.filter((w) => hemsOf.includes(w.edge)) ?? [];
  const ring = closedUp(withHems(namedStitching(whole), runs, hemNames[0]?.plainName ?? 'hem'));
  const half = whole.foldLine ? tracedHalf(whole, ring, whole.foldLine, opensAtFold) : null;
  const outline = half?.ring ?? ring;
  const lining: Piece = {
    ...piece,
    id: liningId(piece.id),
    name: `${name} lining`,
    outline: pathOf(outline),
    fold: half && !opensAtFold ? half.fold : null,
    cutting: half && opensAtFold ? 'pair' : piece.cutting,
    grain: whole.grain,
    darts: half || !whole.foldLine ? dartsKept(whole) : [],
    notches: notchesAlong(whole, pathOf(outline), half !== null),
    edgeNames: edgeNamesOf(outline),
  };
  const isMissing = shorter > 0 && hemsOf.length > 0 && runs.length === 0;
  return {
    of: piece.id,
    piece: lining,
    problems: isMissing ? [problem('lining-hem-too-high', { piece: name, shorter }, name)] : [],
  };
}
