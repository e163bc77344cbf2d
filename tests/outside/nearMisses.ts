type Point = readonly [number, number];

/**
 * Why a drawing may rightly be read in two ways: brute force over sampled polylines, sharing no code with the subdivision.
 * Only asked where ours and the reference differ.
 * @param outline closed, first point repeated; lines as drawn
 * @returns the reason, null if there is none
 */
export function ambiguityOf(
  outline: readonly Point[],
  lines: readonly (readonly Point[])[],
  joinGap: number,
  merge: number,
): string | null {
  const all = [outline, ...lines];
  for (const [i, line] of lines.entries()) {
    for (const end of [line[0]!, line.at(-1)!]) {
      const near = all.filter((path, k) => k !== i + 1 && distanceTo(path, end) < joinGap).length;
      if (near > 1) return 'an end has two things within the joining gap';
    }
  }
  return all.some((path, i) => comesNear(path, all, i, merge))
    ? 'things pass within the distance of one point'
    : null;
}

function toSegment(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const l2 = dx * dx + dy * dy;
  const t = l2 === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / l2));
  return Math.hypot(a[0] + t * dx - p[0], a[1] + t * dy - p[1]);
}

function distanceTo(path: readonly Point[], p: Point): number {
  let least = Infinity;
  for (let k = 1; k < path.length; k += 1) least = Math.min(least, toSegment(p, path[k - 1]!, path[k]!));
  return least;
}

/** Whether a corner of a path, or a crossing of it with another one, nearly but not quite lies on a third. */
function comesNear(
  path: readonly Point[],
  all: readonly (readonly Point[])[],
  own: number,
  merge: number,
): boolean {
  const isNear = (p: Point, except: readonly number[]): boolean =>
    all.some((other, k) => {
      if (except.includes(k)) return false;
      const d = distanceTo(other, p);
      return d > 1e-6 && d < merge;
    });
  if (path.some((p) => isNear(p, [own]))) return true;
  return all.some((other, k) => k > own && crossings(path, other).some((x) => isNear(x, [own, k])));
}

function crossings(a: readonly Point[], b: readonly Point[]): Point[] {
  const found: Point[] = [];
  for (let i = 1; i < a.length; i += 1) {
    const [p, q] = [a[i - 1]!, a[i]!];
    for (let k = 1; k < b.length; k += 1) {
      const [r, s] = [b[k - 1]!, b[k]!];
      const [ux, uy, vx, vy] = [q[0] - p[0], q[1] - p[1], s[0] - r[0], s[1] - r[1]];
      const turn = ux * vy - uy * vx;
      const t = ((r[0] - p[0]) * vy - (r[1] - p[1]) * vx) / turn;
      const u = ((r[0] - p[0]) * uy - (r[1] - p[1]) * ux) / turn;
      if (t >= 0 && t <= 1 && u >= 0 && u <= 1) found.push([p[0] + t * ux, p[1] + t * uy]);
    }
  }
  return found;
}
