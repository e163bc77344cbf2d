/** The only place for lengths below which something does not count. Each has one purpose; none is shared. All mm. */

/** Points closer than this are one point. Far below a pencil line, far above the rounding of doubles at garment size. */
export const SAME_POINT = 0.01;

/** A traced end that stops this far from the line it should meet is taken to meet it (a hand tracing's usual slip). */
export const JOIN_GAP = 1;

/** How far a chord may leave its curve when a curve is replaced by chords for noding, union or packing. */
export const CHORD_SAGITTA = 0.02;

/** How far a re-fitted parallel curve may lie from the true one. */
export const OFFSET_FIT = 0.05;
