/**
 * Trim: strips laid over seams, their lengths, ends and the order they are laid in.
 * Accepts sliced pieces and their sewing plan. Promises that every raw end is covered or said. Does not choose materials.
 */
export * from './trimRun';
export { layTrims, BIAS_STRAIN, RIBBON_STRAIN, TURN_UNDER } from './layTrims';
export { bendOf, stripEdges } from './trimBend';
export type { Bend } from './trimBend';
