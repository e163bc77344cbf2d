/**
 * Paper: a garment as PDFs: true-scale cutting pieces, a handout, lay plans to scale. Accepts a derived garment, lay plans, and the fonts as data
 * (fontsFromDisk.ts for Node, fontsFromAsset.ts for the browser, imported directly because each runs in one place only).
 * Promises true scale, nothing in the page margins, and the same bytes for the same input. Touches neither screen nor disk.
 */
export * from './fonts';
export * from './sheetSize';
export * from './piecesPdf';
export * from './handoutPdf';
export * from './layPlansPdf';
export { type PictureSize, stepPicture } from './stepPicture';
export type { Block } from './block';
export type { Lettering, Mark } from './marks';
