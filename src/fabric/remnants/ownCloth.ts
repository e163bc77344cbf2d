import type { Polyline, Pt } from '../../geometry';
import { boxOfPoints, signedAreaOfPoints } from '../../geometry';
import type { ColourId, Remnant } from '../../pattern';
import type { ClothShape } from '../layPlan';

/** The pieces of cloth of one colour that one owns, every copy one of its own, in the user's order; outlines moved to 0, 0. */
export function ownCloths(remnants: readonly Remnant[], colour: ColourId): ClothShape[] {
  return remnants
    .filter((remnant) => remnant.colour === colour)
    .flatMap(({ id, outline, count }) => {
      const { minX, minY } = boxOfPoints(outline);
      const moved = outline.map(([x, y]): Pt => [x - minX, y - minY]);
      return Array.from({ length: count }, (_, i) => ({ remnant: id, copy: i + 1, outline: moved }));
    });
}

/** How far along the boundary of the box 0, 0 … length, width a point of it lies: top, right, bottom, left; null inside. */
function alongBox([x, y]: Pt, length: number, width: number): number | null {
  if (y === 0) return x;
  if (x === length) return length + y;
  if (y === width) return 2 * length + width - x;
  return x === 0 ? 2 * (length + width) - y : null;
}

/** Corners of the box met on the way along its boundary from one place on it to another. */
function cornersBetween(from: number, to: number, length: number, width: number): Pt[] {
  const round = 2 * (length + width);
  const corners: readonly (readonly [number, Pt])[] = [
    [0, [0, 0]],
    [length, [length, 0]],
    [length + width, [length, width]],
    [2 * length + width, [0, width]],
  ];
  const reach = (to - from + round) % round;
  return corners
    .map(([at, p]) => [(at - from + round) % round, p] as const)
    .filter(([on]) => on > 0 && on < reach)
    .sort((a, b) => a[0] - b[0])
    .map(([, p]) => p);
}

/**
 * What of its box a piece of cloth lacks: simple polygons, signedArea > 0, none for a rectangle. Where the outline leaves the
 * boundary of its box and comes back to it, it cuts one such pocket off.
 * @param outline simple, signedArea > 0, its box from 0, 0
 */
export function pocketsOf(outline: Polyline): Polyline[] {
  const { maxX: length, maxY: width } = boxOfPoints(outline);
  const places = outline.map((p) => alongBox(p, length, width));
  const first = places.findIndex((place) => place !== null);
  const pockets: Polyline[] = [];
  let run: Pt[] = [outline[first]!];
  let from = places[first]!;
  for (let step = 1; step <= outline.length; step += 1) {
    const i = (first + step) % outline.length;
    const [p, to] = [outline[i]!, places[i]!];
    run.push(p);
    if (to === null) continue;
    // back along the outline, then forth along the box: on the other side of the outline from the cloth
    const pocket = [...run.reverse(), ...cornersBetween(from, to, length, width)];
    if (signedAreaOfPoints(pocket) > 0) pockets.push(pocket);
    run = [p];
    from = to;
  }
  return pockets;
}
