/**
 * Neighbours: which outline edges are sewn to which, and what arrives where once those seams are closed.
 * Accepts whole pieces and the user's answers. Promises a job for every edge of every piece, the seams between outline edges, both
 * stitching lines walked together with darts shut, and lines that meet (or miss) over a seam in mm.
 * Does not know panels: line ends come as plain data. Does not change a piece or a line; continuations are proposals.
 */
export { type EdgeRole, type PieceWords, roleOfName, wordsOfPiece } from './edgeRole';
export * from './seamJoin';
export { edgeJobs, isKeptAs } from './edgeJobs';
export {
  type Arrival,
  type EaseMeant,
  type SeamStretch,
  type SeamWalk,
  type Wholes,
  acrossToA,
  acrossToB,
  crossSeam,
  lengthOnSide,
  pointOnSide,
  walkSeam,
} from './seamWalk';
export { notchesOn } from './seamNotches';
export { type LineEnd, type LineMeeting, type SeamMeetings, meetLines } from './lineMeeting';
export * from './neighbour';
export {
  LINES_MEET,
  MISS_HINT,
  MISS_WARNING,
  beyondEase,
  isMeantOff,
  neighbourProblems,
} from './neighbourProblems';
export { type Continuation, continuedLine } from './continuation';
export { continuations } from './continueLine';
export {
  type Zip,
  ZIP_ALLOWANCE,
  ZIP_LENGTH_STEP,
  ZIP_SLOT,
  allowanceOfZip,
  edgesOfZip,
  zipsOf,
} from './zips';
