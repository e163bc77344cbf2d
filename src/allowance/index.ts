/**
 * Allowance: stitching lines to cutting lines, with notches, clips, grain and label places.
 * Promises that no point of a cutting line is nearer to its stitching line than the allowance there.
 */
export * from './cutPiece';
export { type CutPieces, cutAllPieces, cutPiecesOf, unmarkedProblems, unsoundProblems } from './cutPanel';
export { allowanceOf, allowancesByJob } from './widths';
export { MITRE_LIMIT } from './cuttingLine';
export {
  type SeamMarks,
  type SeamPlace,
  NOTCH_CLEARANCE,
  SEEN_APART,
  markLines,
  movedNotch,
  notchAt,
  notchPlaces,
  patternDifference,
  readBackwards,
  snipDepth,
} from './marks';
export type { Markable } from './matchMarks';
export { type HalfOnFold, halfOnFold } from './halfOnFold';
export { type PanelSymmetry, panelSymmetry } from './panelSymmetry';
