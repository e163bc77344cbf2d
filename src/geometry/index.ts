/**
 * Geometry: paths of straight and cubic curves, in mm, y down; knows no sewing.
 * Accepts finite numbers only (readers check). Promises plain data in, plain data out, the same answer every time.
 * Does not import anything of ours.
 */
export * from './types';
export * from './tolerances';
export * from './vector';
export * from './curve';
export * from './path';
export * from './flatten';
export * from './area';
export * from './subdivision';
export * from './subdivide';
export * from './offsetRing';
