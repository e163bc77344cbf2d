/**
 * The vocabulary of this room: numbers only, nothing of sewing.
 * Frame: millimetres, y points down. A ring's `signedArea` is positive for an outer ring, negative for a hole.
 */

/** A point or vector, mm. */
export type Pt = readonly [x: number, y: number];
/** A straight stretch from the first point to the second. */
export type Line = readonly [Pt, Pt];
/** A cubic Bézier: start, two handles, end. */
export type Cubic = readonly [Pt, Pt, Pt, Pt];
/** Told apart by length: 2 points is a line, 4 points a cubic. */
export type Curve = Line | Cubic;
/** Curves in order; each starts exactly where the one before ends. May be empty. */
export type Path = readonly Curve[];
/** A path that ends exactly where it starts. */
export type Ring = Path;
/** Corner points; a closed one does not repeat its first point. */
export type Polyline = readonly Pt[];

/** A place on a path: curve index and parameter 0..1 on that curve. */
export interface CurveRef {
  readonly index: number;
  readonly t: number;
}

export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Affine map as in SVG: x' = a·x + c·y + e, y' = b·x + d·y + f. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];
