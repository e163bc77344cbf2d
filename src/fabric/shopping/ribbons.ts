import type { Trim, Units } from '../../pattern';
import { type TrimRun, usableLength } from '../../trim';
import { counterLength } from './counter';

/** One ribbon, braid or tape to buy. */
export interface Ribbon extends Pick<Trim, 'name' | 'width' | 'fill' | 'kind' | 'shrinkage' | 'soldIn'> {
  /** What is cut of it from washed ribbon, mm. */
  readonly need: number;
  /** What to ask for, mm: rounded up as it is sold, shrinkage counted in. */
  readonly buy: number;
  /** How many pieces of the length it is sold in; null from the roll. */
  readonly pieces: number | null;
  readonly joins: number;
}

/** Runs of the same ribbon: what is bought as one. */
const ribbonKey = ({ name, width, fill, kind, shrinkage, soldIn }: Trim): string =>
  JSON.stringify([name, width, fill, kind, shrinkage, soldIn]);

/** How many pieces of a usable length runs are cut from, longest first, each from the first piece that has enough left. */
function piecesFor(runs: readonly TrimRun[], usable: number): number {
  const left: number[] = [];
  const cuts = runs
    .flatMap(({ length, joins }) => [
      ...Array.from({ length: joins }, () => usable),
      Math.min(usable, length - joins * usable),
    ])
    .sort((a, b) => b - a);
  for (const cut of cuts) {
    const from = left.findIndex((l) => l >= cut - 1e-9);
    if (from < 0) left.push(usable - cut);
    else left[from] = left[from]! - cut;
  }
  return left.length;
}

/**
 * What to buy of each ribbon: the runs of trims that are alike in name, width, colour and kind added up. From the roll need / (1 − s)
 * rounded up as cloth is; else so many pieces of the length it is sold in.
 */
export function ribbonsToBuy(trims: readonly TrimRun[], units: Units): readonly Ribbon[] {
  const alike = new Map<string, TrimRun[]>();
  for (const t of trims) alike.set(ribbonKey(t.trim), [...(alike.get(ribbonKey(t.trim)) ?? []), t]);
  return [...alike.values()].map((runs): Ribbon => {
    const { name, width, fill, kind, shrinkage, soldIn } = runs[0]!.trim;
    const need = runs.reduce((sum, r) => sum + r.length, 0);
    const joins = runs.reduce((sum, r) => sum + r.joins, 0);
    const pieces = soldIn === null ? null : piecesFor(runs, usableLength(runs[0]!.trim));
    const buy = pieces === null ? counterLength(need, shrinkage, units) : pieces * soldIn!;
    return { name, width, fill, kind, shrinkage, soldIn, need, buy, pieces, joins };
  });
}
