/**
 * How the allowances of a panel end at its corners, by the order in which its seams are sewn and the jobs of its edges. Accepts both as
 * plain data; knows nothing of the plan. Common practice throughout, no source.
 */
export * from './sewnAs';
export { MITRE_LIMIT } from './cornerStyle';
export { MITRED, type PanelCorners, cornersOf, endReaches, shapesOf } from './panelCorners';
