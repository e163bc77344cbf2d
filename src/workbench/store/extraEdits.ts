import type { ColourId, Design, Facing, Lining, PieceId } from '../../pattern';
import type { Edit } from './documentSlice';

/** How much shorter a lining is than its garment, mm: 2 cm. Common practice, no source. */
const USUAL_SHORTER = 20;
/** Depth of a facing, mm: 6 cm. Common practice, no source. */
const USUAL_FACING = 60;

/** The cloth that linings and facings are proposed in: the last one, usually not that of the first panels. */
const usualCloth = ({ colours }: Design): ColourId => colours.at(-1)!.id;

const liningOf = (design: Design): Lining =>
  design.lining ?? { pieces: [], colour: usualCloth(design), shorter: USUAL_SHORTER };

/** Line a piece, or not. A design without lined pieces has no lining. */
export const linePiece =
  (piece: PieceId, on: boolean): Edit =>
  (design) => {
    const lining = liningOf(design);
    if (lining.pieces.includes(piece) === on) return design;
    const others = lining.pieces.filter((p) => p !== piece);
    const wanted = on
      ? design.pieces.map((p) => p.id).filter((p) => p === piece || others.includes(p))
      : others;
    return { ...design, lining: wanted.length > 0 ? { ...lining, pieces: wanted } : null };
  };

/** Change a lining's cloth, or how much shorter it is. */
export const sayLining =
  (words: Partial<Pick<Lining, 'colour' | 'shorter'>>): Edit =>
  (design) =>
    design.lining ? { ...design, lining: { ...design.lining, ...words } } : design;

const isOf = (f: Facing, piece: PieceId, edge: string): boolean => f.piece === piece && f.edge === edge;

/** Give an edge a facing; one it has already is left as it is. */
export const addFacing =
  (piece: PieceId, edge: string): Edit =>
  (design) =>
    design.facings.some((f) => isOf(f, piece, edge))
      ? design
      : {
          ...design,
          facings: [
            ...design.facings,
            { piece, edge, depth: USUAL_FACING, colour: usualCloth(design), interfacing: null },
          ],
        };

/** Change a facing's depth or cloth. */
export const sayFacing =
  (facing: Facing, words: Partial<Pick<Facing, 'depth' | 'colour' | 'interfacing'>>): Edit =>
  (design) => ({
    ...design,
    facings: design.facings.map((f) => (isOf(f, facing.piece, facing.edge) ? { ...f, ...words } : f)),
  });

export const removeFacing =
  (facing: Facing): Edit =>
  (design) => ({
    ...design,
    facings: design.facings.filter((f) => !isOf(f, facing.piece, facing.edge)),
  });
