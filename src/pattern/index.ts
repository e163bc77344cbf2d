/**
 * The pattern: what was traced, opened out into whole pieces with their edges, darts, notches, levels and grain.
 * Accepts a design document. Promises whole pieces with a stitching outline whose every curve knows its edge.
 * Does not cut anything: that is the next room, panels.
 */
export * from './design';
export { NOT_MADE_UP, PLAIN_CLOTH } from './makingUp';
export * from './problem';
export * from './units';
export { contrast, luminance } from './luminance';
export * from './wholePiece';
export * from './darts';
export * from './scaleCheck';
export { USUAL_HEM, takenAs, usualHem } from './takenAs';
export { scaleDesign } from './scaleDesign';
export { openOut } from './openOut';
export { type Included, includedOf, includedWidth } from './includedWidth';
export { openedPiece, type OpenedPiece } from './openedPiece';
export * from './sewnEdge';
export * from './grainFrame';
export { type TracedEdge, nameEdge, tracedEdges } from './nameEdge';
export { withPathEnds } from './halfToWhole';
export { withoutSteps, withoutWhatIsOn } from './forget';
export { type MovedRun, type OutlineSpot, movedRuns } from './movedIn';
export { remember } from './remember';
