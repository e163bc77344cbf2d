import { type Line, type Pt, add, passesNear, perpendicular, scale } from '../../geometry';
import type { Path } from '../../geometry';
import type { CutNotch } from '../cutPiece';

/** A snip stays this far short of the stitching line, mm: at least 1/8 in (maeviary.com, n.d.). */
export const NOTCH_CLEARANCE = 25.4 / 8;
/** Deepest snip, mm: enough to see, little to weaken the seam. Our choice. */
const NOTCH_DEPTH = 6;
/** A shallower snip cannot be seen, mm: it is marked in chalk. */
const LEAST_DEPTH = 1.5;
/** Length of a mark that is not cut, mm. */
const CHALK = 3;
/** Distance of the marks of a double or triple notch, mm. */
const BETWEEN = 4;
/** The cutting edge lies where a mark says it does, to this, mm: what a re-fitted parallel may differ, and a little for chords. */
const ON_EDGE = 0.1;

/** Outwards from the panel, square to its boundary, where the boundary runs in `direction`. */
export const outwardOf = (direction: Pt): Pt => scale(perpendicular(direction), -1);

/** How deep a snip may be, mm: no deeper than the allowance less 1/8 in; 0 where that is too little to see. */
function snipDepth(allowance: number): number {
  const depth = Math.min(NOTCH_DEPTH, allowance - NOTCH_CLEARANCE);
  return depth >= LEAST_DEPTH ? depth : 0;
}

/** A notch with its base on the cutting line and the depth its allowance permits. */
export function notchAt(notch: Omit<CutNotch, 'base' | 'depth' | 'together'>): CutNotch {
  const { at, outward, allowance, marks, along, seam, ease } = notch;
  const base = add(at, scale(outward, allowance));
  return {
    at,
    outward,
    allowance,
    base,
    depth: snipDepth(allowance),
    marks,
    together: marks,
    along,
    seam,
    ease,
  };
}

/** The same notch where the cutting edge turns out not to run along the stitching line there: a chalk mark beside that line. */
export function onCuttingEdge(notch: CutNotch, cuttings: readonly Path[]): CutNotch {
  const isThere = cuttings.some((c) => passesNear(c, notch.base, ON_EDGE));
  return isThere ? notch : { ...notch, base: notch.at, depth: 0 };
}

/** A notch somewhere else, turned or mirrored. */
export function movedNotch(notch: CutNotch, move: (p: Pt) => Pt): CutNotch {
  const [o, v] = [move([0, 0]), move(notch.outward)];
  return { ...notch, at: move(notch.at), base: move(notch.base), outward: [v[0] - o[0], v[1] - o[1]] };
}

/**
 * The lines of a notch, square to the cutting line, first ends on it: inwards as deep as the snip; one that must not be cut stands outside
 * it, to be marked in chalk.
 */
export function markLines({ base, outward, depth, marks }: CutNotch): Line[] {
  const along = perpendicular(outward);
  const reach = depth > 0 ? -depth : CHALK;
  return Array.from({ length: marks }, (_, i): Line => {
    const start = add(base, scale(along, (i - (marks - 1) / 2) * BETWEEN));
    return [start, add(start, scale(outward, reach))];
  });
}
