import {
  CORNER_TURN,
  type Path,
  type Pt,
  cross,
  directionAt,
  dot,
  flattenPath,
  pathLength,
  subtract,
  unit,
} from '../geometry';

/**
 * How much longer a hem's raw edge may be than what it is sewn to before it is a hint, as a share: our own bound, common practice, no source.
 * That a deep hem on a flare must be eased: American Sewing Guild, "How deep is that hem", 2025-09-12, which gives 1/4 to 3/8 in for full
 * and flared skirts, 2 to 3 in for straight and A-line ones.
 */
export const MOST_HEM_EASE = 0.05;

/**
 * How much longer the raw edge of a hem is than the garment where it lies when turned up, mm; negative where it is shorter. The parallels
 * of a curve `depth` mm to both sides differ by 2 · depth · its whole turning (Steiner's formula for parallel curves).
 * @param hem stitching line of the hem, in ring order; its corners are mitred by the turned-back sides and do not count
 */
export function hemExcess(hem: Path, depth: number): number {
  const directions = hem.flatMap((c): Pt[] => {
    const { points } = flattenPath([c]);
    const chords = points.slice(1).map((p, i) => unit(subtract(p, points[i]!)));
    return [directionAt(c, 0), ...chords, directionAt(c, 1)];
  });
  let turning = 0;
  for (let i = 1; i < directions.length; i += 1) {
    const [u, v] = [directions[i - 1]!, directions[i]!];
    const turn = Math.atan2(cross(u, v), dot(u, v));
    if (Math.abs(turn) < CORNER_TURN) turning += turn;
  }
  return 2 * depth * turning;
}

/** The deepest hem whose raw edge is at most MOST_HEM_EASE longer than what it is sewn to, mm; Infinity on a straight or hollow one. */
export function deepestHem(hem: Path): number {
  const perDepth = hemExcess(hem, 1);
  // excess = perDepth · depth, sewn to: length − perDepth/2 · depth
  return perDepth <= 0 ? Infinity : (MOST_HEM_EASE * pathLength(hem)) / (perDepth * (1 + MOST_HEM_EASE / 2));
}
