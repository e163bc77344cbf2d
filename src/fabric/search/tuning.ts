/**
 * Numbers of the search, tuned on published packing problems and on garment-like jobs: all in one place, because each is only good
 * together with the others.
 */
export const TUNING = {
  /** Places tried per move: all over the cloth, near the present one; how many of the best are worked on. */
  wide: 14,
  near: 10,
  refined: 3,
  /** Near places lie within this share of the shape's length and width; this share of them keeps its turn. */
  reach: 0.25,
  sameTurn: 0.5,
  /** Steps downhill, as shares of the shape's smaller side: first and last of the places found, and the last of all. */
  slideFirst: 0.04,
  slideLast: 0.004,
  feelFirst: 0.002,
  feelLast: 0.0005,
  /** A round multiplies the weight of an overlapping pair by this much: from least to most with its overlap; and fades the others. */
  growLeast: 1.2,
  growMost: 2,
  fade: 0.95,
  /** Overlaps of large pieces weigh more: area to the power scale/8 for each of the two. */
  scale: 4,
  /** Rounds without progress before a length is given up: for a large step, for the smallest one; and from how many starts that is tried. */
  quick: 150,
  patience: 200,
  starts: 3,
  /**
   * Share of the length taken off at once while exploring: at most, at least, and how it changes after failure. Steps large enough to
   * tear the lay apart get farther than many small ones, which only settle it where it is.
   */
  stepMost: 0.04,
  stepLeast: 0.002,
  stepShrink: 0.4,
  /** The last part of the budget: rounds without progress, how often anew; share taken off at its beginning and at its end. */
  lastPatience: 20,
  lastStrikes: 2,
  lastFirst: 0.001,
  lastLast: 0.00001,
  /** Share of the pieces that count as big when two of them change places. */
  big: 0.6,
  /** Share of the kicks that put some pieces elsewhere (at most so many) instead of swapping two. */
  reseat: 0.5,
  reseated: 3,
  /** Shares of the budget: other orders for laying piece by piece, shortening by large steps; the rest goes into small steps. */
  orders: 0.03,
  explore: 0.8,
};
