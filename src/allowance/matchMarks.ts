import { type Path, scale } from '../geometry';
import {
  type Panel,
  type PanelEdge,
  type PanelledPiece,
  type Seam,
  type SeamId,
  alongSeam,
  placeAlong,
} from '../panels';
import { type Allowances, type WholePiece, remember } from '../pattern';
import type { CutNotch } from './cutPiece';
import {
  type SeamMarks,
  chooseMarks,
  notchAt,
  notchPlaces,
  onCuttingEdge,
  outwardOf,
  seamRooms,
  tracedNotches,
} from './marks';
import { seamTurns } from './seamTurns';
import { allowanceOf } from './widths';

/** The seams of a piece and the marks each of them has. */
export interface SeamBook {
  readonly seamById: ReadonlyMap<SeamId, Seam>;
  readonly marks: ReadonlyMap<SeamId, SeamMarks>;
}

/** A sliced piece and the allowances it is cut with. */
export interface Markable {
  readonly sliced: PanelledPiece;
  readonly allowances: Allowances;
}

/** Remembered by what it says, so that a piece whose marks stay keeps its cut pieces. */
const settled = remember(
  (_whole: WholePiece, said: string): ReadonlyMap<SeamId, SeamMarks> =>
    new Map(JSON.parse(said) as readonly (readonly [SeamId, SeamMarks])[]),
);

const imagesOnce = remember((sliced: PanelledPiece) => seamTurns(sliced.seams, sliced.whole.foldLine));

/** Match marks of all new seams of a garment, told apart over all its pieces; in the order of the pieces. */
export function garmentMarks(pieces: readonly Markable[]): readonly ReadonlyMap<SeamId, SeamMarks>[] {
  const marks = chooseMarks(
    pieces.map(({ sliced, allowances }) => ({
      rooms: seamRooms(sliced, allowances),
      images: imagesOnce(sliced),
      onFold: sliced.whole.piece.foldPanels,
    })),
  );
  return pieces.map(({ sliced }) =>
    settled(sliced.whole, JSON.stringify(sliced.seams.map(({ id }) => [id, marks.get(id)!]))),
  );
}

function seamNotches(
  edge: PanelEdge,
  panel: Panel,
  seam: Seam,
  marks: SeamMarks,
  allowance: number,
): CutNotch[] {
  if (edge.origin.kind !== 'seam') return [];
  const { forward } = edge.origin;
  const path = alongSeam(edge);
  return notchPlaces(seam, marks, forward ? 'a' : 'b').map((place): CutNotch => {
    const { point, direction } = placeAlong(path, panel.darts, place.at);
    const outward = outwardOf(forward ? direction : scale(direction, -1));
    const { at: along, marks: kind, ease } = place;
    return notchAt({ at: point, outward, allowance, marks: kind, seam: seam.id, along, ease });
  });
}

/** All match marks of a panel: those of its new seams, and the traced ones on its outer edges. `cuttings`: its cutting lines. */
export function matchMarks(
  panel: Panel,
  whole: WholePiece,
  allowances: Allowances,
  { seamById, marks }: SeamBook,
  cuttings: readonly Path[],
): readonly CutNotch[] {
  const seams = [...panel.boundary, ...panel.holes.flat()].flatMap((edge) => {
    if (edge.origin.kind !== 'seam') return [];
    const seam = seamById.get(edge.origin.seam)!;
    return seamNotches(edge, panel, seam, marks.get(seam.id)!, allowanceOf(edge, whole, allowances));
  });
  return [
    ...seams.map((n) => onCuttingEdge(n, cuttings)),
    ...tracedNotches(panel, whole, allowances).map((n) => onCuttingEdge(n, cuttings)),
  ];
}
