import type { Panel, PanelId } from '../../panels';
import type { Garment } from '../garment';

/**
 * A garment with its lining and facings: their panels come after all others, by number and in every list of what is cut. Its pieces, seams,
 * steps and neighbours stay those of the outer garment; those of lining and facings are in `extras`. Of what is wrong with these only unsound
 * cutting lines are told: all else is told of the pieces they are cut from.
 */
export function withExtras(garment: Garment, extras: Garment): Garment {
  const both = <K, V>(a: ReadonlyMap<K, V>, b: ReadonlyMap<K, V>): ReadonlyMap<K, V> => new Map([...a, ...b]);
  return {
    ...garment,
    extras,
    panels: [...garment.panels, ...extras.panels],
    panelById: both<PanelId, Panel>(garment.panelById, extras.panelById),
    pieceById: both(garment.pieceById, extras.pieceById),
    cutPieces: [...garment.cutPieces, ...extras.cutPieces],
    plan: { ...garment.plan, numbers: both(garment.plan.numbers, extras.plan.numbers) },
    problems: [...garment.problems, ...extras.problems.filter((p) => p.code === 'cutting-line-unsound')],
  };
}

/** The garment a panel was derived in: the outer one, or that of lining and facings. */
export const homeOf = <G extends object>(
  garment: G & { readonly extras?: Garment | null },
  panel: Pick<Panel, 'piece'>,
): G | Garment => (garment.extras?.pieceById.has(panel.piece) ? garment.extras : garment);
