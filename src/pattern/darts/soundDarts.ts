import {
  SAME_POINT,
  type Polyline,
  type Ring,
  boxOfPoints,
  boxesMeet,
  flattenRing,
  isInRing,
  nearestOnPath,
  overlapArea,
  signedAreaOfPoints,
} from '../../geometry';
import type { Piece } from '../design';
import { fromEdgeStart, opened, tracedCurves } from '../edgeCurves';
import { type Problem, problem } from '../problem';
import { remember } from '../remember';
import type { PlacedDart } from '../wholePiece';
import { dartLegLengths, dartPoints, dartRing } from './dartShape';
import type { SwungShape } from './swingPiece';
import { wholeDarts } from './wholeDarts';

/** Legs of which one is more than this many times as long as the other are not sewn to each other. */
const LEGS_UNLIKE = 4;
/** A wedge smaller than this takes in nothing, mm². */
const NOTHING = 0.5;
/** How much of a wedge may lie outside the piece for a hand tracing's slips, as a share of it. */
const OUTSIDE = 0.05;
/** The same, in another wedge. */
const SHARED = 0.05;

const wedgeOf = (dart: PlacedDart): Polyline => flattenRing(dartRing(dart));
const sizeOf = (wedge: Polyline): number => Math.abs(signedAreaOfPoints(wedge));

function areLike(dart: PlacedDart): boolean {
  const [a, b, c, d] = dartLegLengths(dart) as [number, number, number?, number?];
  const pairs =
    c === undefined || d === undefined
      ? [[a, b]]
      : [
          [a, d],
          [b, c],
        ];
  return pairs.every((pair) => Math.max(...pair) <= LEGS_UNLIKE * Math.min(...pair));
}

/** Whether one dart by itself can be sewn: a wedge inside the piece, its point clear of the outline. */
function isSound(outline: Ring, corners: Polyline, dart: PlacedDart): boolean {
  const wedge = wedgeOf(dart);
  const size = sizeOf(wedge);
  const isClear = dartPoints(dart).every(
    (p) => isInRing(p, corners) && nearestOnPath(outline, p).distance > SAME_POINT,
  );
  return size > NOTHING && isClear && areLike(dart) && overlapArea(wedge, corners) >= size * (1 - OUTSIDE);
}

/** Whether two darts take their cloth from different places. */
function areApart(one: PlacedDart, other: PlacedDart): boolean {
  const [a, b] = [wedgeOf(one), wedgeOf(other)];
  if (!boxesMeet(boxOfPoints(a), boxOfPoints(b))) return true;
  return overlapArea(a, b) <= Math.max(NOTHING, SHARED * Math.min(sizeOf(a), sizeOf(b)));
}

/** Whether some darts can all be sewn: each by itself, and none takes cloth from another. */
function areSound(outline: Ring, darts: readonly PlacedDart[]): boolean {
  const corners = flattenRing(outline);
  return darts.every(
    (d, i) => isSound(outline, corners, d) && darts.slice(i + 1).every((other) => areApart(d, other)),
  );
}

/**
 * Traced darts (by index) that cannot be sewn: they leave the piece, cross themselves or another dart, have no width, or run into the
 * outline with their point. A dart that spoils an earlier one is the unsound one; a mirror image goes with its original.
 * @param outline stitching outline
 * @param darts   placed on it
 */
function unsoundDarts(outline: Ring, darts: readonly PlacedDart[]): ReadonlySet<number> {
  const unsound = new Set<number>();
  if (darts.length === 0 || areSound(outline, darts)) return unsound;
  let kept: readonly PlacedDart[] = [];
  for (const traced of new Set(darts.map((d) => d.traced))) {
    const next = [...kept, ...darts.filter((d) => d.traced === traced)];
    if (areSound(outline, next)) kept = next;
    else unsound.add(traced);
  }
  return unsound;
}

/** Darts that cannot be sewn as they are traced, by index. */
export const unsoundAsTraced = remember((piece: Piece): ReadonlySet<number> => {
  if (piece.darts.length === 0) return new Set();
  const outline = fromEdgeStart(opened(tracedCurves(piece).curves, piece.fold)).map((c) => c.curve);
  const shapes = piece.darts.map(({ treatment: _treatment, ...shape }, traced) => ({
    shape,
    traced,
    swung: false,
    close: null,
  }));
  return unsoundDarts(outline, wholeDarts(piece, shapes, outline).darts);
});

/** A piece whose unsound darts are left where they are. */
export const keepingStill = remember((piece: Piece, unsound: ReadonlySet<number>): Piece =>
  unsound.size === 0
    ? piece
    : {
        ...piece,
        darts: piece.darts.map((d, i) => (unsound.has(i) ? { ...d, treatment: { kind: 'keep' } } : d)),
      },
);

/** The darts of a whole piece that can be sewn, and what is told of the others. */
export function soundDarts(
  piece: Piece,
  shapes: readonly SwungShape[],
  stitching: Ring,
  asTraced: ReadonlySet<number>,
): { darts: readonly PlacedDart[]; problems: readonly Problem[] } {
  const { darts, problems } = wholeDarts(piece, shapes, stitching);
  const told = [...asTraced].map((i) => {
    const dart = piece.darts[i]!;
    return problem('dart-unsound', {}, piece.name, dart.kind === 'single' ? dart.point : dart.points[0]);
  });
  return { darts, problems: [...problems, ...told] };
}
