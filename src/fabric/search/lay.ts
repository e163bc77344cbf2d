import type { LaySpace, LayState } from './laySpace';
import type { LayShape } from './layShape';

/** A sound lay and its length, mm. */
export interface Lay {
  readonly state: LayState;
  readonly length: number;
}

export const layOf = (space: LaySpace, state: LayState): Lay => ({ state, length: space.lengthOf(state) });

/** The largest of a piece's measures first; ties in the job's order. */
export function orderBy(space: LaySpace, measure: (shape: LayShape) => number): number[] {
  const of = (i: number): number => measure(space.shapes[space.turns[i]![0]!]!);
  return Array.from({ length: space.count }, (_, i) => i).sort((i, j) => of(j) - of(i) || i - j);
}

/** Whether no lay can be shorter, but for rounding. */
export const isShortest = (space: LaySpace, lay: Lay): boolean =>
  lay.length <= space.leastLength * (1 + 1e-9);
