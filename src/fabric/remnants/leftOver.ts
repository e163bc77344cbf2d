import type { Polyline, Pt } from '../../geometry';
import { boxOfPoints, signedAreaOfPoints } from '../../geometry';
import type { ClothShape, LayPlan, LayJob } from '../layPlan';
import { placedOutline } from '../placement';
import { pocketsOf } from './ownCloth';

/** An upright rectangle on a piece of cloth, mm: from x, y (its least corner), `length` along the grain, `width` across. */
export interface ClothRectangle {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

/** What a plan leaves of a piece of one's own cloth. */
export interface LeftOver {
  /** The largest rectangle along the grain that is found free; no rectangle with area: null. Never larger than what is free. */
  readonly rectangle: ClothRectangle | null;
  /** Of all that is left, mm². */
  readonly area: number;
}

/** Size of the squares that the first look is taken in, mm: no less than this, and no more of them along a side than that. */
const SQUARE = 4;
const MOST_SQUARES = 400;

/** Where a closed polygon's sides run strictly between two heights: least and greatest x of each side there. */
function* crossingsOf(points: Polyline, low: number, high: number): Generator<readonly [number, number]> {
  for (const [i, a] of points.entries()) {
    const b = points[(i + 1) % points.length]!;
    const [top, bottom] = a[1] <= b[1] ? [a, b] : [b, a];
    if (bottom[1] <= low || top[1] >= high) continue;
    const at = (y: number): number => top[0] + ((bottom[0] - top[0]) * (y - top[1])) / (bottom[1] - top[1]);
    const isLevel = top[1] === bottom[1];
    const p = isLevel || top[1] >= low ? top[0] : at(low);
    const q = isLevel || bottom[1] <= high ? bottom[0] : at(high);
    yield [Math.min(p, q), Math.max(p, q)];
  }
}

/** Which squares of a row of them are touched by the insides of polygons, or by their sides. */
function markRow(
  row: Uint8Array,
  barred: readonly Polyline[],
  low: number,
  high: number,
  size: number,
): void {
  const mark = (from: number, to: number): void => {
    const last = Math.min(row.length - 1, Math.floor(to / size));
    for (let k = Math.max(0, Math.floor(from / size)); k <= last; k += 1) row[k] = 1;
  };
  const middle = (low + high) / 2;
  for (const points of barred) {
    for (const [from, to] of crossingsOf(points, low, high)) mark(from, to);
    const inside: number[] = [];
    points.forEach((a, i) => {
      const b = points[(i + 1) % points.length]!;
      if (a[1] > middle !== b[1] > middle)
        inside.push(a[0] + ((b[0] - a[0]) * (middle - a[1])) / (b[1] - a[1]));
    });
    inside.sort((a, b) => a - b);
    for (let k = 0; k + 1 < inside.length; k += 2) mark(inside[k]!, inside[k + 1]!);
  }
}

/** Rectangles of free squares (left, top, right, bottom in squares), one per row at most, that are the largest ending there. */
function freeRectangles(rows: readonly Uint8Array[]): [number, number, number, number][] {
  const across = rows[0]!.length;
  const depth = new Int32Array(across + 1);
  const out: [number, number, number, number][] = [];
  rows.forEach((row, y) => {
    for (let x = 0; x < across; x += 1) depth[x] = row[x] === 1 ? 0 : depth[x]! + 1;
    let best: [number, number, number, number] | null = null;
    let most = 0;
    const open: number[] = [];
    for (let x = 0; x <= across; x += 1) {
      while (open.length > 0 && depth[open.at(-1)!]! >= depth[x]!) {
        const high = depth[open.pop()!]!;
        const left = open.length > 0 ? open.at(-1)! + 1 : 0;
        if (high * (x - left) <= most) continue;
        most = high * (x - left);
        best = [left, y - high + 1, x, y + 1];
      }
      open.push(x);
    }
    if (best) out.push(best);
  });
  return out;
}

const turned = (points: Polyline): Pt[] => points.map(([x, y]): Pt => [y, x]);

/** How far right a free rectangle's right side may be moved before the inside of a polygon is met. */
function farthestRight(
  right: number,
  low: number,
  high: number,
  barred: readonly Polyline[],
  end: number,
): number {
  let far = end;
  for (const points of barred)
    for (const [from, to] of crossingsOf(points, low, high))
      if (to >= right && from < far) far = Math.max(right, from);
  return far;
}

/** A free rectangle made as large as it can be, along the cloth first or across it first. */
function grown(
  [x0, y0, x1, y1]: readonly [number, number, number, number],
  barred: readonly Polyline[],
  [length, width]: Pt,
  alongFirst: boolean,
): ClothRectangle {
  const mirrored = (all: readonly Polyline[]): Pt[][] => all.map((ps) => ps.map(([x, y]): Pt => [-x, y]));
  const across = barred.map(turned);
  let [left, top, right, bottom] = [x0, y0, x1, y1];
  const along = (): void => {
    right = farthestRight(right, top, bottom, barred, length);
    left = 0 - farthestRight(-left, top, bottom, mirrored(barred), 0);
  };
  const sideways = (): void => {
    bottom = farthestRight(bottom, left, right, across, width);
    top = 0 - farthestRight(-top, left, right, mirrored(across), 0);
  };
  for (const grow of alongFirst ? [along, sideways] : [sideways, along]) grow();
  return { x: left, y: top, length: right - left, width: bottom - top };
}

/** Rectangles of squares that are looked at closely. */
const LOOKED_AT = 12;

/** The largest upright rectangle found free of all polygons in a box from 0, 0; null where there is none as large as a square. */
function largestFree(barred: readonly Polyline[], length: number, width: number): ClothRectangle | null {
  const size = Math.max(SQUARE, length / MOST_SQUARES, width / MOST_SQUARES);
  const [columns, lines] = [Math.floor(length / size), Math.floor(width / size)];
  if (columns === 0 || lines === 0) return null;
  const rows = Array.from({ length: lines }, (_, k) => {
    const row = new Uint8Array(columns);
    markRow(row, barred, k * size, (k + 1) * size, size);
    return row;
  });
  const area = ([a, b, c, d]: readonly number[]): number => (c! - a!) * (d! - b!);
  const found = freeRectangles(rows)
    .sort((p, q) => area(q) - area(p))
    .slice(0, LOOKED_AT);
  let best: ClothRectangle | null = null;
  for (const [a, b, c, d] of found)
    for (const alongFirst of [true, false]) {
      const sides = [a * size, b * size, c * size, d * size] as const;
      const free = grown(sides, barred, [length, width], alongFirst);
      if (!best || free.length * free.width > best.length * best.width) best = free;
    }
  return best;
}

/** Outlines of what lies on a plan's cloth, in the cloth's frame. */
export const outlinesOn = (job: LayJob, plan: LayPlan | null): Pt[][] =>
  (plan?.placed ?? []).map((at) =>
    placedOutline(
      job.pieces.find((p) => p.panel === at.panel && p.copy === at.copy)!,
      at,
    ),
  );

/**
 * What is left of a piece of one's own cloth.
 * @param laid outlines of the pieces that lie on it, as they were checked
 */
export function leftOver(cloth: ClothShape, laid: readonly Polyline[]): LeftOver {
  const { maxX, maxY } = boxOfPoints(cloth.outline);
  const areaOf = (points: Polyline): number => Math.abs(signedAreaOfPoints(points));
  return {
    rectangle: largestFree([...laid, ...pocketsOf(cloth.outline)], maxX, maxY),
    area: laid.reduce((left, outline) => left - areaOf(outline), areaOf(cloth.outline)),
  };
}
