/**
 * Panel lines and what holds them: a line's ties are its true definition, its path is worked out from them.
 * Accepts a design document. Promises that tied lines lie where their ties say, each after those it hangs on, that untied lines
 * and lines that stay are the very same objects, and that what cannot be had is told and leaves the line where it was.
 * Does not cut pieces: that is the next room, panels.
 */
export { type Axis, axisValue, basePlace, centreOf, pointOnEdge } from './axis';
export { type Bases, MOST_SHARE, basesOf, measureReach, reachOn } from './reach';
export { basesFor, basesKey } from './basesFor';
export { type EdgeId, edgeAt, edgeId, findEdge, meetsOf } from './edgeOnPiece';
export { findLevel, levelHeight, levelKey, levelsDown } from './levelOf';
export { type Lost, isLost, sayBase, sayEdge, sayLevel } from './lost';
export { type TieGround, tiePoint } from './tiePoint';
export { angleToGrain } from './runLine';
export { settle, settleLines, tieGround, tieProblems } from './settle';
export { edgeAxis, edgeTie, insideTie, lieOf, proposeTie, tiesFor } from './tiesFor';
export { landingOf, type Landing } from './landing';
export { retie } from './retie';
export { movedPath, withPathEnds } from './movedPath';
export { groundFor, reshaped, tieLines, tied, withTies, type LineGround } from './tieEdits';
export { type CarryOver, carriedLine, carryOver } from './carryOver';
export {
  USUAL_WAIST_TO_HIP,
  addLevel,
  deleteLevel,
  linesOnLevel,
  moveLevel,
  renameLevel,
} from './levelEdits';
export { type Keeping, keepingOf, turnTies } from './turnTies';
export {
  type ReachPart,
  choicesFor,
  measuredAlong,
  measuredFrom,
  measuredOnLine,
  reachesOf,
  withNode,
  withReach,
} from './changeTie';
export { renameEdge } from './renameEdge';
export { type Band, bandAround, bandAtDepth, bandLines, bandOf } from './bands/bands';
export { foldLineId, isFoldLine, liesOnFold, pathOnFold } from './foldLine';
