import {
  type Line,
  type Path,
  type Pt,
  distance,
  endOf,
  pathLength,
  pointAtLength,
  refAtLength,
  reversePath,
  scale,
  add,
  startOf,
  subPath,
  subtract,
  unit,
} from '../../geometry';
import { type EdgeJobs, acrossToA, acrossToB, lengthOnSide, pointOnSide, walkSeam } from '../../neighbours';
import { type MovedRun, type PieceId, type WholePiece, movedRuns, withPathEnds } from '../../pattern';
import { meetsOf } from '../edgeOnPiece';
import { type EdgeEnd, endsOverSeams, isHem, touching } from './hemsRound';

type Wholes = ReadonlyMap<PieceId, WholePiece>;

/** Where a band's line ends: on a closing edge, from that edge's end at the hem; or on the centre of a half piece. */
export type BandEnd =
  | { readonly kind: 'edge'; readonly at: Pt; readonly closing: EdgeEnd }
  | { readonly kind: 'centre'; readonly at: Pt };

/** The line of a band on one piece, on the traced half of a half piece, and what its ends lie on. */
export interface BandPath {
  readonly piece: PieceId;
  /** The hem edges it runs along, indices into WholePiece.edges. */
  readonly hems: readonly number[];
  readonly path: Path;
  readonly ends: readonly [BandEnd, BandEnd];
}

/** Of its length, the most of a band's line that is led over to the place where it has to end, and how gently, lengths per mm led. */
const MOST_LED = 1 / 3;
const LED_GENTLY = 12;
const LEAST_LED = 30;

/** The hem edges of a piece that belong to one run with this one. */
function hemsBeside(wholes: Wholes, jobs: EdgeJobs, piece: PieceId, edge: number): number[] {
  const found = [edge];
  for (const e of found)
    for (const end of ['first', 'last'] as const) {
      const next = touching(wholes, { piece, edge: e, end });
      if (isHem(jobs, next) && !found.includes(next.edge)) found.push(next.edge);
    }
  return found;
}

/** The run at a depth from a hem edge and those that go on from it; null where it does not reach from one closing edge to the other. */
function runAt(wholes: Wholes, jobs: EdgeJobs, piece: PieceId, edge: number, depth: number): MovedRun | null {
  const whole = wholes.get(piece)!;
  const hems = hemsBeside(wholes, jobs, piece, edge);
  const run = movedRuns(whole, hems, depth).find((r) => r.edges.includes(edge));
  if (!run) return null;
  const [before, after] = (['first', 'last'] as const).map((end) => closingOf(wholes, jobs, run, piece, end));
  return run.from.edge === before!.edge && run.to.edge === after!.edge ? run : null;
}

/** The closing edge at the first or last end of a run, and its end at the hem. */
function closingOf(
  wholes: Wholes,
  jobs: EdgeJobs,
  { edges }: MovedRun,
  piece: PieceId,
  end: 'first' | 'last',
): EdgeEnd {
  let at: EdgeEnd = { piece, edge: end === 'first' ? edges[0]! : edges.at(-1)!, end };
  for (let k = wholes.get(piece)!.edges.length; k > 0; k -= 1) {
    const next = touching(wholes, at);
    if (!isHem(jobs, next)) return next;
    at = { piece, edge: next.edge, end };
  }
  return at;
}

/** Where the parallel of the hem meets a closing edge. */
function naturalEnd(wholes: Wholes, jobs: EdgeJobs, closing: EdgeEnd, depth: number): Pt | null {
  const hem = touching(wholes, closing);
  if (!isHem(jobs, hem)) return null;
  const run = runAt(wholes, jobs, closing.piece, hem.edge, depth);
  return run && (closing.end === 'last' ? startOf(run.path) : endOf(run.path));
}

/**
 * Where the band ends on a closing edge: midway between where the hem's parallels on both sides of the seam arrive, so that both ends
 * meet once it is sewn, ease spread.
 */
function agreedEnd(wholes: Wholes, jobs: EdgeJobs, closing: EdgeEnd, own: Pt, depth: number): Pt {
  for (const { join, which, far } of endsOverSeams(wholes, jobs.joins, closing)) {
    if (far.piece === closing.piece && far.edge === closing.edge) continue;
    const other = naturalEnd(wholes, jobs, far, depth);
    const s = lengthOnSide(wholes, join, which, own);
    const t = other && lengthOnSide(wholes, join, which === 'a' ? 'b' : 'a', other);
    if (s === null || t === null) continue;
    const walk = walkSeam(wholes, join);
    const onA = which === 'a' ? (s + acrossToA(walk, t)) / 2 : (acrossToA(walk, s) + t) / 2;
    return pointOnSide(wholes, join, which, which === 'a' ? onA : acrossToB(walk, onA));
  }
  return own;
}

/** A path that begins at another point near its start, led over to it in one gentle curve; what lies beyond stays. */
function ledFrom(path: Path, at: Pt): Path {
  const off = distance(startOf(path), at);
  if (off < 1e-3) return withPathEnds(path, at, endOf(path));
  const length = pathLength(path);
  const reach = Math.min(length * MOST_LED, Math.max(LEAST_LED, off * LED_GENTLY));
  const kept = subPath(path, refAtLength(path, reach), { index: path.length - 1, t: 1 });
  const [{ direction: first }, { point, direction }] = [pointAtLength(path, 0), pointAtLength(path, reach)];
  const third = distance(at, point) / 3;
  return [[at, add(at, scale(first, third)), subtract(point, scale(direction, third)), point], ...kept];
}

const ledTo = (path: Path, at: Pt): Path => reversePath(ledFrom(reversePath(path), at));

/** The part of a run on the traced half, from its closing edge to the fold; null where it does not reach the fold. */
function toFold(path: Path, keepsStart: boolean, [a, b]: Line): { path: Path; at: Pt } | null {
  const met = meetsOf(path, a, unit(subtract(b, a)))[0];
  if (met) {
    const end = { index: path.length - 1, t: 1 };
    const kept = keepsStart ? subPath(path, { index: 0, t: 0 }, met) : subPath(path, met, end);
    return kept.length > 0 ? { path: kept, at: met.point } : null;
  }
  return null;
}

/**
 * The line of a band at a depth from a hem edge, mm: parallel to the hem's stitching line, its ends led onto the places where they meet
 * the next piece's, at the closing seams.
 * @param edge a hem edge; with it go the hem edges beside it. On a half piece: any of them
 * @returns null where the band is deeper than the piece, or not held between two closing edges
 */
export function bandPath(
  wholes: Wholes,
  jobs: EdgeJobs,
  piece: PieceId,
  edge: number,
  depth: number,
): BandPath | null {
  const whole = wholes.get(piece)!;
  const run = runAt(wholes, jobs, piece, edge, depth);
  if (!run) return null;
  const [before, after] = (['first', 'last'] as const).map((end) =>
    closingOf(wholes, jobs, run, piece, end),
  ) as [EdgeEnd, EdgeEnd];
  const onEdge = (closing: EdgeEnd, own: Pt): BandEnd => ({
    kind: 'edge',
    closing,
    at: agreedEnd(wholes, jobs, closing, own, depth),
  });
  const isImage = ({ edge: e }: EdgeEnd): boolean => whole.edges[e]!.mirrored;
  const base = { piece, hems: run.edges };
  if (!whole.foldLine || isImage(before) === isImage(after)) {
    const ends = [onEdge(before, startOf(run.path)), onEdge(after, endOf(run.path))] as const;
    return { ...base, ends, path: ledTo(ledFrom(run.path, ends[0].at), ends[1].at) };
  }
  const keepsStart = isImage(after);
  const half = toFold(run.path, keepsStart, whole.foldLine);
  if (!half) return null;
  const centre: BandEnd = { kind: 'centre', at: half.at };
  if (keepsStart) {
    const end = onEdge(before, startOf(run.path));
    return { ...base, ends: [end, centre], path: ledFrom(half.path, end.at) };
  }
  const end = onEdge(after, endOf(run.path));
  return { ...base, ends: [centre, end], path: ledTo(half.path, end.at) };
}
