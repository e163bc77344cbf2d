/**
 * Geometry: paths of straight and cubic curves, in mm, y down; knows no sewing.
 * Accepts finite numbers only (readers check). Promises plain data in, plain data out, the same answer every time.
 * Does not import anything of ours.
 */
export * from './types';
export * from './tolerances';
export * from './vector';
export * from './curve';
export * from './box';
export * from './path';
export * from './flatten';
export * from './flattenForArea';
export * from './area';
export {
  nodePolylines,
  type Noded,
  type NodedEdge,
  type NodingOptions,
  type NodingPolyline,
  type StretchSource,
} from './noding';
export * from './faces';
export * from './subdivision';
export * from './subdivide';
export * from './offsetRing';
export type { CornerShape } from './shapedCorners';
export type { CornerShapes } from './joinStretches';
export * from './checkOffset';
export * from './inside';
export * from './labelSpot';
export * from './overlap';
export * from './crossStraight';
export { isSimpleRing } from './simplicity';
export { type ParallelCurve, parallelCurve } from './parallelCurve';
