import type { Line, Path } from '../geometry';
import type { Piece } from './design';
import { halfWithoutFold, mirroredHalf } from './halfToWhole';
import { isCorner, nameCurves, proposedEdges } from './outlineEdges';
import type { Problem } from './problem';

/** A curve of an outline with the edge it belongs to. */
export interface EdgeCurve {
  readonly curve: Path[number];
  readonly plainName: string;
  readonly isNamed: boolean;
  /** By shape and place, where nobody named it. */
  readonly proposed: string | null;
  readonly mirrored: boolean;
  readonly edge: number;
  /** On a half piece: whether the edge goes on over the fold, as traced. A dart opened there later makes a corner, but no end. */
  readonly overFold: boolean;
}

/** Hems are recognised by their traced name. */
export const isHemName = (name: string): boolean => /\bhem\b/.test(name.toLowerCase());

/**
 * The traced outline with each curve's edge: of a half piece without its fold stretch, from one end of the fold to the other. Edges without
 * a traced name are numbered round the opened ring; an image has the number of its original.
 */
export function tracedCurves(piece: Piece): {
  curves: readonly EdgeCurve[];
  problems: readonly Problem[];
} {
  const traced = piece.fold ? halfWithoutFold(piece.outline, piece.fold) : piece.outline;
  const { curves, problems } = nameCurves(traced, piece.edgeNames, piece.name);
  const { names, belongsTo } = proposedEdges(piece, curves);
  const plain = curves.map(({ curve, name, edge }): EdgeCurve => ({
    curve,
    plainName: name ?? '',
    isNamed: name !== null,
    proposed: names[edge]!,
    mirrored: false,
    edge,
    overFold: false,
  }));
  const overFold = edgesOverFold(plain, piece.fold);
  const half = plain.map((c) => ({ ...c, overFold: overFold.has(c.edge) }));
  const round = fromEdgeStart(opened(half, piece.fold));
  const unnamed = [...new Set(round.filter((c) => !c.isNamed).map((c) => c.edge))];
  const numbered = half.map((c) =>
    c.isNamed ? c : { ...c, plainName: `edge ${unnamed.indexOf(c.edge) + 1}` },
  );
  return { curves: numbered.map((c) => ({ ...c, edge: belongsTo[c.edge]! })), problems };
}

/** Half and image as one ring; a whole piece's as they are. */
export function opened(half: readonly EdgeCurve[], fold: Line | null): readonly EdgeCurve[] {
  if (!fold) return half;
  const path: Path = half.map((c) => c.curve);
  const mirrored = mirroredHalf(path, fold).map((curve, i): EdgeCurve => ({
    ...half[half.length - 1 - i]!,
    curve,
    mirrored: true,
  }));
  return [...half, ...mirrored];
}

/** Edges that go on over the fold: those that make no corner there, and any named hem. */
function edgesOverFold(half: readonly EdgeCurve[], fold: Line | null): ReadonlySet<number> {
  const [first, last] = [half[0], half.at(-1)];
  if (!fold || !first || !last) return new Set();
  const round = opened(half, fold);
  const [image, imageOfFirst] = [round[half.length]!, round.at(-1)!];
  const goesOn = (own: EdgeCurve, a: EdgeCurve, b: EdgeCurve): number[] =>
    (own.isNamed && isHemName(own.plainName)) || !isCorner(a.curve, b.curve) ? [own.edge] : [];
  return new Set([...goesOn(first, imageOfFirst, first), ...goesOn(last, last, image)]);
}

/** Whether an edge ends between two neighbouring curves: where another begins, or at the fold. */
export const edgeEnds = (a: EdgeCurve, b: EdgeCurve): boolean =>
  a.edge !== b.edge || (a.mirrored !== b.mirrored && !a.overFold);

/**
 * Turn the ring so that it starts where an edge starts: the earliest traced one, wherever the ring began before. Edges are counted
 * from there, so what refers to one by name and count finds it again after a dart or an allowance has changed.
 */
export function fromEdgeStart(curves: readonly EdgeCurve[]): readonly EdgeCurve[] {
  const rank = ({ mirrored, edge }: EdgeCurve): number => (mirrored ? curves.length : 0) + edge;
  const starts = curves.flatMap((c, i) => (edgeEnds(curves.at(i - 1)!, c) ? [i] : []));
  const first = starts.reduce(
    (best, i) => (rank(curves[i]!) < rank(curves[best]!) ? i : best),
    starts[0] ?? 0,
  );
  return first === 0 ? curves : [...curves.slice(first), ...curves.slice(0, first)];
}

/** Number of the edge of each curve, in a ring that starts where an edge starts. */
export function edgeNumbers(curves: readonly EdgeCurve[]): number[] {
  let edge = -1;
  return curves.map((c, i) => {
    if (i === 0 || edgeEnds(curves[i - 1]!, c)) edge += 1;
    return edge;
  });
}
