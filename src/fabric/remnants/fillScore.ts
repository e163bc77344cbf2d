import { SAVED_LENGTH } from '../../geometry';
import { restOf } from './fillCloths';
import type { Fill } from './fillCloths';
import type { FillSpace } from './fillSpace';

/** How good a fill is, before the rest is laid: what it leaves to buy, and how much of one's own cloth it cuts into. */
export interface FillScore {
  /** Pieces left over that are wider than the cloth that is bought. */
  readonly stranded: number;
  /** What the rest takes of the bought cloth at about this density, mm. */
  readonly bought: number;
  /** Cloths cut into. */
  readonly touched: number;
  /** Their area, mm²: what is not cut into stays whole. */
  readonly area: number;
}

/** @param density of the bought cloth's first plan, 0..1; what is bought at least for a rest of that area */
export function scoreOf(space: FillSpace, fill: Fill, density: number): FillScore {
  const across = space.job.width - 2 * space.job.margin;
  const least = restOf(space, fill).map((piece) => {
    const forms = space.turns[piece]!.filter((form) => form.width <= across);
    return {
      area: space.areaOf(piece),
      length: Math.min(...forms.map((s) => s.length)),
      width: Math.min(...forms.map((s) => s.width)),
    };
  });
  const fitting = least.filter(({ length }) => length < Infinity);
  const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);
  // those wider than half of it lie one behind the other
  const inARow = sum(fitting.filter(({ width }) => 2 * width > across).map(({ length }) => length));
  const touched = space.cloths.filter((_, c) => fill[c]!.length > 0);
  return {
    stranded: least.length - fitting.length,
    bought: Math.max(
      inARow,
      sum(fitting.map(({ area }) => area)) / across / density,
      ...fitting.map(({ length }) => length),
    ),
    touched: touched.length,
    area: sum(touched.map(({ area }) => area)),
  };
}

/** Negative where a is better: least bought first, then least cut into. */
export function compareScores(a: FillScore, b: FillScore): number {
  if (a.stranded !== b.stranded) return a.stranded - b.stranded;
  if (Math.abs(a.bought - b.bought) > SAVED_LENGTH) return a.bought - b.bought;
  return a.touched - b.touched || a.area - b.area || a.bought - b.bought;
}
