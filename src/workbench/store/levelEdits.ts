import { addLevel, deleteLevel, moveLevel, renameLevel } from '../../lines';
import type { PieceId } from '../../pattern';
import type { Edit } from './documentSlice';

/** Set a level on a piece at a height along the grain, mm. */
export const setLevel =
  (piece: PieceId, name: string, height: number): Edit =>
  (design) =>
    addLevel(design, piece, name, height);

/** Move a level down (positive) or up the grain, mm; what is tied to it follows. */
export const shiftLevel =
  (piece: PieceId, name: string, by: number): Edit =>
  (design) =>
    moveLevel(design, piece, name, by);

/** Give a level another name; what is tied to it stays tied. */
export const nameLevel =
  (piece: PieceId, name: string, to: string): Edit =>
  (design) =>
    renameLevel(design, piece, name, to);

/** Take a level off; lines tied to it stay where they are and say so. */
export const removeLevel =
  (piece: PieceId, name: string): Edit =>
  (design) =>
    deleteLevel(design, piece, name);
