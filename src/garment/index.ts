/** Garment: the whole job derived from one design document, remembered piece by piece. */
export * from './garment';
export { deriveGarment } from './deriveGarment';
export { type GarmentFault, checkGarment } from './checkGarment';
export { type Cut, cutTogether, howToCut, printedPiece } from './howToCut';
export { widthOfEdge } from './edgeWidths';
export { lineEndsOf } from './lineEnds';
export * from './closings';
export { type EdgeMate, matesOf, seamsWithoutNotches } from './mates';
export { type EdgeSaying, edgeSayings, mateWords, spokenEdgeName } from './edgeSayings';
