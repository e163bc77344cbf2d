/**
 * Fabric: lay plans per colour and what to buy.
 * Accepts cutting lines with their grain, one cloth at a time. Promises that every plan shown passed the exact check on the
 * true cutting lines, and that the same job and seed give the same plan. Does not draw anything.
 */
export * from './layPlan';
export * from './layJobs';
export { laidPieces, placementMatrix } from './laidPieces';
export type { CutFrom, LaidPiece, SeenPiece } from './laidPieces';
export { startLay, planLay, WORK_PER_SECOND } from './search/startLay';
export type { LaySearch } from './search/startLay';
export * from './remnants';
export { compareLayerings } from './compareLayerings';
export type { LayeringChoice, LayeringReason } from './compareLayerings';
export { checkLay } from './check/checkLay';
export type { LayFault } from './check/checkLay';
export * from './shopping';
export { allowedRotations, placedOutline } from './placement';
