/**
 * Spots: what a change of the drawing does to the cloth that is bought, and where a line would have to lie for less of it.
 * Accepts designs. Promises that plans are compared with plans laid with the same care, and that no saving is claimed that plans do
 * not show. Runs in a worker at the bench; loaded only by those who ask.
 */
export { acrossLine, alongLine } from './alongLine';
export { type Care, type ClothBuy, type LayCloth, CARE_SECONDS, clothLayer, finish } from './clothBuy';
export { jobKey } from './jobKey';
export { type RememberedLay, remembered } from './remembered';
export {
  type ClothChange,
  type TouchedCloth,
  isCheaper,
  jobsOf,
  layTouched,
  moreToBuy,
  moreToPay,
  touchedCloths,
} from './buys';
export { type CheapSpot, cheapSpots, provenBest } from './cheapSpots';
export { type LineFit, FARTHEST_MOVE, fitByLine, nearlyFitting } from './fitRemnant';
