/** Darts and panel lines: lines laid over darts as they are sewn, darts closed in the panels that lines cut them into. */
export { type DartMeeting, type DartPassage, endsInDart, passagesThrough, sidesOf } from './passage';
export { mendOverDarts, mendPath } from './mendPath';
export { alongSeam, placeAlong, sewnLength, sideOfSeam } from './seamSides';
