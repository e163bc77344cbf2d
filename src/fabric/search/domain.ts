/**
 * Where the place of a shape (the corner of its box) may be on the cloth, mm: between limits and, on cloth with a repeat, on a
 * lattice (from + any whole number of steps). A step of 0 leaves it free; lowY = highY holds it on a line, such as the fold.
 */
export interface Domain {
  readonly lowX: number;
  /** Infinity: the cloth is as long as need be. */
  readonly highX: number;
  readonly lowY: number;
  readonly highY: number;
  readonly fromX: number;
  readonly stepX: number;
  readonly fromY: number;
  readonly stepY: number;
}

/** A share of a lattice step, and mm at limits: rounding of doubles at cloth size. */
const ROUNDING = 1e-9;

/** The first lattice value at or above v; v itself where there is no lattice. */
export const latticeAbove = (v: number, from: number, step: number): number =>
  step === 0 ? v : from + Math.ceil((v - from) / step - ROUNDING) * step;

/** The last lattice value at or below v; v itself where there is no lattice. */
export const latticeBelow = (v: number, from: number, step: number): number =>
  step === 0 ? v : from + Math.floor((v - from) / step + ROUNDING) * step;

function settled(v: number, low: number, high: number, from: number, step: number): number {
  if (step === 0) return v > high ? (high > low ? high : low) : v < low ? low : v;
  const near = from + Math.round((v - from) / step) * step;
  if (near > high + ROUNDING) {
    const last = latticeBelow(high, from, step);
    return last >= low - ROUNDING ? last : latticeAbove(low, from, step);
  }
  return near < low - ROUNDING ? latticeAbove(low, from, step) : near;
}

/**
 * The allowed x nearest to the wanted one, with the shape's place no farther than `high`; the first allowed one, which lies
 * beyond `high`, where there is none.
 */
export const settleX = (d: Domain, x: number, high: number): number =>
  settled(x, d.lowX, high, d.fromX, d.stepX);

export const settleY = (d: Domain, y: number): number => settled(y, d.lowY, d.highY, d.fromY, d.stepY);

/** The first allowed x. */
export const firstX = (d: Domain): number => latticeAbove(d.lowX, d.fromX, d.stepX);

/** Whether any place on the cloth is allowed. */
export const isRoomy = (d: Domain): boolean =>
  firstX(d) <= d.highX + ROUNDING && latticeAbove(d.lowY, d.fromY, d.stepY) <= d.highY + ROUNDING;

export const hasLattice = (d: Domain): boolean => d.stepX > 0 || d.stepY > 0;
