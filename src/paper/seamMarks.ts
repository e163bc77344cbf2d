import { type CurveCuts } from '../garment/telling';
import { add, pathLength, perpendicular, pointAtLength, scale } from '../geometry';
import type { Path, Pt } from '../geometry';
import { ACCENT, INK, SOFT } from './ink';
import { line, stroked } from './marks';
import type { Mark } from './marks';

/** What is sewn now: thick, on a white ground so that it stands out on every cloth. */
export const sewnMarks = (paths: readonly Path[]): Mark[] => [
  stroked(paths, { width: 1.5, colour: '#ffffff' }),
  stroked(paths, { width: 0.9, colour: ACCENT }),
];

/** A short arrow. */
export function arrow(from: Pt, to: Pt, colour: string = INK): Mark[] {
  const way: Pt = [to[0] - from[0], to[1] - from[1]];
  const size = Math.sqrt(way[0] ** 2 + way[1] ** 2) || 1;
  const u: Pt = [way[0] / size, way[1] / size];
  const head = Math.min(1.3, size * 0.45);
  const wing = (side: 1 | -1): Pt =>
    add(add(to, scale(u, -head)), scale(perpendicular(u), side * head * 0.55));
  const stroke = { width: 0.35, colour };
  return [line(from, to, stroke), line(wing(1), to, stroke), line(wing(-1), to, stroke)];
}

/** Arrows across a seam to the side its allowances are pressed to. `side`: 1 the path's right, -1 its left, 0 both. */
export function pressArrows(path: Path, side: 1 | -1 | 0, long: number): Mark[] {
  const length = pathLength(path);
  const sides: readonly (1 | -1)[] = side === 0 ? [1, -1] : [side];
  return [0.25, 0.75].flatMap((share) => {
    const { point, direction } = pointAtLength(path, length * share);
    return sides.flatMap((s) => {
      const square = scale(perpendicular(direction), s);
      const [from, to] = [add(point, scale(square, 0.7)), add(point, scale(square, 0.7 + long))];
      // ink on a breath of white reads on light and dark cloth
      return [line(from, to, { width: 1, colour: '#ffffff' }), ...arrow(from, to)];
    });
  });
}

/** A path moved to one side by so many mm, as a dashed line: the edge of an allowance that lies there. */
export function allowanceEdge(path: Path, side: 1 | -1, width: number): Mark {
  const length = pathLength(path);
  const n = Math.max(2, Math.ceil(length / 2));
  const points = Array.from({ length: n + 1 }, (_, i): Pt => {
    const { point, direction } = pointAtLength(path, (length * i) / n);
    return add(point, scale(perpendicular(direction), side * width));
  });
  const dashed: Path = points.slice(1).map((p, i) => [points[i]!, p] as const);
  return stroked([dashed], { width: 0.2, colour: SOFT, dash: [0.9, 0.6] });
}

/**
 * Clips as strokes, notched-out wedges as small arrowheads, on the outside of an edge run in ring order.
 * @param scaleOf page mm per mm of cloth
 */
export function cutMarks(path: Path, cuts: readonly CurveCuts[], scaleOf: number): Mark[] {
  const stroke = { width: 0.3, colour: INK };
  return cuts.flatMap(({ kind, from, length, spacing }) => {
    const every = Math.max(spacing * scaleOf, 1.2);
    const n = Math.max(1, Math.floor((length * scaleOf) / every));
    return Array.from({ length: n }).flatMap((_, i): Mark[] => {
      const { point, direction } = pointAtLength(path, from * scaleOf + (length * scaleOf * (i + 0.5)) / n);
      const out = scale(perpendicular(direction), -1);
      const far = (along: number): Pt => add(add(point, scale(out, 1.5)), scale(direction, along));
      const near = add(point, scale(out, 0.55));
      if (kind === 'clip') return [line(near, far(0), stroke)];
      return [line(near, far(0.4), stroke), line(near, far(-0.4), stroke)];
    });
  });
}

/** A match mark: one, two … strokes outwards. */
export function notchMarks(at: Pt, outward: Pt, marks: number): Mark[] {
  const beside: Pt = [-outward[1], outward[0]];
  return Array.from({ length: marks }, (_, i): Mark => {
    const foot = add(at, scale(beside, (i - (marks - 1) / 2) * 0.75));
    return line(foot, add(foot, scale(outward, 1.7)), { width: 0.35, colour: INK });
  });
}

/** A zip: a thick line with teeth. */
export const zipStroke = (paths: readonly Path[]): Mark[] =>
  paths.length === 0
    ? []
    : [
        stroked(paths, { width: 1.9, colour: '#ffffff' }),
        stroked(paths, { width: 1.4, colour: ACCENT, dash: [0.35, 0.45] }),
        stroked(paths, { width: 0.3, colour: ACCENT }),
      ];
