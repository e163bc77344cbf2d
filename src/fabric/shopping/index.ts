/**
 * Shopping: what to ask for at the counter, from lay plans and the sewing plan.
 * Promises that nothing asked for is less than what is needed, and that every figure is a fact with its parts; the words are in
 * sayShopping.ts alone.
 */
export {
  type BuyRule,
  type BuySum,
  COUNTER_STEP,
  buySum,
  buySumOf,
  counterLength,
  lengthToBuy,
} from './counter';
export { PRICED_BY, costOf, priceAsSaid, pricePerMetre } from './price';
export { type Ribbon, ribbonsToBuy } from './ribbons';
export {
  type TableSettings,
  type WidthEntry,
  type WidthRow,
  type WidthTable,
  startWidthTable,
  widthTable,
  withoutOwn,
} from './widthTable';
export { USUAL_WIDTHS } from '../usualWidths';
export { biasFromSquare, squareForBias } from './bias';
export { type SpoolCount, type Spools, LOCKSTITCH_THREAD, OVEREDGE_THREAD, threadFor } from './thread';
export { type SewnSource, type SewnStep, sewnLengths } from './sewnLengths';
export { type ZipToBuy, zipAsSold, zipsToBuy } from './zips';
export {
  type ClothToBuy,
  type ClothUse,
  type FromOwnCloth,
  type ShoppingList,
  type ShoppingSource,
  type ThreadToBuy,
  type TrimToBuy,
  shoppingList,
} from './shoppingList';
export {
  type ShoppingPart,
  type ShoppingRow,
  sayAtCounter,
  sayMoney,
  sayNeatening,
  saySum,
  sayTotal,
  shoppingRows,
  shoppingText,
} from './sayShopping';
