import type { CutPiece } from '../../allowance';
import type { Panel } from '../../panels';
import type { Colour, ColourId, Design, Problem, RemnantId } from '../../pattern';
import type { Units } from '../../pattern';
import type { ClothPlan, LayPlan } from '../layPlan';
import { squareForBias, stripFor } from './bias';
import { type BuySum, buySumOf } from './counter';
import { costOf } from './price';
import { type Ribbon, ribbonsToBuy } from './ribbons';
import { type SewnSource, type SewnStep, sewnLengths } from './sewnLengths';
import { type Spools, threadFor } from './thread';
import { type ZipToBuy, zipsToBuy } from './zips';

/** What a cloth is for. */
export type ClothUse = 'main' | 'lining' | 'facing' | 'interfacing';

/** What is cut from one of one's own pieces of cloth. */
export interface FromOwnCloth {
  readonly remnant: RemnantId;
  readonly name: string;
  readonly pieces: number;
}

/** One cloth. */
export interface ClothToBuy {
  readonly colour: Colour;
  /** In the order of ClothUse. */
  readonly uses: readonly ClothUse[];
  /** laying: there is no plan yet. none: no plan can be had, `problems` say why. own: all of it comes from one's own cloth. */
  readonly state: 'laying' | 'found' | 'own' | 'none';
  /** The plan of what is bought; null while there is none. */
  readonly plan: LayPlan | null;
  /** How its length comes about; null unless found. */
  readonly sum: BuySum | null;
  readonly own: readonly FromOwnCloth[];
  /** In the user's money; null without a price or a plan. */
  readonly cost: number | null;
  readonly problems: readonly Problem[];
}

/** One ribbon, braid or tape. */
export interface TrimToBuy extends Ribbon {
  /**
   * A square of cloth that gives as much bias strip: its side, and the width of the strip as cut, mm, raw edges to turn in included. Null for
   * other kinds of trim.
   */
  readonly fromSquare: { readonly side: number; readonly strip: number } | null;
}

/** Thread of one colour. */
export interface ThreadToBuy extends Spools {
  /** The cloth or trim it goes with. */
  readonly name: string;
  readonly fill: string;
  /** Stitched with it, mm: seams, darts, edges, hems, zips, rows of trims. */
  readonly sewn: number;
}

/** Everything to buy for a garment. */
export interface ShoppingList {
  readonly units: Units;
  /** In the design's order of colours; only those that something is cut from. */
  readonly cloths: readonly ClothToBuy[];
  readonly trims: readonly TrimToBuy[];
  readonly zips: readonly ZipToBuy[];
  /** In the order in which they are first needed. */
  readonly threads: readonly ThreadToBuy[];
  /** Raw edges of all seams, mm: neatening them takes thread beyond `threads`. */
  readonly rawEdges: number;
  /** Of all cloth that has a price, in the user's money; null where none has. */
  readonly cost: number | null;
  /** Cloths to be bought that have no price. */
  readonly unpriced: readonly ColourId[];
  /** Whether every cloth has its plan, or is known to have none. */
  readonly isComplete: boolean;
}

/** What is shopped for: a garment is one. */
export interface ShoppingSource extends SewnSource {
  readonly design: Design;
  readonly panels: readonly Panel[];
  readonly cutPieces: readonly CutPiece[];
  readonly extras?: (SewnSource & { readonly panels: readonly Panel[] }) | null;
}

/** What a cloth is cut for. Interfacing is cut of the same shapes as the facing it goes into. */
function usesOf({ design, panels, extras }: ShoppingSource, colour: ColourId): ClothUse[] {
  const isExtra = new Set(extras?.panels.map((p) => p.id));
  const isIn = (own: boolean): boolean =>
    panels.some((p) => p.colour === colour && isExtra.has(p.id) !== own);
  const isCutOf = { main: isIn(true), extra: isIn(false) };
  const uses: readonly (readonly [ClothUse, boolean])[] = [
    ['main', isCutOf.main],
    ['lining', isCutOf.extra && design.lining?.colour === colour],
    ['facing', isCutOf.extra && design.facings.some((f) => f.colour === colour)],
    ['interfacing', isExtra.size > 0 && design.facings.some((f) => f.interfacing === colour)],
  ];
  return uses.flatMap(([use, is]) => (is ? [use] : []));
}

function ownCloth({ design }: ShoppingSource, { own }: ClothPlan): FromOwnCloth[] {
  return own.flatMap(({ within, placed }): FromOwnCloth[] => {
    if (within === null || placed.length === 0) return [];
    const of = design.remnants.find((r) => r.id === within.remnant);
    const name = `${of?.name ?? within.remnant}${of && of.count > 1 ? ` ${within.copy}` : ''}`;
    return [{ remnant: within.remnant, name, pieces: placed.length }];
  });
}

function clothToBuy(
  source: ShoppingSource,
  colour: Colour,
  uses: readonly ClothUse[],
  laid: ClothPlan | undefined,
): ClothToBuy {
  const none = { colour, uses, plan: null, sum: null, own: [], cost: null, problems: [] };
  if (!laid) return { ...none, state: 'laying' };
  const own = ownCloth(source, laid);
  const plan = laid.bought;
  const { problems } = plan;
  if (plan.placed.length === 0) {
    const isOwn = problems.length === 0 && own.length > 0;
    return { ...none, plan, own, problems, state: isOwn ? 'own' : 'none', cost: isOwn ? 0 : null };
  }
  const sum = buySumOf(plan.length, colour, source.design.units);
  const cost = colour.price === null ? null : costOf(sum.buy, colour.price);
  return { ...none, plan, own, sum, cost, problems, state: 'found' };
}

function trimsToBuy({ trims, design }: ShoppingSource): TrimToBuy[] {
  return ribbonsToBuy(trims, design.units).map((ribbon): TrimToBuy => {
    if (ribbon.kind !== 'bias') return { ...ribbon, fromSquare: null };
    const strip = stripFor(ribbon.width);
    return { ...ribbon, fromSquare: { side: squareForBias(ribbon.need, strip, design.units), strip } };
  });
}

/** Thread of each colour that something is sewn with. */
function threadsToBuy(steps: readonly SewnStep[]): ThreadToBuy[] {
  const byFill = new Map<string, { name: string; fill: string; sewn: number }>();
  for (const { thread, sewn } of steps) {
    if (sewn === 0) continue;
    const known = byFill.get(thread.fill) ?? { ...thread, sewn: 0 };
    byFill.set(thread.fill, { ...known, sewn: known.sewn + sewn });
  }
  return [...byFill.values()].map((t) => ({ ...t, ...threadFor(t.sewn) }));
}

/**
 * Everything to buy for a garment: cloth by its lay plans, trims, zips and thread. Entries without a plan yet are among them, marked so.
 * @param cloths plans by colour, as far as there are any
 */
export function shoppingList(source: ShoppingSource, cloths: ReadonlyMap<ColourId, ClothPlan>): ShoppingList {
  const { units } = source.design;
  const entries = source.design.colours.flatMap((colour): ClothToBuy[] => {
    const uses = usesOf(source, colour.id);
    return uses.length > 0 ? [clothToBuy(source, colour, uses, cloths.get(colour.id))] : [];
  });
  const steps = sewnLengths(source);
  const priced = entries.flatMap(({ cost }) => cost ?? []);
  return {
    units,
    cloths: entries,
    trims: trimsToBuy(source),
    zips: zipsToBuy(source.closings, steps, units),
    threads: threadsToBuy(steps),
    rawEdges: steps.reduce((sum, s) => sum + s.raw, 0),
    cost: priced.length > 0 ? priced.reduce((sum, c) => sum + c, 0) : null,
    unpriced: entries.filter((c) => c.state === 'found' && c.cost === null).map((c) => c.colour.id),
    isComplete: entries.every((c) => c.state !== 'laying'),
  };
}
