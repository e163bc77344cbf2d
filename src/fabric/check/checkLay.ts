import { CUTS_TOUCH, SAME_TURN } from '../../geometry';
import type { ClothPiece, LayJob, Placement } from '../layPlan';
import { allowedRotations, normalAngle, placedOutline } from '../placement';
import { type Laid, type LayFault, fault } from './layFault';
import { foldFaults } from './onTheFold';
import { offTheCloth } from './onTheCloth';
import { offTheRepeat } from './onTheRepeat';
import { boxesWithin, leastDistance, outlineOf, overlapOf } from './outlineOverlap';

export type { LayFault } from './layFault';

const isPiece =
  (p: ClothPiece) =>
  (at: Placement): boolean =>
    at.panel === p.panel && at.copy === p.copy;

/** Degrees between two directions. */
const angleBetween = (a: number, b: number): number => Math.abs(normalAngle(a - b));

function faultsOfOne(laid: Laid, job: LayJob): LayFault[] {
  const { piece, placement, outline } = laid;
  const out = offTheCloth(laid, job);
  const turns = allowedRotations(piece, job.nap).map((r) => angleBetween(r, placement.rotation));
  // written so that a turn that is not a number is a fault
  if (!(Math.min(...turns) <= SAME_TURN))
    out.push(fault('wrong-turn', piece, Math.min(...turns), outline.points[0]!));
  if (placement.flipped !== piece.flipped) out.push(fault('wrong-side-up', piece, 0, outline.points[0]!));
  return [...out, ...offTheRepeat(laid, job)];
}

function faultOfTwo(a: Laid, b: Laid, gap: number): LayFault | null {
  if (!boxesWithin(a.outline.box, b.outline.box, gap)) return null;
  const near = gap > 0 ? leastDistance(a.outline, b.outline, gap) : null;
  const over = overlapOf(a.outline, b.outline);
  if (over && over.depth > CUTS_TOUCH) return fault('overlap', a.piece, over.depth, over.at, b);
  if (near && near.distance < gap - CUTS_TOUCH)
    return fault('too-close', a.piece, gap - near.distance, near.at, b);
  return null;
}

/**
 * The gate: everything wrong with a lay, judged on the true cutting lines of all copies, folded cloth opened out. Empty for a plan
 * that can be cut as drawn. Insides must not meet (touching is allowed), pieces keep the job's gap; all lie on the cloth at x ≥ 0 and
 * off its margins, or inside the outline of one's own piece of cloth; they are turned only as the grain or their leave allows,
 * mirrored only where the job says so, anchored on the repeat, laid as a fold allows, each exactly once. Sides and contacts are
 * decided by exact predicates; a depth up to CUTS_TOUCH is the rounding of the placed coordinates and counts as touching.
 */
export function checkLay(job: LayJob, placed: readonly Placement[]): LayFault[] {
  const faults: LayFault[] = [];
  const laid: Laid[] = [];
  for (const piece of job.pieces) {
    const [placement, ...again] = placed.filter(isPiece(piece));
    if (!placement) faults.push(fault('missing', piece));
    else laid.push({ piece, placement, outline: outlineOf(placedOutline(piece, placement)) });
    faults.push(...again.map((p) => fault('laid-twice', p, 0, [p.x, p.y])));
  }
  const strangers = placed.filter((at) => !job.pieces.some((p) => isPiece(p)(at)));
  faults.push(...strangers.map((p) => fault('unknown-piece', p, 0, [p.x, p.y])));
  laid.forEach((a, i) => {
    faults.push(...faultsOfOne(a, job));
    for (const b of laid.slice(i + 1)) {
      const found = faultOfTwo(a, b, job.gap);
      if (found) faults.push(found);
    }
  });
  return [...faults, ...foldFaults(laid, job)];
}
