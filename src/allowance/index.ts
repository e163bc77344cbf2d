/**
 * Allowance: stitching lines to cutting lines, with notches, clips, grain and label places.
 * Promises that no point of a cutting line is nearer to its stitching line than the allowance there.
 */
export * from './cutPiece';
export { type CutPieces, cutPiecesOf, unsoundProblems } from './cutPanel';
export { allowanceOf, allowancesByJob } from './widths';
export { MITRE_LIMIT } from './cuttingLine';
export { notchPlaces } from './matchMarks';
export { type HalfOnFold, halfOnFold } from './halfOnFold';
export { type PanelSymmetry, panelSymmetry } from './panelSymmetry';
