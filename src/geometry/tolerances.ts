/** The only place for lengths below which something does not count. Each has one purpose; none is shared. All mm. */

/** Points closer than this are one point. Far below a pencil line, far above the rounding of doubles at garment size. */
export const SAME_POINT = 0.01;

/** A traced end that stops this far from the line it should meet is taken to meet it (a hand tracing's usual slip). */
export const JOIN_GAP = 1;

/** How far a chord may leave its curve when a curve is replaced by chords for noding, union or packing. */
export const CHORD_SAGITTA = 0.02;

/**
 * Finer chords where two curves come near each other, so that which side a curve passes on is never decided by a chord:
 * two such chords differ from their curves by less than SAME_POINT together.
 */
export const NEAR_SAGITTA = 0.0015;

/** A face thinner than this on average is no face: what bounds it on both sides is one line. */
export const THINNEST_FACE = 0.01;

/** Where curves touch or cross flatly: nearer than this they are at one place. An end moved by it changes no area worth a thought. */
export const TOUCH_GAP = 1e-4;

/** Curves drawn together over less than this (measured where they are within TOUCH_GAP) touch in one point, they do not overlap. */
export const SHORTEST_OVERLAP = 1;

/** The longest that two big garment curves can be drawn together by touching only. */
export const LONGEST_TOUCH = 15;

/** How far a re-fitted parallel curve may lie from the true one. */
export const OFFSET_FIT = 0.05;

/** What a re-fitted parallel curve is tried for before it is split in two: well inside OFFSET_FIT, and no more nodes needed. */
export const OFFSET_FIT_AIM = 0.01;

/** Ends of neighbouring parallel curves this close are drawn on to the point where they meet, without a mitre. */
export const OFFSET_JOINT_SLIP = 0.004;

/**
 * Crossings of a raw offset this close are drawn together: gaps and slivers narrower than SAME_POINT have no inside. The coarser
 * ones are for when rings still touch.
 */
export const CLEAN_UP_SNAPS = [0.01, 0.02, 0.05] as const;

/** A handle shorter than this has no direction to speak of (files keep two or three decimals) and counts as none. */
export const SHORTEST_HANDLE = 0.001;

/** How near the roomiest label spot must come to the best one. */
export const LABEL_SPOT_PRECISION = 0.5;

/** How far a traced name may lie from the outline stretch it names, mm: hand-laid marks wander more than joins do. */
export const NAME_REACH = 3;

/** A traced joint that turns by more than this is a corner between two edges, radians (20°). Not a length. */
export const CORNER_TURN = (20 * Math.PI) / 180;

/** Drawn points are kept to this, a millionth: what was drawn straight or meeting stays so after the page's scaling. */
export const PLACE_STEP = 1e-6;

/** Cutting lines that reach this little into each other touch: the rounding of placed coordinates, far below a thread. */
export const CUTS_TOUCH = 1e-6;

/** How far a dense automatic tracing may be moved when its corners are thinned out: a tenth of the chord sagitta. */
export const THIN_DENSE = 0.002;

/** A coordinate farther than this from the origin (a kilometre) is no garment's: what has one is left out of subdivisions. */
export const FARTHEST_DRAWN = 1e6;

/** An end of a line this near an edge, another line, the centre or a dart's point, mm, lies on it and is tied to it. */
export const LIES_ON = 0.5;

/** A straight line whose ends differ by less than this, mm, along or across the grain is tied as square to it or running with it. */
export const SQUARE_WITHIN = 0.05;

/** Points closer than this, mm, have not moved: a tied line whose points all stay within it keeps its path. */
export const UNMOVED = 1e-6;

/** A seam that turns by more than this at one point cannot be fed round it: it is set in, in two passes, degrees. Common practice, no source. */
export const SET_IN_TURN = 30;

/** Over this length from a junction, mm, a line's direction there is taken: longer than the rounding of junctions, shorter than any bend. */
export const DIRECTION_OVER = 0.5;

/** Seams that come nearer to each other than this, mm, meet at one point: junctions are the same doubles but for the rounding of cut curves. */
export const MEETING_PLACE = 0.1;

/** The end of a seam this near to the end of a drawn line, mm, is that line's: darts that were closed may have moved it a little. */
export const MOVED_END = 1;

/** Saving less bought cloth than this, mm, is no reason to cut into a piece of one's own. */
export const SAVED_LENGTH = 1;

/** A shorter plan that saves less than this, mm, is not worth moving every piece for: finer than anybody cuts. Our choice. */
export const PLAN_STAYS = 0.5;

/** Lengths of cloth that differ by less than this, mm, are the same to everybody who buys or cuts. Our choice. */
export const SAME_LENGTH = 1;

/** A piece this near, mm, to the length of a whole plan is as long as it: finer than anybody cuts. */
export const AS_LONG_AS = 0.5;

/** Widths of cloth this near each other, mm, are the same cloth. */
export const SAME_WIDTH = 0.5;

/** Rounding of doubles at cloth size, mm: what one's own cloth is laid with. */
export const CLOTH_ROUNDING = 1e-9;

/** A piece turned off its grain by less than this, degrees, lies on it: the rounding of angles. */
export const ON_GRAIN = 1e-6;

/** A turn this near an allowed one, degrees, is that one: the rounding of sums of angles. */
export const SAME_TURN = 1e-9;

/** A fold whose direction differs from the grain's by less than this, as the sine of the angle, runs along it. */
export const FOLD_ALONG = 1e-9;

/** A cut piece whose centre of area lies this far, mm, beside the middle of its width is no mirror image of itself: spares the closer look. */
export const LOPSIDED = 1;
