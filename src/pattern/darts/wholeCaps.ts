import { type Line, type Path, pathLength } from '../../geometry';
import type { Piece } from '../design';
import { type EdgeCurve, isHemName } from '../edgeCurves';
import { remember } from '../remember';
import type { PlacedDart, WholePiece } from '../wholePiece';
import { edgePath } from '../sewnEdge';
import { isPlainMouth, withCap } from './mouthCap';
import { type PressFrame, type Pressed, pressDart } from './pressDart';
import type { SwungShape } from './swingPiece';
import type { Outline } from './turnPart';
import { wholeDarts } from './wholeDarts';

const isCentreName = (name: string): boolean => /\b(centre|center)\b/i.test(name);

const longest = (paths: readonly Path[]): Path | null =>
  paths.length === 0 ? null : paths.reduce((a, b) => (pathLength(b) > pathLength(a) ? b : a));

/** Edge curves under names that fit, one path per edge. */
function pathsNamed(curves: readonly EdgeCurve[], fits: (name: string) => boolean): Path[] {
  const own = curves.filter((c) => fits(c.proposed ?? c.plainName));
  const keys = [...new Set(own.map((c) => `${c.edge}${c.mirrored ? 'm' : ''}`))];
  return keys.map((key) =>
    own.filter((c) => `${c.edge}${c.mirrored ? 'm' : ''}` === key).map((c) => c.curve),
  );
}

const frameOf = (curves: readonly EdgeCurve[], fold: Line | null, grain: Line): PressFrame => ({
  grain,
  centre: fold ? [fold] : longest(pathsNamed(curves, isCentreName)),
  hem: longest(pathsNamed(curves, isHemName)),
  ring: curves.map((c) => c.curve),
});

const curvesFrom = (outline: Outline<EdgeCurve>): EdgeCurve[] =>
  outline.map(({ curve, tag }) => ({ ...tag, curve }));

function capped(
  curves: readonly EdgeCurve[],
  frame: PressFrame,
  darts: readonly PlacedDart[],
): readonly EdgeCurve[] {
  let outline: Outline<EdgeCurve> = curves.map((tag) => ({ curve: tag.curve, tag }));
  for (const dart of darts) {
    if (dart.kind !== 'single' || dart.close !== null || !isPlainMouth(outline, dart)) continue;
    outline = withCap(outline, dart, pressDart(dart, frame).leg);
  }
  return curvesFrom(outline);
}

/** A stitching outline with the mouths of the darts that are kept cut as caps, where the tracing goes plainly across. */
export const withCaps = (
  curves: readonly EdgeCurve[],
  { fold }: Piece,
  darts: readonly PlacedDart[],
  grain: Line,
): readonly EdgeCurve[] =>
  darts.length === 0 ? curves : capped(curves, frameOf(curves, fold, grain), darts);

/** A traced cutting line with caps at the mouths that were newly opened; what was traced stays as it is. */
export function withSwungCaps(
  curves: readonly EdgeCurve[],
  piece: Piece,
  shapes: readonly SwungShape[],
  grain: Line,
): readonly EdgeCurve[] {
  const moved = shapes.filter((s) => s.swung);
  if (moved.length === 0) return curves;
  const ring = curves.map((c) => c.curve);
  return capped(curves, frameOf(curves, piece.fold, grain), wholeDarts(piece, moved, ring).darts);
}

/** What pressing depends on, of a whole piece. */
const pressFrame = remember((whole: WholePiece): PressFrame => {
  const named = (fits: (name: string) => boolean): Path | null =>
    longest(whole.edges.flatMap((e, i) => (fits(e.plainName) ? [edgePath(whole, i)] : [])));
  return {
    grain: whole.grain,
    centre: whole.foldLine ? [whole.foldLine] : named(isCentreName),
    hem: named(isHemName),
    ring: whole.stitching,
  };
});

/** Which way one of a whole piece's darts is pressed. */
export const pressed = (whole: WholePiece, dart: PlacedDart): Pressed => pressDart(dart, pressFrame(whole));
