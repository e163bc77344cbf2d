/**
 * Seams of one piece: which are sewn in one go, and which come before which.
 * Accepts a sliced piece. Promises that every seam is whole when its turn comes, or says where it is left open.
 */
export { lineName, seamKey } from './lineWish';
export { seamRuns } from './seamRuns';
export { type TurnedRound, turnRound } from './turnRound';
