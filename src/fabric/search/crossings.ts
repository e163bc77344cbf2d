/** Where the straight stretches x0, y0, x1, y1 (x0 ≤ x1) of edge lists cross lines and each other: appended to `out` as x, y. */

/** A share of a stretch: rounding. */
const ROUNDING = 1e-9;

/** Stretch k of e with the line at y along the cloth; both ends of one that lies on it. */
export function pushAlong(out: number[], e: Float64Array, k: number, y: number): void {
  const y0 = e[k + 1]!;
  const y1 = e[k + 3]!;
  if ((y0 < y && y1 < y) || (y0 > y && y1 > y)) return;
  if (y0 === y1) out.push(e[k]!, y, e[k + 2]!, y);
  else out.push(e[k]! + ((e[k + 2]! - e[k]!) * (y - y0)) / (y1 - y0), y);
}

/** Stretch k of e with the line at x across the cloth; both ends of one that lies on it. */
export function pushAcross(out: number[], e: Float64Array, k: number, x: number): void {
  const x0 = e[k]!;
  const x1 = e[k + 2]!;
  if (x0 > x || x1 < x) return;
  if (x0 === x1) out.push(x, e[k + 1]!, x, e[k + 3]!);
  else out.push(x, e[k + 1]! + ((e[k + 3]! - e[k + 1]!) * (x - x0)) / (x1 - x0));
}

/** Stretch i of a with stretch j of b, where that is left of `limit`. */
export function pushCrossing(
  out: number[],
  a: Float64Array,
  i: number,
  b: Float64Array,
  j: number,
  limit: number,
): void {
  const [ax, ay, bx, by] = [a[i]!, a[i + 1]!, b[j]!, b[j + 1]!];
  const [ux, uy, vx, vy] = [a[i + 2]! - ax, a[i + 3]! - ay, b[j + 2]! - bx, b[j + 3]! - by];
  if (Math.max(ay, ay + uy) < Math.min(by, by + vy) || Math.min(ay, ay + uy) > Math.max(by, by + vy)) return;
  const turn = ux * vy - uy * vx;
  if (turn === 0) return;
  const t = ((bx - ax) * vy - (by - ay) * vx) / turn;
  const s = ((bx - ax) * uy - (by - ay) * ux) / turn;
  if (t < -ROUNDING || t > 1 + ROUNDING || s < -ROUNDING || s > 1 + ROUNDING) return;
  const x = ax + t * ux;
  if (x < limit) out.push(x, ay + t * uy);
}
