/** Darts and panel lines: lines laid over darts as they are sewn, darts closed in the panels that lines cut them into, and the choice. */
export { type DartMeeting, type DartPassage, endsInDart, passagesThrough, sidesOf } from './passage';
export { mendPath, throughPoints } from './mendPath';
export { alongSeam, placeAlong, sewnLength, sideOfSeam } from './seamSides';
export { routeThrough } from './routeThrough';
export { layAnew, treatDart } from './treatDart';
export {
  type DartChoice,
  type LineChoice,
  type SwingChoice,
  MOST_EASE,
  TAKES_DART_WITHIN,
  dartChoices,
  placedDarts,
} from './dartChoices';
export { swingChoices, swingWorks } from './swingChoice';
export { type DartOutcome, type SewnDart, dartOutcome } from './dartOutcome';
