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
} from './dartShape';
export { withoutWedges, type NetShape } from './dartWedge';
