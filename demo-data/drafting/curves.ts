/** Drafting aids: what a cutter does with a curve stick and a square. All mm, y down. */
import {
  add,
  curveLength,
  endOf,
  nearestOnPath,
  pathLength,
  pointAt,
  pointAtLength,
  refAtLength,
  scale,
  subPath,
  subtract,
  transformPath,
  unit,
} from '../../src/geometry';
import type { Curve, Line, Path, Pt } from '../../src/geometry';

/** Unit vector at an angle in degrees: 0 is +x, 90 is down the page. */
export const heading = (degrees: number): Pt => [
  Math.cos((degrees * Math.PI) / 180),
  Math.sin((degrees * Math.PI) / 180),
];

/** A point `length` from `from` in a direction (any length of vector). */
export const along = (from: Pt, direction: Pt, length: number): Pt =>
  add(from, scale(unit(direction), length));

/** A cubic that leaves `a` in direction `out` and arrives at `b` coming from direction `back`, handles of the given lengths. */
export const sweepBetween = (
  a: Pt,
  out: Pt,
  outLength: number,
  b: Pt,
  back: Pt,
  backLength: number,
): Curve => [a, along(a, out, outLength), along(b, back, backLength), b];

/** p turned about a centre; positive degrees turn +x towards +y. */
export function turnAbout(p: Pt, centre: Pt, degrees: number): Pt {
  const [c, s] = heading(degrees);
  const [x, y] = subtract(p, centre);
  return add(centre, [c * x - s * y, s * x + c * y]);
}

export const shiftPath = (path: Path, by: Pt): Path => transformPath(path, [1, 0, 0, 1, by[0], by[1]]);

/** Where a path that runs down the page crosses a height. @throws RangeError if it does not */
export function crossingAtHeight(path: Path, y: number): Pt {
  for (const c of path) {
    const [y0, y1] = [c[0][1] - y, pointAt(c, 1)[1] - y];
    if (y0 * y1 > 0 || y0 === y1) continue;
    let [low, high] = [0, 1];
    for (let i = 0; i < 60; i += 1) {
      const t = (low + high) / 2;
      if ((pointAt(c, t)[1] - y) * y0 > 0) low = t;
      else high = t;
    }
    return [pointAt(c, low)[0], y];
  }
  throw new RangeError(`the path does not cross height ${y}`);
}

/** The value between low and high at which a growing measure reaches its target. @throws RangeError if it is out of reach */
export function solveFor(
  measure: (value: number) => number,
  target: number,
  low: number,
  high: number,
): number {
  if (measure(low) > target || measure(high) < target) throw new RangeError(`${target} is out of reach`);
  let [a, b] = [low, high];
  for (let i = 0; i < 60; i += 1) {
    const middle = (a + b) / 2;
    if (measure(middle) < target) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** A match mark at a distance along an edge (from its end when negative), 6 mm long, pointing into the piece at `inside`. */
export function notchAt(edge: Path, distance: number, inside: Pt): Line {
  const { point, direction } = pointAtLength(edge, distance < 0 ? pathLength(edge) + distance : distance);
  const square: Pt = [-direction[1], direction[0]];
  const inwards = square[0] * (inside[0] - point[0]) + square[1] * (inside[1] - point[1]) > 0 ? 1 : -1;
  return [point, along(point, scale(square, inwards), 6)];
}

/** A match mark on an edge at a given height. */
export const notchAtHeight = (edge: Path, y: number, inside: Pt): Line =>
  notchAt(edge, distanceTo(edge, crossingAtHeight(edge, y)), inside);

/** Arc length from an edge's start to the place nearest to p. */
export function distanceTo(edge: Path, p: Pt): number {
  const near = nearestOnPath(edge, p);
  return (
    edge.slice(0, near.index).reduce((sum, c) => sum + curveLength(c), 0) +
    curveLength(edge[near.index]!, 0, near.t)
  );
}

/** The first `distance` of an edge and the rest of it. */
export function cutEdge(edge: Path, distance: number): [Path, Path] {
  const at = refAtLength(edge, distance);
  return [subPath(edge, { index: 0, t: 0 }, at), subPath(edge, at, { index: edge.length - 1, t: 1 })];
}

export const lineTo = (path: Path, p: Pt): Path => [...path, [endOf(path), p]];
