/**
 * Telling: how a garment is sewn, step by step, in words, and what the words need: which way seams are pressed, layers, clips, threads.
 * Accepts a derived garment. Promises a telling for every step, lengths in the user's unit. Worked out only when asked for and then
 * remembered; loaded only by those who ask (paper, the report, the bench's list of steps). Changes nothing and decides no order.
 */
export * from './stepTelling';
export { type RunSeam, type SewnRun, panelsBeside, runsOfStep, sewnRuns, sideOfRun } from './sewnRuns';
export { type Ender, type SeamMeeting, seamMeetings } from './crossings';
export {
  type NotNesting,
  type Pressings,
  type RunPressing,
  isCrossing,
  pressings,
  pressingsOf,
} from './pressings';
export { type LayersAt, MOST_LAYERS, layersAt } from './layers';
export { layerHints, layersOver } from './layersOver';
export { type CurveCuts, STOPS_SHORT, curveCuts } from './curves';
export { lengthOffGrain, offGrainAngle } from './offGrain';
export { outerEdgesOf } from './outerEdges';
export { type Thread, threadOf } from './threads';
export { joinsOfStep, panelMeetings } from './joinWalks';
export { tellStep, tellSteps } from './tellStep';
export { beforeYouSew } from './beforeYouSew';
export { widthAlong, widthOfSeam } from './widths';
export { type ExtraStep, extraTellings, settingIn } from './extraTellings';
export { zipIn } from './tellZip';
