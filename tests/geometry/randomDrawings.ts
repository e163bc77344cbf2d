import { pathThrough, type Curve, type Path, type Pt, type Ring } from '../../src/geometry';

/** Random numbers 0..1 from a seed (mulberry32, public domain). */
export function randomFrom(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Drawing {
  readonly outline: Ring;
  /** As drawn. */
  readonly lines: readonly Path[];
  /** The same lines, their ends drawn through what they end on, for a checker that cannot join. */
  readonly through: readonly Path[];
}

const between = (random: () => number, a: number, b: number): number => a + (b - a) * random();
const polar = (r: number, angle: number): Pt => [r * Math.cos(angle), r * Math.sin(angle)];

/** Corners round the origin, about 100 to 300 mm from it. */
function corners(random: () => number, count: number, roughness: number): Pt[] {
  return Array.from({ length: count }, (_, i) =>
    polar(300 * (1 - roughness * random()), ((i + between(random, -0.3, 0.3)) / count) * 2 * Math.PI),
  );
}

/** A closed curve through corners, smooth at each (Catmull–Rom handles). */
export function smoothRing(points: readonly Pt[], tension = 1 / 6): Ring {
  const n = points.length;
  return points.map((p, i): Curve => {
    const [before, next, after] = [points[(i + n - 1) % n]!, points[(i + 1) % n]!, points[(i + 2) % n]!];
    return [
      p,
      [p[0] + (next[0] - before[0]) * tension, p[1] + (next[1] - before[1]) * tension],
      [next[0] - (after[0] - p[0]) * tension, next[1] - (after[1] - p[1]) * tension],
      next,
    ];
  });
}

export function randomOutline(random: () => number, curved: boolean): Ring {
  const kind = random();
  if (kind < 0.15)
    return pathThrough(
      [
        [-200, -250],
        [200, -250],
        [200, 250],
        [-200, 250],
      ],
      true,
    );
  const points = corners(random, 4 + Math.floor(random() * 14), kind < 0.6 ? 0.3 : 0.7);
  return curved && kind < 0.9 ? smoothRing(points, between(random, 0.05, 0.16)) : pathThrough(points, true);
}

/** A line from a to b, bent by chance when curved. */
function lineFrom(random: () => number, a: Pt, b: Pt, curved: boolean): Path {
  if (!curved || random() < 0.3) return [[a, b]];
  const bend = (): Pt => [between(random, -120, 120), between(random, -120, 120)];
  const at = (t: number, d: Pt): Pt => [a[0] + (b[0] - a[0]) * t + d[0], a[1] + (b[1] - a[1]) * t + d[1]];
  return [[a, at(1 / 3, bend()), at(2 / 3, bend()), b]];
}

const directionAtEnd = (path: Path): Pt => {
  const c = path.at(-1)!;
  const [p, q] = [c[c.length - 2]!, c[c.length - 1]!];
  const l = Math.hypot(q[0] - p[0], q[1] - p[1]);
  return [(q[0] - p[0]) / l, (q[1] - p[1]) / l];
};

/** The path with its end moved along its own direction: cut short (negative) is done by the caller choosing the end. */
const lengthened = (path: Path, by: number): Path => {
  const c = path.at(-1)!;
  const [d, q] = [directionAtEnd(path), c[c.length - 1]!];
  return [...path, [q, [q[0] + d[0] * by, q[1] + d[1] * by]]];
};

const bezier = (c: Curve, t: number): Pt => {
  const u = 1 - t;
  const w = c.length === 2 ? [u, t] : [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return [c.reduce((s, p, i) => s + p[0] * w[i]!, 0), c.reduce((s, p, i) => s + p[1] * w[i]!, 0)];
};

/** A random spot on a path, and the direction of the path there. */
function spotOn(random: () => number, target: Path): { at: Pt; way: Pt } {
  const curve = target[Math.floor(random() * target.length)]!;
  const t = between(random, 0.05, 0.95);
  const [p, q] = [bezier(curve, t - 1e-4), bezier(curve, t + 1e-4)];
  const l = Math.hypot(q[0] - p[0], q[1] - p[1]);
  return { at: bezier(curve, t), way: [(q[0] - p[0]) / l, (q[1] - p[1]) / l] };
}

/** Whether a path's end meets a direction so flatly that drawing it a little farther would not get it across. */
const isFlat = (path: Path, way: Pt): boolean => {
  const d = directionAtEnd(path);
  return Math.abs(d[0] * way[1] - d[1] * way[0]) < 0.1;
};

const reversed = (path: Path): Path => path.toReversed().map((c) => c.toReversed() as unknown as Curve);

/**
 * A line that ends on a random spot of another line or the outline: exactly, a little before it (straight ones) or a little
 * beyond; it begins far outside or exactly on such a spot too.
 */
function endingOn(
  random: () => number,
  targets: readonly Path[],
  curved: boolean,
): { line: Path; through: Path } | null {
  const pick = (): Path => targets[Math.floor(random() * targets.length)]!;
  const spot = spotOn(random, pick());
  const isFar = random() < 0.3;
  const from = isFar
    ? { at: polar(600, random() * 2 * Math.PI), way: [0, 0] as const }
    : spotOn(random, pick());
  const line = lineFrom(random, from.at, spot.at, curved);
  if (isFlat(line, spot.way) || (!isFar && isFlat(reversed(line), from.way))) return null;
  const begun = (path: Path): Path => (isFar ? path : reversed(lengthened(reversed(path), 0.3)));
  const kind = random();
  if (kind < 0.3) return { line: lengthened(line, 0.4), through: begun(lengthened(line, 0.4)) };
  if (kind < 0.6 || line[0]!.length === 4) return { line, through: begun(lengthened(line, 0.3)) };
  const d = directionAtEnd(line);
  return {
    line: [[from.at, [spot.at[0] - 0.5 * d[0], spot.at[1] - 0.5 * d[1]]]],
    through: begun(lengthened(line, 0.3)),
  };
}

const circle = (centre: Pt, r: number): Ring => {
  const k = (r * 4 * (Math.SQRT2 - 1)) / 3;
  const at = (x: number, y: number): Pt => [centre[0] + x, centre[1] + y];
  return [
    [at(r, 0), at(r, k), at(k, r), at(0, r)],
    [at(0, r), at(-k, r), at(-r, k), at(-r, 0)],
    [at(-r, 0), at(-r, -k), at(-k, -r), at(0, -r)],
    [at(0, -r), at(k, -r), at(r, -k), at(r, 0)],
  ];
};

/** A random drawing: straight only, or curved. */
export function randomDrawing(seed: number, curved: boolean): Drawing {
  const random = randomFrom(seed);
  const outline = randomOutline(random, curved);
  const lines: Path[] = [];
  const through: Path[] = [];
  const count = Math.floor(random() * 9);
  for (let i = 0; i < count; i += 1) {
    const kind = random();
    if (kind < 0.5) {
      const a = random() * 2 * Math.PI;
      const line = lineFrom(random, polar(600, a), polar(600, a + between(random, 2.2, 4.1)), curved);
      lines.push(line);
      through.push(line);
    } else if (kind < 0.75) {
      const ending = endingOn(random, [outline, outline, ...lines], curved);
      if (ending) {
        lines.push(ending.line);
        through.push(ending.through);
      }
    } else if (kind < 0.85) {
      const from = outline[Math.floor(random() * outline.length)]![0];
      const line: Path = [[from, polar(600, random() * 2 * Math.PI)]];
      lines.push(line);
      through.push(line);
    } else if (kind < 0.95) {
      const centre = polar(150 * random(), random() * 2 * Math.PI);
      const ring = curved
        ? circle(centre, between(random, 10, 120))
        : pathThrough(
            [0, 1, 2, 3, 4].map((k): Pt => {
              const p = polar(between(random, 30, 120), (k / 5) * 2 * Math.PI);
              return [p[0] + centre[0], p[1] + centre[1]];
            }),
            true,
          );
      lines.push(ring);
      through.push(ring);
    } else if (lines.length > 0) {
      const again = lines[Math.floor(random() * lines.length)]!;
      const line = random() < 0.5 ? again : reversed(again);
      lines.push(line);
      through.push(line);
    }
  }
  return { outline, lines, through };
}
