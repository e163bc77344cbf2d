import {
  type Path,
  type Pt,
  add,
  crossStraight,
  directionAt,
  dot,
  nearestOnPath,
  perpendicular,
  scale,
} from '../geometry';
import {
  type LineId,
  type PanelLine,
  type PieceId,
  type Run,
  type Tie,
  type WholePiece,
  sewnEdge,
  grainFrame,
} from '../pattern';

/** A line that would go on from where another arrives on a joined edge, held there from then on. */
export interface Continuation {
  /** Its own name: the same as long as the line and the seam are. */
  readonly key: string;
  readonly piece: PieceId;
  /** What it crosses, in words: `side seam`. */
  readonly over: string;
  /** Whether it meets its line at the seam, or lies at the same level of the body. */
  readonly by: 'seam' | 'level';
  readonly at: Pt;
  readonly path: Path;
  readonly once: boolean;
  readonly tie: Tie;
  readonly run: Run;
}

/** A line runs at least this far from where it begins, mm. */
export const SHORTEST = 1;

/** The line that a continuation stands for. */
export const continuedLine = ({ piece, path, once, tie, run }: Continuation, id: LineId): PanelLine => ({
  id,
  piece,
  path,
  once,
  overDarts: 'sewn',
  ties: { nodes: [tie, null], run },
});

/** The plain name of an edge and which of that name it is on the whole piece: how ties name it. */
export function tieName(whole: WholePiece, edge: number): { name: string; nth: number } {
  const name = whole.edges[edge]!.plainName;
  return { name, nth: whole.edges.slice(0, edge).filter((e) => e.plainName === name).length };
}

/** Along a seam's side from its agreed end, and into its piece, at a point of it. */
export function seamFrame(
  whole: WholePiece,
  edge: number,
  beginsLast: boolean,
  p: Pt,
): { along: Pt; inward: Pt } {
  const { path } = sewnEdge(whole, edge);
  const near = nearestOnPath(path, p);
  const forward = directionAt(path[near.index]!, near.t);
  return { along: scale(forward, beginsLast ? -1 : 1), inward: perpendicular(forward) };
}

function directionOf(whole: WholePiece, run: Run): Pt {
  const { along, across } = grainFrame(whole);
  if (run.kind === 'square') return across;
  if (run.kind === 'with') return along;
  const turn = (run.degrees * Math.PI) / 180;
  return add(scale(across, Math.cos(turn)), scale(along, Math.sin(turn)));
}

/** The first place where a straight line from the outline meets a path again, going into the piece; null where it does not. */
function firstMet(path: Path, at: Pt, direction: Pt): { point: Pt; along: number } | null {
  return crossStraight(path, at, direction).find((c) => c.along > SHORTEST) ?? null;
}

/** A straight line from a place of the outline into the piece: to the fold of a mirrored one, else to the edge beyond. */
export function runInto(
  whole: WholePiece,
  edge: number,
  at: Pt,
  runTo: (until: Run['until']) => Run,
  once: boolean,
): { path: Path; run: Run } | null {
  const { inward } = seamFrame(whole, edge, false, at);
  const kept = directionOf(whole, runTo({ kind: 'outline' }));
  const direction = scale(kept, dot(kept, inward) >= 0 ? 1 : -1);
  const beyond = firstMet(whole.stitching, at, direction);
  if (!beyond) return null;
  const fold = whole.foldLine && !once ? firstMet([whole.foldLine], at, direction) : null;
  const isToFold = fold !== null && fold.along < beyond.along;
  const target = isToFold ? fold.point : beyond.point;
  return { path: [[at, target]], run: runTo({ kind: isToFold ? 'centre' : 'outline' }) };
}
