import {
  type Path,
  type Pt,
  add,
  directionAt,
  distance,
  dot,
  endOf,
  pathLength,
  scale,
  startOf,
} from '../geometry';
import { type PanelLine, type Run, type WholePiece, grainFrame } from '../pattern';
import { levelContinuations } from './continueByLevel';
import { type Continuation, SHORTEST, runInto, seamFrame, tieName } from './continuation';
import { type EdgeRole, roleOfName } from './edgeRole';
import type { LineEnd } from './lineMeeting';
import type { Neighbour, Neighbours } from './neighbour';
import { type EdgeRef, type SeamSide, sameEdge } from './seamJoin';

/** Within this of a straight direction of the grain a line is meant to have it, degrees. */
const MEANT = 0.5;
/** Degrees of a direction from across the grain towards down, 0 up to 180. */
function degreesTo(whole: WholePiece, d: Pt): number {
  const { along, across } = grainFrame(whole);
  return ((((Math.atan2(dot(d, along), dot(d, across)) * 180) / Math.PI) % 180) + 180) % 180;
}

const isSquare = (degrees: number): boolean => degrees < MEANT || degrees > 180 - MEANT;
const isWith = (degrees: number): boolean => Math.abs(degrees - 90) < MEANT;

/** Direction in which a line leaves its piece at one of its ends. */
function outgoing(line: PanelLine, { end }: Pick<LineEnd, 'end'>): Pt {
  if (end === 'end') return directionAt(line.path.at(-1)!, 1);
  return scale(directionAt(line.path[0]!, 0), -1);
}

/** The direction in which a line goes straight on over the closed seam. */
function straightOn(
  neighbours: Neighbours,
  seam: Neighbour,
  end: LineEnd,
  to: EdgeRef & { at: Pt },
  d: Pt,
): Pt {
  const { join } = seam;
  const fromA = sameEdge(join.b, to);
  const [own, other] = fromA ? [join.a, join.b] : [join.b, join.a];
  const [lastOwn, lastOther] = fromA
    ? [join.beginsLast, join.beginsLast !== join.reversed]
    : [join.beginsLast !== join.reversed, join.beginsLast];
  const here = seamFrame(neighbours.wholes.get(own.piece)!, own.edge, lastOwn, end.at);
  const there = seamFrame(neighbours.wholes.get(other.piece)!, other.edge, lastOther, to.at);
  return add(scale(there.along, dot(d, here.along)), scale(there.inward, -dot(d, here.inward)));
}

/** What the continuation keeps of its line's direction. */
function runOn(from: WholePiece, to: WholePiece, d: Pt, straight: Pt, until: Run['until']): Run {
  const degrees = degreesTo(from, d);
  if (isSquare(degrees)) return { kind: 'square', until };
  if (isWith(degrees)) return { kind: 'with', until };
  return { kind: 'angle', degrees: degreesTo(to, straight), until };
}

/** Whether a line is on one side of the body only: then its continuation is too. */
const isOneSided = (line: PanelLine, whole: WholePiece): boolean => whole.unfolded && line.once;

const WORDS: Partial<Record<EdgeRole, string>> = {
  'underarm seam': 'underarm seam',
  'sleeve cap': 'armhole',
};

const overWords = (whole: WholePiece, edge: number): string => {
  const { plainName } = whole.edges[edge]!;
  const role = roleOfName(plainName);
  return (role && WORDS[role]) ?? plainName;
};

function overSeam(
  neighbours: Neighbours,
  line: PanelLine,
  seam: Neighbour,
  { end, arrives }: Neighbour['alone'][number],
): Continuation | null {
  const from = neighbours.wholes.get(end.piece)!;
  const to = neighbours.wholes.get(arrives.piece)!;
  const once = isOneSided(line, from) && to.unfolded;
  // On a mirrored piece it is drawn on the traced half: from the end that arrives there.
  if (!once && to.unfolded && to.edges[arrives.edge]!.mirrored) return null;
  const d = outgoingAt(line, end, from);
  const straight = straightOn(neighbours, seam, end, arrives, d);
  const laid = runInto(to, arrives.edge, arrives.at, (until) => runOn(from, to, d, straight, until), once);
  if (!laid || pathLength(laid.path) < SHORTEST) return null;
  return {
    key: `${line.id} ${end.end} ${end.mirrored} ${arrives.piece} ${arrives.edge}`,
    piece: arrives.piece,
    over: overWords(from, sideOf(seam, arrives).edge),
    by: 'seam',
    at: arrives.at,
    path: laid.path,
    once,
    tie: {
      kind: 'neighbour',
      ...tieName(to, arrives.edge),
      line: line.id,
      end: end.end,
      mirrored: end.mirrored,
    },
    run: laid.run,
  };
}

/** The side of a seam that a line comes from. */
const sideOf = ({ join }: Neighbour, arrives: EdgeRef): SeamSide =>
  sameEdge(join.b, arrives) ? join.a : join.b;

/** A mirrored end leaves in the mirrored direction. */
function outgoingAt(line: PanelLine, end: LineEnd, whole: WholePiece): Pt {
  const d = outgoing(line, end);
  if (!end.mirrored || !whole.foldLine) return d;
  const [a, b] = whole.foldLine;
  const axis = scale([b[0] - a[0], b[1] - a[1]], 1 / distance(a, b));
  return add(scale(axis, 2 * dot(d, axis)), scale(d, -1));
}

/**
 * How a line can go on beyond the seams it reaches without meeting another: over a side seam, shoulder or underarm, and from a
 * bodice to the sleeve at the same level of the body. One per piece and place; a pair's two copies count once.
 * @param ends the line ends of the garment
 */
export function continuations(
  neighbours: Neighbours,
  line: PanelLine,
  ends: readonly LineEnd[],
): readonly Continuation[] {
  if (line.path.length === 0) return [];
  const found = neighbours.seams.flatMap((seam) =>
    seam.alone
      .filter((a) => a.end.line === line.id)
      .flatMap((a) => overSeam(neighbours, line, seam, a) ?? []),
  );
  const first = found.filter(
    (c, i) =>
      !found
        .slice(0, i)
        .some((o) => o.piece === c.piece && (distance(o.at, c.at) < SHORTEST || isOtherWay(o.path, c.path))),
  );
  return [...first, ...levelContinuations(neighbours, line, ends)];
}

/** The same line from its other end: a line that runs from one joined edge to the other is offered once. */
const isOtherWay = (a: Path, b: Path): boolean =>
  distance(startOf(a), endOf(b)) < SHORTEST && distance(endOf(a), startOf(b)) < SHORTEST;
