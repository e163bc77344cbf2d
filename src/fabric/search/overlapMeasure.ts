/**
 * What an overlap counts for its depth (mm): its square root. Small overlaps then weigh comparatively more, so that the last of them are
 * driven out instead of being spread over many pairs; with sizes weighed as in tuning.ts it was measured a little
 * denser than the depth itself (two seeds of four problems, so not certain).
 */
export const overlapFrom = (depth: number): number => Math.sqrt(depth);
