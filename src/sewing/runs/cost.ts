/**
 * What makes one choice of seams worse than another, the weightiest first: seams left partly open, the user's wishes not met, seams beyond the fewest
 * (closed rounds), corners set in, turning at junctions (whole degrees), and drawing order.
 */
export type Cost = readonly [
  partial: number,
  wishes: number,
  rounds: number,
  corners: number,
  turning: number,
  liking: number,
];

export const NO_COST: Cost = [0, 0, 0, 0, 0, 0];
export const plus = (a: Cost, b: Cost): Cost => a.map((x, i) => x + b[i]!) as unknown as Cost;
export const minus = (a: Cost, b: Cost): Cost => a.map((x, i) => x - b[i]!) as unknown as Cost;

/** Below 0 where `a` is better. */
export function compareCosts(a: Cost, b: Cost): number {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}
