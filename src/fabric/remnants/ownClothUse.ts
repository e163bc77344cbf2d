import { signedAreaOfPoints } from '../../geometry';
import type { PanelId } from '../../panels';
import { remember, type ColourId, type Remnant } from '../../pattern';
import type { ClothPlan, ClothShape, LayJob, LayPlan } from '../layPlan';
import { fitsAlone, nearestMisfit } from './fitsOn';
import type { Misfit } from './fitsOn';
import { leftOver, outlinesOn } from './leftOver';
import type { LeftOver } from './leftOver';
import { ownCloths } from './ownCloth';

/** What becomes of one piece of one's own cloth. */
export interface OwnClothUse {
  readonly cloth: ClothShape;
  /** As its owner calls it. */
  readonly name: string;
  /** How many alike there are. */
  readonly of: number;
  /** Null: nothing is cut from it. */
  readonly plan: LayPlan | null;
  /** Numbers of the panels cut from it, one for each piece, in their order. */
  readonly panels: readonly number[];
  /** Numbers of the panels that would fit it if they had it to themselves, in order, each once. */
  readonly fitting: readonly number[];
  /** mm² */
  readonly area: number;
  readonly left: LeftOver;
}

/** A panel that fits none of one's own cloths, and the one it comes nearest to. */
export interface Unfitting extends Misfit {
  readonly panel: PanelId;
  readonly number: number;
}

/** What of a piece of cloth does not change while plans get better. */
const aloneOn = remember(
  (job: LayJob, cloth: ClothShape): Pick<OwnClothUse, 'fitting' | 'area' | 'left'> => ({
    fitting: [
      ...new Set(job.pieces.filter((piece) => fitsAlone(job, piece, cloth)).map(({ number }) => number)),
    ].sort((a, b) => a - b),
    area: Math.abs(signedAreaOfPoints(cloth.outline)),
    left: leftOver(cloth, []),
  }),
);

/** One's own cloths of a colour, the very same objects as long as the remnants are. */
const clothsOf = remember((remnants: readonly Remnant[], colour: ColourId) => ownCloths(remnants, colour));

/** Every piece of one's own cloth of a job's colour, in the user's order, with what lies on it and what is left. */
export function ownClothUses(job: LayJob, plan: ClothPlan, remnants: readonly Remnant[]): OwnClothUse[] {
  const byId = new Map(remnants.map((remnant) => [remnant.id, remnant]));
  const cloths = clothsOf(remnants, job.colour);
  return cloths.map((cloth) => {
    const { name, count } = byId.get(cloth.remnant)!;
    const isThis = ({ within }: LayPlan): boolean =>
      within!.remnant === cloth.remnant && within!.copy === cloth.copy;
    const own = plan.own.find(isThis) ?? null;
    const alone = aloneOn(
      job,
      cloths.find(({ remnant }) => remnant === cloth.remnant)!,
    );
    const numbers = (own?.placed ?? []).map((at) => job.pieces.find((p) => p.panel === at.panel)!.number);
    return {
      ...alone,
      cloth,
      name,
      of: count,
      plan: own,
      panels: numbers.sort((a, b) => a - b),
      left: own ? leftOver(cloth, outlinesOn(job, own)) : alone.left,
    };
  });
}

/** The panels of a job that fit none of one's own cloths even alone, by number, each once, with what is missing. */
export function unfittingPanels(job: LayJob, remnants: readonly Remnant[]): Unfitting[] {
  const cloths = ownCloths(remnants, job.colour).filter(({ copy }) => copy === 1);
  const seen = new Set<PanelId>();
  return job.pieces.flatMap((piece) => {
    if (seen.has(piece.panel)) return [];
    seen.add(piece.panel);
    const misfit = nearestMisfit(job, piece, cloths);
    return misfit ? [{ ...misfit, panel: piece.panel, number: piece.number }] : [];
  });
}
