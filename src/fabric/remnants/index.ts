/**
 * One's own pieces of cloth: what is cut from them before any is bought, what they have left, and what fails to fit them.
 * Promises that what is called left over is free, and that a panel said to fit passed the exact check there.
 */
export { startCloth, planCloth } from './startCloth';
export type { ClothSearch } from './startCloth';
export { ownCloths } from './ownCloth';
export { fitsAlone, misfitOf } from './fitsOn';
export type { Misfit } from './fitsOn';
export { leftOver } from './leftOver';
export type { ClothRectangle, LeftOver } from './leftOver';
export { sayClothArea, sayLeftOver, sayUnfitting } from './sayOwnCloth';
export { ownClothUses, unfittingPanels } from './ownClothUse';
export type { OwnClothUse, Unfitting } from './ownClothUse';
