import type { ConvexPart } from './convexParts';
import { DepthGrid } from './depthGrid';
import type { Meter } from './depthGrid';
import { contactEdges, convexSum, sidesOf, turnedHalf, unionBoundary } from './noFitEdges';

/**
 * Where a moving shape may not be put because of a fixed one: the offsets at which their insides meet, kept as the union of the
 * convex sums of their parts. Its depth at an offset is how far the moving shape must be pushed, at least, to come free.
 */
export type NoFit = DepthGrid;

/**
 * @param parts      convex parts of the region, at least one
 * @param candidates stretches x, y, dx, dy that its boundary is among
 */
function regionOf(parts: readonly ConvexPart[], candidates: readonly number[], meter: Meter): NoFit {
  const sides = sidesOf(parts);
  const partStarts = [0];
  for (const { planes } of sides) partStarts.push(partStarts.at(-1)! + planes.length);
  const planes = new Float64Array(partStarts.at(-1)!);
  sides.forEach((s, i) => planes.set(s.planes, partStarts[i]));
  const edges = unionBoundary(candidates, sides);
  const boxes = sides.map((s) => s.box);
  const box = {
    minX: Math.min(...boxes.map((b) => b.minX)),
    minY: Math.min(...boxes.map((b) => b.minY)),
    maxX: Math.max(...boxes.map((b) => b.maxX)),
    maxY: Math.max(...boxes.map((b) => b.maxY)),
  };
  return new DepthGrid({ ...box, planes, partStarts, edges }, meter);
}

/** A polygon, or several that overlap, as its outlines and as the convex parts of its inside. */
export interface PartedShape {
  /** Corner coordinates x0, y0, x1, y1 …, positive area; usually one outline. */
  readonly outlines: readonly Float64Array[];
  readonly parts: readonly ConvexPart[];
}

/**
 * Offsets of `moving` from `fixed` (both about their own origins) at which their insides meet.
 * @param meter where the work of later questions is counted
 */
export function noFitOf(fixed: PartedShape, moving: PartedShape, meter: Meter = { work: 0 }): NoFit {
  const turned = moving.parts.map(turnedHalf);
  const turnedOutlines = moving.outlines.map(turnedHalf);
  const candidates = fixed.outlines.flatMap((p) => turnedOutlines.flatMap((q) => contactEdges(p, q)));
  return regionOf(
    fixed.parts.flatMap((p) => turned.map((q) => convexSum(p, q))),
    candidates,
    meter,
  );
}
