import { add, cross, mix, scale, subtract, unit } from '../geometry';
import type { Box, Line, Polyline, Pt } from '../geometry';

/** The inside of a panel as straight-sided rings: outer ring and holes, counted by the even-odd rule. */
export type Rings = readonly Polyline[];

/** Whether p lies inside; points on the border may fall either way. */
export function holdsPoint(rings: Rings, [x, y]: Pt): boolean {
  let inside = false;
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
      const [a, b] = [ring[i]!, ring[j]!];
      if (a[1] > y !== b[1] > y && x < ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
    }
  }
  return inside;
}

/** Whether the stretch from a to b has a point in the box: it may not lie beyond a side, nor all corners on one side of it. */
export function entersBox(a: Pt, b: Pt, box: Box): boolean {
  const [ax, ay] = a;
  const [bx, by] = b;
  if ((ax < box.minX && bx < box.minX) || (ax > box.maxX && bx > box.maxX)) return false;
  if ((ay < box.minY && by < box.minY) || (ay > box.maxY && by > box.maxY)) return false;
  const [dx, dy] = [bx - ax, by - ay];
  const c1 = dx * (box.minY - ay) - dy * (box.minX - ax);
  const c2 = dx * (box.minY - ay) - dy * (box.maxX - ax);
  const c3 = dx * (box.maxY - ay) - dy * (box.minX - ax);
  const c4 = dx * (box.maxY - ay) - dy * (box.maxX - ax);
  return !((c1 > 0 && c2 > 0 && c3 > 0 && c4 > 0) || (c1 < 0 && c2 < 0 && c3 < 0 && c4 < 0));
}

/** Whether any side of the rings has a point in the box. */
export function sidesEnterBox(rings: Rings, box: Box): boolean {
  return rings.some((ring) => ring.some((p, i) => entersBox(p, ring[(i + 1) % ring.length]!, box)));
}

/** Whether the whole box lies inside. */
export const holdsBox = (rings: Rings, box: Box): boolean =>
  holdsPoint(rings, [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]) && !sidesEnterBox(rings, box);

/** The parts of the stretch from a to b that lie inside, in order along it. */
export function partsInside(rings: Rings, [a, b]: Line): Line[] {
  const d = subtract(b, a);
  const stops = [0, 1];
  for (const ring of rings) {
    ring.forEach((p, i) => {
      const e = subtract(ring[(i + 1) % ring.length]!, p);
      const turn = cross(d, e);
      if (turn === 0) return;
      const t = cross(subtract(p, a), e) / turn;
      const u = cross(subtract(p, a), d) / turn;
      if (t > 0 && t < 1 && u >= 0 && u <= 1) stops.push(t);
    });
  }
  stops.sort((s, t) => s - t);
  const spans: [number, number][] = [];
  for (let i = 0; i + 1 < stops.length; i += 1) {
    const [from, to] = [stops[i]!, stops[i + 1]!];
    if (to - from < 1e-9 || !holdsPoint(rings, mix(a, b, (from + to) / 2))) continue;
    const last = spans[spans.length - 1];
    if (last && from - last[1] < 1e-9) last[1] = to;
    else spans.push([from, to]);
  }
  return spans.map(([from, to]): Line => [mix(a, b, from), mix(a, b, to)]);
}

/** The straight line through p in a direction, long enough to leave any garment, mm. */
export function longLine(p: Pt, direction: Pt, reach = 6000): Line {
  const u = unit(direction);
  return [add(p, scale(u, -reach)), add(p, scale(u, reach))];
}
