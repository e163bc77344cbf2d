/** Match marks: where they go on new seams, so that no panel can be sewn in the wrong way; traced ones; how they are drawn. */
export { type MarkKind, type MarkPattern, SEEN_APART, patternDifference, readBackwards } from './markPattern';
export { type SeamRoom, seamRooms } from './seamRoom';
export { type MarkableSeams, chooseMarks } from './chooseMarks';
export { type SeamMarks, type SeamPlace, easedOn, notchPlaces } from './notchPlaces';
export { tracedNotches } from './tracedNotches';
export { NOTCH_CLEARANCE, markLines, movedNotch, notchAt, onCuttingEdge, outwardOf } from './markLines';
