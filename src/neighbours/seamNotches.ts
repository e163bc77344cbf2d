import { nearestOnPath } from '../geometry';
import { type WholePiece, remember, sewnEdge, sewnLengthAt } from '../pattern';

/** A match mark this near an end of its edge marks that end and divides nothing, mm. */
const AT_THE_END = 1;

/** Marks nearer to each other than this, along the edge, are one double notch, mm. Common practice, no source: 6 to 13 mm. */
const DOUBLE_NOTCH = 20;

/**
 * Sewn lengths at which traced notches sit on an edge, from its first end in ring order, mm. On a cut tracing notches are carried
 * square to the stitching line.
 */
export const notchesOn = remember((whole: WholePiece, edge: number): readonly number[] => {
  const own = sewnEdge(whole, edge);
  return whole.notches
    .flatMap(({ at }) => {
      const near = nearestOnPath(whole.stitching, at);
      if (whole.edgeOf[near.index] !== edge) return [];
      return [sewnLengthAt(own, nearestOnPath(own.path, near.point))];
    })
    .filter((s) => s > AT_THE_END && s < own.length - AT_THE_END)
    .sort((a, b) => a - b);
});

/** A single, double … notch: where its middle is and how many marks it has. */
export interface NotchGroup {
  readonly at: number;
  readonly marks: number;
}

/** Notches of an edge with close ones taken together. */
export function notchGroups(whole: WholePiece, edge: number): readonly NotchGroup[] {
  const groups: number[][] = [];
  for (const s of notchesOn(whole, edge)) {
    const last = groups.at(-1);
    if (last && s - last.at(-1)! < DOUBLE_NOTCH) last.push(s);
    else groups.push([s]);
  }
  return groups.map((g) => ({ at: g.reduce((sum, s) => sum + s, 0) / g.length, marks: g.length }));
}
