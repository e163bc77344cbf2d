import type { Polyline, Pt } from '../../geometry';
import { signedAreaOfPoints } from '../../geometry';
import type { LayJob } from '../layPlan';
import { convexHull, convexParts } from '../noFit/convexParts';
import type { PartedShape } from '../noFit/noFit';
import { cleanOutline, simplifyOutwards } from '../noFit/outerOutline';

/** How much of a remnant's edge (mm) the search may give away at bulges and hollows: always inwards. */
const SLACK = { hollow: 1, outer: 1 };

const flat = (points: Polyline): Float64Array => Float64Array.from(points.flat());

/** The outline with fewer corners, never larger. The plane outside is what grows, so the ring is run backwards. */
function simplifyInwards(outline: Polyline): Pt[] {
  const few = simplifyOutwards([...outline].reverse(), SLACK).reverse();
  return few.length >= 3 && signedAreaOfPoints(few) > 0 ? few : [...outline];
}

/** What is cut off a box by the line through a and b, on the side away from the inside. */
function beyond(a: Pt, b: Pt, box: Polyline): Pt[] {
  const side = (p: Pt): number => (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
  return box.flatMap((p, i): Pt[] => {
    const q = box[(i + 1) % box.length]!;
    const [s, t] = [side(p), side(q)];
    const k = s / (s - t);
    const cut: Pt[] = s < 0 !== t < 0 ? [[p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k]] : [];
    return s <= 0 ? [p, ...cut] : cut;
  });
}

/** Between the outline and its hull: one polygon per hull edge that is not an edge of the outline. */
function pockets(outline: readonly Pt[], hull: readonly Pt[]): Pt[][] {
  const n = outline.length;
  const at = hull.map((h) => outline.indexOf(h));
  return at.flatMap((i, k) => {
    const j = at[(k + 1) % at.length]!;
    const between = (j - i + n) % n;
    if (between < 2) return [];
    return [Array.from({ length: between + 1 }, (_, s) => outline[(i + s) % n]!).reverse()];
  });
}

/** The same upside down, about the fold. */
const mirrored = (rings: readonly Pt[][], width: number): Pt[][] =>
  rings.map((ring) => ring.map(([x, y]): Pt => [x, width - y]).reverse());

/**
 * The plane around one's own piece of cloth, as far out as the cloth is large, as a shape that never moves: a piece that does
 * not overlap it lies on the cloth, on a folded one with both layers. Empty where the cloth is a rectangle along x and y.
 * @param outline simple, any direction of run
 */
export function aroundCloth({ width, layering }: LayJob, outline: Polyline, length: number): PartedShape {
  const inside = simplifyInwards(cleanOutline(outline));
  const hull = convexHull(inside);
  const reach = length + width;
  const box: Pt[] = [
    [-reach, -reach],
    [length + reach, -reach],
    [length + reach, width + reach],
    [-reach, width + reach],
  ];
  const isSide = (a: Pt, b: Pt): boolean =>
    (a[0] === b[0] && (a[0] === 0 || a[0] === length)) || (a[1] === b[1] && (a[1] === 0 || a[1] === width));
  const beyondHull = hull.flatMap((a, i) => {
    const b = hull[(i + 1) % hull.length]!;
    return isSide(a, b) ? [] : [beyond(a, b, box)];
  });
  const one = [...pockets(inside, hull).map(cleanOutline), ...beyondHull];
  const rings = layering === 'folded' ? [...one, ...mirrored(one, width)] : one;
  return { outlines: rings.map(flat), parts: rings.flatMap((ring) => convexParts(ring)) };
}
