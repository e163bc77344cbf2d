import type { ClothPiece, ClothShape, LayJob, LayPlan, Placement } from '../layPlan';
import { boxOfPoints, signedAreaOfPoints } from '../../geometry';
import { checkLay } from '../check/checkLay';
import { planWarnings } from '../check/planWarnings';
import { placedOutline } from '../placement';
import { lengthToBuy } from '../shopping/counter';
import type { Fill } from './fillCloths';
import type { FillSpace } from './fillSpace';

/** The job of laying some of the pieces on one piece of one's own cloth: a single layer, used to its edge, nothing bought. */
export const jobOn = (job: LayJob, cloth: ClothShape, pieces: readonly ClothPiece[]): LayJob => ({
  ...job,
  width: boxOfPoints(cloth.outline).maxY,
  margin: 0,
  layering: 'single',
  within: cloth,
  reserve: 0,
  pieces,
});

/** A job for some of its pieces alone. */
export const jobFor = (job: LayJob, pieces: readonly number[]): LayJob => ({
  ...job,
  pieces: pieces.map((i) => job.pieces[i]!),
});

/** A plan of placements that passed checkLay; null for those that do not pass. At least one piece. */
function checkedPlan(job: LayJob, placed: readonly Placement[]): LayPlan | null {
  if (checkLay(job, placed).length > 0) return null;
  const outlines = job.pieces.map((piece, i) => placedOutline(piece, placed[i]!));
  const length = Math.max(...outlines.map((outline) => boxOfPoints(outline).maxX));
  const area = outlines.reduce((sum, outline) => sum + Math.abs(signedAreaOfPoints(outline)), 0);
  return {
    colour: job.colour,
    width: job.width,
    layering: job.layering,
    within: job.within,
    length,
    buy: lengthToBuy(length, job),
    density: area / (length * job.width),
    seconds: job.seconds,
    placed,
    problems: planWarnings(job, placed),
  };
}

/** The plans of the cloths that are used; null where one does not pass the exact check. */
export function plansOf(space: FillSpace, fill: Fill): LayPlan[] | null {
  const plans = space.cloths.flatMap(({ cloth }, c): (LayPlan | null)[] => {
    const laid = [...fill[c]!].sort((a, b) => a.piece - b.piece);
    if (laid.length === 0) return [];
    const pieces = laid.map(({ piece }) => space.job.pieces[piece]!);
    return [
      checkedPlan(
        jobOn(space.job, cloth, pieces),
        laid.map((own) => space.placement(own)),
      ),
    ];
  });
  return plans.every((plan) => plan !== null) ? firstCopies(plans) : null;
}

/** Of pieces of cloth that are alike the first are used: plans whose copies are numbered so. */
export function firstCopies(own: readonly LayPlan[]): LayPlan[] {
  const used = new Map<string, number>();
  return own.map((plan) => {
    const cloth = plan.within!;
    const copy = (used.get(cloth.remnant) ?? 0) + 1;
    used.set(cloth.remnant, copy);
    return copy === cloth.copy ? plan : { ...plan, within: { ...cloth, copy } };
  });
}

/**
 * What is left of a plan when only some of its pieces are cut from that cloth, moved up to its beginning where no repeat holds
 * them. Never longer than the plan. Null where it cannot be cut so.
 */
export function thinnedPlan(job: LayJob, plan: LayPlan, pieces: readonly number[]): LayPlan | null {
  const rest = jobFor(job, pieces);
  const placed = rest.pieces.map((p) => plan.placed.find((at) => at.panel === p.panel && at.copy === p.copy));
  if (placed.length === 0 || placed.includes(undefined)) return null;
  const kept = placed as Placement[];
  const first = Math.min(...rest.pieces.map((p, i) => boxOfPoints(placedOutline(p, kept[i]!)).minX));
  const moved = job.repeat.along > 0 ? kept : kept.map((at) => ({ ...at, x: at.x - first }));
  return checkedPlan(rest, moved) ?? checkedPlan(rest, kept);
}
