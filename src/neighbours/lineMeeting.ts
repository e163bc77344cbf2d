import { type Pt, nearestOnPath } from '../geometry';
import { type LineId, type PieceId, type WholePiece, remember, sewnEdge, sewnLengthAt } from '../pattern';
import { type EdgeRef, type SeamJoin, sameEdge } from './seamJoin';
import { type SeamWalk, type Wholes, acrossToA, acrossToB, lengthFromAgreed, pointOnSide } from './seamWalk';

/** An end of a panel line where it lies on the outline of a whole piece. */
export interface LineEnd {
  readonly line: LineId;
  /** `L3`, `L3 mirrored`. */
  readonly label: string;
  /** Which end of the drawn line, and whether it is that end's mirror image. */
  readonly end: 'start' | 'end';
  readonly mirrored: boolean;
  readonly piece: PieceId;
  /** On the stitching outline, mm. */
  readonly at: Pt;
}

/** Two line ends that meet, or nearly, over a seam. */
export interface LineMeeting {
  readonly a: LineEnd;
  readonly b: LineEnd;
  /** How far apart they lie along b's stitching line once the seam is closed, mm, without sign. */
  readonly mm: number;
}

/** The line ends of one seam. */
export interface SeamMeetings {
  /** From the agreed end on. */
  readonly meetings: readonly LineMeeting[];
  /** Ends without a continuation within reach, and where it would have to be. */
  readonly alone: readonly { readonly end: LineEnd; readonly arrives: EdgeRef & { readonly at: Pt } }[];
}

/** Line ends farther apart than this over a seam have nothing to do with each other, mm. Our choice. */
const MEETING_REACH = 60;

/** A line end this near an edge lies on it, mm: line ends are worked out on the stitching outline. */
const ON_EDGE = 0.05;

/** A line end on a seam's side, at its length from the agreed end as measured on b. */
interface Placed {
  readonly end: LineEnd;
  readonly s: number;
}

/** Sewn lengths at which a line end lies on the edges of its piece: on one, at a corner on two. Kept while other lines move. */
const placesOf = remember((end: LineEnd, whole: WholePiece): ReadonlyMap<number, number> => {
  const { index } = nearestOnPath(whole.stitching, end.at);
  const [edge, count] = [whole.edgeOf[index]!, whole.edges.length];
  const near = [...new Set([edge, (edge + 1) % count, (edge + count - 1) % count])];
  return new Map(
    near.flatMap((e): (readonly [number, number])[] => {
      const sewn = sewnEdge(whole, e);
      const on = nearestOnPath(sewn.path, end.at);
      return on.distance > ON_EDGE ? [] : [[e, sewnLengthAt(sewn, on)]];
    }),
  );
});

function placedOn(wholes: Wholes, walk: SeamWalk, which: 'a' | 'b', ends: readonly LineEnd[]): Placed[] {
  const { piece, edge } = walk.join[which];
  return ends.flatMap((end): Placed[] => {
    const own = end.piece === piece ? placesOf(end, wholes.get(piece)!).get(edge) : undefined;
    const s = own === undefined ? null : lengthFromAgreed(walk.join, which, own);
    if (s === null) return [];
    return [{ end, s: which === 'a' ? acrossToB(walk, s) : s }];
  });
}

/** The nearest two first, each end once. */
function nearestPairs(a: readonly Placed[], b: readonly Placed[]): { a: Placed; b: Placed; mm: number }[] {
  const all = a
    .flatMap((p) => b.map((q) => ({ a: p, b: q, mm: Math.abs(p.s - q.s) })))
    .filter(({ mm }) => mm <= MEETING_REACH)
    .sort((x, y) => x.mm - y.mm);
  const taken = new Set<Placed>();
  return all.filter((pair) => {
    if (taken.has(pair.a) || taken.has(pair.b)) return false;
    taken.add(pair.a).add(pair.b);
    return true;
  });
}

/**
 * Which line ends come together over a seam, and by how much they miss each other. The two sides of a pair's centre seam are one edge
 * and cannot differ.
 * @param ends of any pieces; those not on the seam are passed over
 */
export function meetLines(wholes: Wholes, walk: SeamWalk, ends: readonly LineEnd[]): SeamMeetings {
  const { join } = walk;
  if (sameEdge(join.a, join.b)) return { meetings: [], alone: [] };
  const [a, b] = [placedOn(wholes, walk, 'a', ends), placedOn(wholes, walk, 'b', ends)];
  const pairs = nearestPairs(a, b);
  const isPaired = (p: Placed): boolean => pairs.some((pair) => pair.a === p || pair.b === p);
  const arrivesOn = (which: 'a' | 'b', { end, s }: Placed): SeamMeetings['alone'][number] => ({
    end,
    arrives: arrival(wholes, walk, join, which, s),
  });
  return {
    meetings: pairs.toSorted((p, q) => p.a.s - q.a.s).map((p) => ({ a: p.a.end, b: p.b.end, mm: p.mm })),
    alone: [
      ...a.filter((p) => !isPaired(p)).map((p) => arrivesOn('b', p)),
      ...b.filter((p) => !isPaired(p)).map((p) => arrivesOn('a', p)),
    ],
  };
}

/** The place on one side of a seam at a length measured on b. */
function arrival(
  wholes: Wholes,
  walk: SeamWalk,
  join: SeamJoin,
  which: 'a' | 'b',
  onB: number,
): EdgeRef & { readonly at: Pt } {
  const s = which === 'b' ? onB : acrossToA(walk, onB);
  const { piece, edge } = join[which];
  return { piece, edge, at: pointOnSide(wholes, join, which, s) };
}
