/**
 * Trim: strips laid over seams, their lengths, ends and the order they are laid in.
 * Accepts sliced pieces and their sewing plan. Promises that every raw end is covered or said. Does not choose materials.
 */
export * from './trimRun';
export { layTrims } from './layTrims';
export { TURN_UNDER, joinsIn, mitresOf, usableLength } from './trimLength';
export { MOST_STRAIN, type StrainedStretch, strainAlong, widestOn } from './trimStrain';
export { type ShownThrough, shownThrough } from './showThrough';
export { type Attaching, attachingOf, sayAttaching } from './attaching';
export { type SideBySide, betweenLines, parallelPath } from './betweenLines';
export { panelToTrim } from './panelToTrim';
export { trimToPanel } from './trimToPanel';
export { bendOf, stripEdges } from './trimBend';
export type { Bend } from './trimBend';
