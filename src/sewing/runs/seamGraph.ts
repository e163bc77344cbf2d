import {
  DIRECTION_OVER,
  type Path,
  type Pt,
  distance,
  endOf,
  pathLength,
  pointAtLength,
  reverseCurve,
  reversePath,
  startOfCurve,
  subtract,
  unit,
} from '../../geometry';
import type { LaidLine, PanelledPiece, Stretch } from '../../panels';
import type { OrderWish } from '../../pattern';
import { type ThroughPair, pairsAt } from './throughPairs';
import { type LineWish, lineWishes } from './lineWish';

/** One end of a stretch: twice the stretch's number at its start, one more at its end. */
export type End = number;
export const otherEnd = (e: End): End => e ^ 1;
export const stretchOfEnd = (e: End): number => e >> 1;

/** A stretch and the laid line it is of. Numbered in drawing order and along each line. */
export interface LinedStretch {
  readonly stretch: Stretch;
  readonly line: LaidLine;
  /** Connected stretch of the line it belongs to. */
  readonly run: number;
  /** Number of the stretch its line goes on with, also round a closed line; -1 for none. */
  readonly next: number;
}

/** A stretch whose strand is known: all that is sewn as one in any case, because it is one line or meets end to end with nothing else there. */
export interface StrandedStretch extends LinedStretch {
  readonly strand: number;
}

/** A point inside the piece where stretches meet. */
export interface Junction {
  readonly node: number;
  readonly at: Pt;
  readonly ends: readonly End[];
  /** Directions in which the ends leave the junction, unit vectors. */
  readonly leaving: readonly Pt[];
  /** Which two ends may be sewn in one go, the best first; all others end there. None at a lone end. */
  readonly pairs: readonly ThroughPair[];
}

/** The panel lines of a piece as stretches between junctions. */
export interface SeamGraph {
  readonly stretches: readonly StrandedStretch[];
  readonly junctions: readonly Junction[];
  /** Index of the junction at an end; -1 on the outline. */
  readonly junctionOf: Int32Array;
  /** Number of the connected part of the drawing each stretch is in. */
  readonly partOf: Int32Array;
  /** Parts that do not reach the outline: in each, one seam at least goes round. */
  readonly floating: readonly boolean[];
}

function linedStretches({ runs }: Pick<PanelledPiece, 'runs'>): LinedStretch[] {
  let first = 0;
  return runs.flatMap(({ line, stretches }, run) => {
    const base = first;
    first += stretches.length;
    const isRing = stretches.length > 0 && stretches[0]!.from === stretches.at(-1)!.to;
    return stretches.map((stretch, i): LinedStretch => {
      const isLast = i + 1 === stretches.length;
      return { stretch, line, run, next: isLast ? (isRing ? base : -1) : base + i + 1 };
    });
  });
}

/** Direction in which a path leaves its start or its end, taken a little way along it. */
function leavingOf(path: Path, atStart: boolean): Pt {
  const first = atStart ? path[0]! : reverseCurve(path.at(-1)!);
  if (first.length === 2 && distance(first[0], first[1]) >= DIRECTION_OVER)
    return unit(subtract(first[1], first[0]));
  const from = startOfCurve(first);
  const away = atStart ? path : reversePath(path);
  const isShort = pathLength(path) <= DIRECTION_OVER;
  const to = isShort ? endOf(away) : pointAtLength(away, DIRECTION_OVER).point;
  return distance(from, to) > 0 ? unit(subtract(to, from)) : [0, 0];
}

/** Numbers that fall together by and by. */
function gathered(): { find: (n: number) => number; join: (a: number, b: number) => void } {
  const up = new Map<number, number>();
  const find = (n: number): number => {
    let top = n;
    for (let next = up.get(top); next !== undefined; next = up.get(top)) top = next;
    if (n !== top) up.set(n, top);
    return top;
  };
  const join = (a: number, b: number): void => {
    const [p, q] = [find(a), find(b)];
    if (p !== q) up.set(Math.max(p, q), Math.min(p, q));
  };
  return { find, join };
}

/** Connected parts of the drawing. */
function partsOf(
  stretches: readonly LinedStretch[],
  outlineNodes: ReadonlySet<number>,
): Pick<SeamGraph, 'partOf' | 'floating'> {
  const { find, join } = gathered();
  for (const { stretch } of stretches) join(stretch.from, stretch.to);
  const numbers = new Map<number, number>();
  const floating: boolean[] = [];
  const partOf = Int32Array.from(stretches, ({ stretch: { from } }) => {
    const top = find(from);
    if (!numbers.has(top)) {
      numbers.set(top, floating.length);
      floating.push(true);
    }
    return numbers.get(top)!;
  });
  stretches.forEach(({ stretch: { from, to } }, s) => {
    if (outlineNodes.has(from) || outlineNodes.has(to)) floating[partOf[s]!] = false;
  });
  return { partOf, floating };
}

function stranded(
  stretches: readonly LinedStretch[],
  endsAt: ReadonlyMap<number, readonly End[]>,
): StrandedStretch[] {
  const { find, join } = gathered();
  for (const ends of endsAt.values())
    if (ends.length === 2) join(stretches[ends[0]! >> 1]!.run, stretches[ends[1]! >> 1]!.run);
  return stretches.map((s) => ({ ...s, strand: find(s.run) }));
}

/** Read the stretches of a sliced piece as a graph, with the pairs of ends that may run through each junction. */
export function seamGraph(piece: PanelledPiece, wishes: readonly OrderWish[]): SeamGraph {
  const lined = linedStretches(piece);
  const endsAt = new Map<number, End[]>();
  lined.forEach(({ stretch: { from, to } }, s) => {
    for (const [node, end] of [
      [from, 2 * s],
      [to, 2 * s + 1],
    ] as const) {
      if (piece.outlineNodes.has(node)) continue;
      const own = endsAt.get(node);
      if (own) own.push(end);
      else endsAt.set(node, [end]);
    }
  });
  const stretches = stranded(lined, endsAt);
  const asked: readonly LineWish[] = lineWishes(stretches, wishes);
  const junctionOf = new Int32Array(2 * stretches.length).fill(-1);
  const junctions = [...endsAt].map(([node, ends], j): Junction => {
    for (const e of ends) junctionOf[e] = j;
    const leaving = ends.map((e) => leavingOf(stretches[stretchOfEnd(e)]!.stretch.path, e % 2 === 0));
    const pairs = pairsAt(stretches, ends, leaving, asked);
    return { node, at: piece.nodePoints[node]!, ends, leaving, pairs };
  });
  return { stretches, junctions, junctionOf, ...partsOf(stretches, piece.outlineNodes) };
}
