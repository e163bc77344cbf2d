import type { Pt } from '../../geometry';
import { CUTS_TOUCH } from '../../geometry';
import type { PanelId } from '../../panels';
import type { ClothPiece, LayJob, Placement } from '../layPlan';
import { boxesWithin, leastDistance, outlineOf, overlapOf } from './outlineOverlap';
import type { Outline } from './outlineOverlap';
import { allowedRotations, normalAngle, placedOutline } from '../placement';

/** What is wrong with a lay: which piece, where on the cloth, by how much (mm, degrees for turns). */
export interface LayFault {
  readonly kind:
    | 'overlap'
    | 'too-close'
    | 'off-the-cloth'
    | 'wrong-turn'
    | 'wrong-side-up'
    | 'missing'
    | 'unknown-piece'
    | 'laid-twice';
  readonly panel: PanelId;
  readonly copy: number;
  /** The other piece of an overlap. */
  readonly other: { readonly panel: PanelId; readonly copy: number } | null;
  readonly by: number;
  readonly at: Pt;
}

interface Laid {
  readonly piece: ClothPiece;
  readonly placement: Placement;
  readonly outline: Outline;
}

const isPiece =
  (p: ClothPiece) =>
  (at: Placement): boolean =>
    at.panel === p.panel && at.copy === p.copy;

const fault = (
  kind: LayFault['kind'],
  { panel, copy }: { readonly panel: PanelId; readonly copy: number },
  by = 0,
  at: Pt = [0, 0],
  other: Laid | null = null,
): LayFault => ({
  kind,
  panel,
  copy,
  by,
  at,
  other: other && { panel: other.piece.panel, copy: other.piece.copy },
});

/** Degrees between two directions. */
const angleBetween = (a: number, b: number): number => Math.abs(normalAngle(a - b));

/** A turn this far (degrees) from an allowed one is rounding. */
const TURN_ROUNDING = 1e-9;

function faultsOfOne({ piece, placement, outline }: Laid, job: LayJob): LayFault[] {
  const out: LayFault[] = [];
  if (!outline.points.every(([x, y]) => Number.isFinite(x + y)))
    return [fault('off-the-cloth', piece, Infinity)];
  const { minX, minY, maxY } = outline.box;
  const over = Math.max(-minX, -minY, maxY - job.width);
  if (over > CUTS_TOUCH) {
    const at = outline.points.find(([x, y]) => x === minX || y === minY || y === maxY) ?? outline.points[0]!;
    out.push(fault('off-the-cloth', piece, over, at));
  }
  const turns = allowedRotations(piece, job.nap).map((r) => angleBetween(r, placement.rotation));
  if (Math.min(...turns) > TURN_ROUNDING)
    out.push(fault('wrong-turn', piece, Math.min(...turns), outline.points[0]!));
  if (placement.flipped !== piece.flipped) out.push(fault('wrong-side-up', piece, 0, outline.points[0]!));
  return out;
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
 * The gate: everything wrong with a lay, judged on the true cutting lines. Empty for a plan that can be cut as drawn.
 * Insides must not meet (touching is allowed), pieces keep the job's gap, all lie on the cloth at x ≥ 0, turned only as
 * the grain allows, mirrored only where the job says so, each piece exactly once. Sides and contacts are decided by exact
 * predicates; a depth up to CUTS_TOUCH is the rounding of the placed coordinates and counts as touching.
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
  return faults;
}
