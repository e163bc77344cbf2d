import { signedAreaOfPoints } from '../../geometry';
import type { PanelId } from '../../panels';
import { remember, type ColourId, type Remnant, type RemnantId } from '../../pattern';
import type { ClothPlan, ClothShape, LayJob, LayPlan } from '../layPlan';
import { clothsItFits, nearestMisfit } from './fitsOn';
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
type Alone = Pick<OwnClothUse, 'fitting' | 'area' | 'left'>;

/** That of every remnant, worked out once for all of them: `remember` keeps few results for one job, and there may be many remnants. */
const aloneOn = remember((job: LayJob, cloths: readonly ClothShape[]): ReadonlyMap<RemnantId, Alone> => {
  const firsts = cloths.filter(({ copy }) => copy === 1);
  const fitting = new Map<ClothShape, number[]>(firsts.map((cloth) => [cloth, []]));
  for (const piece of job.pieces)
    for (const cloth of clothsItFits(job, piece, firsts)) fitting.get(cloth)!.push(piece.number);
  return new Map(
    firsts.map((cloth) => [
      cloth.remnant,
      {
        fitting: [...new Set(fitting.get(cloth))].sort((a, b) => a - b),
        area: Math.abs(signedAreaOfPoints(cloth.outline)),
        left: leftOver(cloth, []),
      },
    ]),
  );
});

/** One's own cloths of a colour, the very same objects as long as the remnants are. */
const clothsOf = remember((remnants: readonly Remnant[], colour: ColourId) => ownCloths(remnants, colour));

const nameOfCopy = ({ remnant, copy }: ClothShape): string => `${remnant} ${copy}`;

/** Every piece of one's own cloth of a job's colour, in the user's order, with what lies on it and what is left. */
export const ownClothUses = remember(
  (job: LayJob, plan: ClothPlan, remnants: readonly Remnant[]): readonly OwnClothUse[] => {
    const byId = new Map(remnants.map((remnant) => [remnant.id, remnant]));
    const cloths = clothsOf(remnants, job.colour);
    const alone = aloneOn(job, cloths);
    const plans = new Map(plan.own.map((own) => [nameOfCopy(own.within!), own]));
    const numberOf = new Map(job.pieces.map(({ panel, number }) => [panel, number]));
    return cloths.map((cloth) => {
      const { name, count } = byId.get(cloth.remnant)!;
      const whole = alone.get(cloth.remnant)!;
      const own = plans.get(nameOfCopy(cloth)) ?? null;
      const numbers = (own?.placed ?? []).map(({ panel }) => numberOf.get(panel)!);
      return {
        ...whole,
        cloth,
        name,
        of: count,
        plan: own,
        panels: numbers.sort((a, b) => a - b),
        left: own ? leftOver(cloth, outlinesOn(job, own)) : whole.left,
      };
    });
  },
);

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
