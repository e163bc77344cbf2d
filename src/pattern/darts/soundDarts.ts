import {
  type Polyline,
  type Ring,
  flattenRing,
  isInRing,
  mix,
  pointAtLength,
  pathLength,
  subdivide,
} from '../../geometry';
import type { Piece } from '../design';
import { fromEdgeStart, opened, tracedCurves } from '../edgeCurves';
import { type Problem, problem } from '../problem';
import { remember } from '../remember';
import type { PlacedDart } from '../wholePiece';
import { dartLegs, dartRing } from './dartShape';
import type { SwungShape } from './swingPiece';
import { wholeDarts } from './wholeDarts';

/** Whether one dart lies in the wedge of another: it cannot be seen from the number of faces. */
function isNested(dart: PlacedDart, wedge: Polyline): boolean {
  const legs = dartLegs(dart);
  const half = pathLength(legs) / 2;
  const spots = [pointAtLength(legs, half / 2).point, pointAtLength(legs, (half * 3) / 2).point];
  return isInRing(mix(spots[0]!, spots[1]!, 0.5), wedge);
}

/** Whether some darts can all be sewn: each takes exactly one wedge out of the outline, and none lies in another's. */
function areSound(outline: Ring, darts: readonly PlacedDart[]): boolean {
  if (subdivide(outline, darts.map(dartLegs)).faces.length !== darts.length + 1) return false;
  const wedges = darts.map((d) => flattenRing(dartRing(d)));
  return darts.every((d, i) => wedges.every((wedge, k) => i === k || !isNested(d, wedge)));
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
  const shapes = piece.darts.map(({ treatment: _, ...shape }, traced) => ({
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
  const unsound = new Set([...asTraced, ...unsoundDarts(stitching, darts)]);
  const told = [...unsound].map((i) => {
    const dart = piece.darts[i]!;
    return problem('dart-unsound', {}, piece.name, dart.kind === 'single' ? dart.point : dart.points[0]);
  });
  return { darts: darts.filter((d) => !unsound.has(d.traced)), problems: [...problems, ...told] };
}
