/**
 * Allowance: stitching lines to cutting lines, with notches, clips, grain and label places.
 * Promises that no point of a cutting line is nearer to its stitching line than the allowance there, but where a corner is cut by its style.
 */
export * from './cutPiece';
export {
  type CutPieces,
  type Cuttable,
  cutAllPieces,
  cutPiecesOf,
  unmarkedProblems,
  unsoundProblems,
} from './cutPanel';
export {
  type OwnWidth,
  type PieceAllowances,
  allowanceOf,
  allowancesByJob,
  widthOfLine,
  widthOfOutline,
} from './widths';
export * from './corners';
export * from './presets';
export { MOST_HEM_EASE, deepestHem, hemExcess } from './hemFit';
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
} from './marks';
export type { Markable } from './matchMarks';
export { type HalfOnFold, halfOnFold } from './halfOnFold';
export { type PanelSymmetry, panelSymmetry } from './panelSymmetry';
export { SAME_CUT, areMirrorImages } from './mirrorImage';
