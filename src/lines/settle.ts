import {
  type Curve,
  type Path,
  type Pt,
  UNMOVED,
  add,
  endOf,
  endOfCurve,
  startOf,
  subtract,
} from '../geometry';
import {
  type Design,
  type LineId,
  type PanelLine,
  type PieceId,
  type Problem,
  type WholePiece,
  openedPiece,
  problem,
  remember,
} from '../pattern';
import { type SeamJoin, edgeJobs } from '../neighbours';
import { inTieOrder, refersTo } from './dependence';
import { followNodes } from './followNodes';
import { type Lost, gone, isLost, sayEdge } from './lost';
import { neighbourPoint } from './neighbourTie';
import { runEnd, straightFrom } from './runLine';
import { type TieGround, tiePoint } from './tiePoint';

/** A point without the dust of reckoning: a billionth of a millimetre is kept. */
const withoutDust = ([x, y]: Pt): Pt => [Math.round(x * 1e9) / 1e9 + 0, Math.round(y * 1e9) / 1e9 + 0];

/** The points where a path's curves meet, its ends included. */
export const nodesOf = (path: Path): readonly Pt[] => [
  ...path.map((c) => c[0]),
  ...path.slice(-1).map(endOfCurve),
];

const near = (a: Pt, b: Pt): boolean => Math.abs(a[0] - b[0]) <= UNMOVED && Math.abs(a[1] - b[1]) <= UNMOVED;

const isUnmoved = (a: Path, b: Path): boolean =>
  a.length === b.length &&
  a.every((curve, i) => curve.length === b[i]!.length && curve.every((p, k) => near(p, b[i]![k]!)));

/** The path that a line's ties give; lost when one of them gives no place. */
function tiedPath(ground: TieGround, line: PanelLine): Path | Lost {
  const { path, ties } = line;
  if (!ties || path.length === 0 || ties.nodes.length !== path.length + 1) return path;
  const nodes = nodesOf(path);
  const held: (Pt | null)[] = [];
  for (const [i, tie] of ties.nodes.entries()) {
    const at = tie ? tiePoint(ground, tie, nodes[i]!) : null;
    if (isLost(at)) return at;
    held.push(at);
  }
  const moved = followNodes(path, held);
  if (!ties.run) return moved;
  const tied = held[0] ? 'start' : 'end';
  const [from, was] = tied === 'start' ? [startOf(path), endOf(path)] : [endOf(path), startOf(path)];
  const start = held[0] ?? held[held.length - 1]!;
  const end = runEnd(ground, ties.run, start, add(was, subtract(start, from)));
  return isLost(end) ? end : straightFrom(tied, start, end);
}

export interface Settled {
  readonly design: Design;
  readonly problems: readonly Problem[];
}

const lostProblem = (
  line: PanelLine,
  { lost, why }: Lost | { lost: string; why: 'ring' },
  piece: string,
): Problem =>
  problem(
    'tie-lost',
    { line: line.id, what: lost, why },
    piece,
    line.path.length > 0 ? startOf(line.path) : null,
  );

/** A line with its path in step; the very line when its path stays. */
function settledLine(line: PanelLine, ground: TieGround): PanelLine | Lost {
  const found = tiedPath(ground, line);
  if (isLost(found)) return found;
  const path = found.map((curve) => curve.map(withoutDust) as unknown as Curve);
  return isUnmoved(path, line.path) ? line : { ...line, path };
}

/** A line that hangs on its own piece only, settled once as long as it, the piece and the lines it refers to stay. */
const settledAlone = remember(
  (line: PanelLine, whole: WholePiece, paths: readonly (Path | null)[]): PanelLine | Lost => {
    const ids = line.ties ? refersTo(line.ties) : [];
    return settledLine(line, {
      whole,
      pathOf: (id) => paths[ids.indexOf(id)] ?? null,
      arrival: (tie) => gone(sayEdge(tie.name)),
    });
  },
);

function settledNow(line: PanelLine, ground: TieGround): PanelLine | Lost {
  if (!line.ties || line.ties.nodes.some((tie) => tie?.kind === 'neighbour'))
    return settledLine(line, ground);
  return settledAlone(line, ground.whole, refersTo(line.ties).map(ground.pathOf));
}

/**
 * What the ties of a design's pieces are worked out from.
 * @param now the lines as they lie; looked up when asked for, so that lines settled meanwhile count
 * @returns the ground of a piece; null when the design has no such piece
 */
function groundsOf(
  design: Design,
  now: ReadonlyMap<LineId, PanelLine>,
): (piece: PieceId) => TieGround | null {
  const wholes = new Map(design.pieces.map((p) => [p.id, openedPiece(p, design).whole]));
  const joins = (): readonly SeamJoin[] => edgeJobs([...wholes.values()], design.edgeJobs).joins;
  const lineOf = (id: LineId): PanelLine | null => now.get(id) ?? null;
  return (piece) => {
    const whole = wholes.get(piece);
    if (!whole) return null;
    return {
      whole,
      pathOf: (id) => {
        const line = lineOf(id);
        return line?.piece === piece ? line.path : null;
      },
      arrival: (tie, hint) => neighbourPoint({ whole, wholes, joins, lineOf }, tie, hint),
    };
  };
}

/**
 * Work out the path of every tied line anew from its piece, levels, and the lines it is tied to, each after those it hangs on.
 * Lines that are not tied, or whose path stays, are the very same objects; so is the design when no line changes. A line
 * whose tie gives no place, or that hangs on itself in a circle, stays where it is and is told as a problem.
 */
export const settle = remember((design: Design): Settled => {
  if (design.lines.every((line) => line.ties === null)) return { design, problems: [] };
  const now = new Map<LineId, PanelLine>(design.lines.map((l) => [l.id, l]));
  const groundOf = groundsOf(design, now);
  const { order, rings } = inTieOrder(design.lines);
  const faults = new Map<LineId, Problem>();
  for (const line of order) {
    const ground = groundOf(line.piece);
    if (!ground) continue;
    const found = rings.has(line.id) ? ({ lost: 'itself', why: 'ring' } as const) : settledNow(line, ground);
    if ('lost' in found) faults.set(line.id, lostProblem(line, found, ground.whole.name));
    else now.set(line.id, found);
  }
  const lines = design.lines.map((l) => now.get(l.id)!);
  const changed = lines.some((l, i) => l !== design.lines[i]);
  const problems = design.lines.flatMap((l) => faults.get(l.id) ?? []);
  return { design: changed ? { ...design, lines } : design, problems };
});

/** The ground a piece's ties stand on in a design as it is: for measuring. Null when the design has no such piece. */
export const tieGround = (design: Design, piece: PieceId): TieGround | null =>
  groundsOf(design, new Map(design.lines.map((l) => [l.id, l])))(piece);

/** The design with every tied line in step (see settle). */
export const settleLines = (design: Design): Design => settle(design).design;

/** Lines whose ties give no place; they lie where they last were. */
export const tieProblems = (design: Design): readonly Problem[] => settle(design).problems;
