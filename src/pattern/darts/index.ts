/**
 * Darts: their shape and numbers, the wedge they take out of a piece, how their mouth is cut, and what happens to the piece when one
 * is folded shut or swung to another place.
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
} from './dartShape';
export { type SwingMap, type CarriedPath } from "./swingMap";
export { withoutWedges, type NetShape } from './dartWedge';
