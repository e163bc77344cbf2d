import type { Curve, Path, Pt } from '../../src/geometry';

/** A path from absolute M, L, C and Z, for tests. A closed one ends exactly where it starts. */
export function readPath(text: string): Path {
  const out: Curve[] = [];
  let [at, start]: [Pt, Pt] = [
    [0, 0],
    [0, 0],
  ];
  for (const [, letter, rest] of text.matchAll(/([MLCZ])([^MLCZ]*)/g)) {
    const n = (rest!.match(/-?[\d.]+/g) ?? []).map(Number);
    const points = Array.from({ length: n.length / 2 }, (_, i): Pt => [n[2 * i]!, n[2 * i + 1]!]);
    if (letter === 'M') start = points[0]!;
    else if (letter === 'L') out.push([at, points[0]!]);
    else if (letter === 'C') out.push([at, points[0]!, points[1]!, points[2]!]);
    else if (at[0] !== start[0] || at[1] !== start[1]) out.push([at, start]);
    at = points.at(-1) ?? start;
  }
  return out;
}
