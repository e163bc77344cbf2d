/**
 * Files: what comes in and goes out. Reads traced SVGs and saved designs, writes designs, the report and the pieces as
 * SVG; the same functions in the browser and in Node.
 * Promises that no file's content makes it throw, hang, run a script or load anything: what cannot be used comes back as
 * problems, what is not understood is left out and listed. Does not read or write disks: the command and the bench do.
 */
export * from './tracing';
export type { SizedBy } from './pageScale';
export { readTracing, type TracingOptions } from './readTracing';
export { readClothOutlines, type ClothOutline } from './readClothOutlines';
export { snapFold, type SnappedFold } from './snapFold';
export { readDart } from './readDart';
export { readNotch } from './readNotch';
export { ringFault, type RingFault } from './ringFault';
export { designFromTracings, USUAL, type DesignChoices } from './designFromTracings';
export { wordForColour } from './colourNames';
export { saveDesign } from './saveDesign';
export { looksLikeDesign, openDesign } from './openDesign';
export { reportOf, reportText, type Report, type ReportSources } from './report';
export { piecesSvg } from './piecesSvg';
export { LARGEST_FILE } from './limits';
