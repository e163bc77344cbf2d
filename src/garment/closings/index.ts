/** Zips in their seams: where they begin and stop, how long they are, what is drawn for them on cut pieces, what is wrong with them. */
export { type PlacedClosing, type PlacedSide, placedClosings } from './placedClosings';
export { closingProblems } from './closingProblems';
export { type ZipMark, middleOfOpening, movedMark, sameMark, zipMarks } from './zipMarks';
export { type PrintedZip, printedZips } from './printedZips';
