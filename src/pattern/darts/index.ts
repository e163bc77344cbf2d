/**
 * Darts: their shape and numbers, the wedge they take out of a piece, how they are pressed and their mouth is cut, and what happens to the
 * piece when one is folded shut or swung to another place.
 * Does not know panel lines: what becomes of a dart that a line crosses is told by the rooms after this one.
 */
export {
  dartAngle,
  dartIntake,
  dartLegDifference,
  dartLegLengths,
  dartLegs,
  dartPoints,
  dartRing,
  movedDart,
  legsOf,
  mirroredDart,
} from './dartShape';
export { nameDart } from './nameDart';
export { withoutWedges, type NetShape } from './dartWedge';
export { type Pressed } from './pressDart';
export { pressed } from './wholeCaps';
export { mouthCap } from './mouthCap';
export { type CarriedPath, type SwingMap, swingMap } from './swingMap';
export { swungPiece, type SwungPiece, type SwungShape } from './swingPiece';
export { placeNear, swingPlaces, type SwingPlace } from './swingPlaces';
export { foldShut, type FoldedShut, type ShutPart } from './foldShut';
