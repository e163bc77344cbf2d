/** Random line plans on a square of 300 mm, from numbers 0..1. Invented. */
import type { Polyline, Pt } from '../../src/geometry';

export type Random = () => number;

/** Random numbers 0..1 that repeat for the same start (a linear congruence, constants of Numerical Recipes). */
export function randomFrom(start: number): Random {
  let state = (start * 2654435761) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

export function shuffled<T>(items: readonly T[], random: Random): T[] {
  const all = [...items];
  for (let i = all.length - 1; i > 0; i -= 1) {
    const k = Math.floor(random() * (i + 1));
    [all[i], all[k]] = [all[k]!, all[i]!];
  }
  return all;
}

/** A grid of n by n cells filled with random rectangles, as cell owners. */
function rectangles(n: number, m: number, largest: number, random: Random): number[][] {
  const owner = Array.from({ length: m }, () => Array<number>(n).fill(-1));
  let next = 0;
  for (let y = 0; y < m; y += 1)
    for (let x = 0; x < n; x += 1) {
      if (owner[y]![x]! >= 0) continue;
      const high = Math.min(m - y, 1 + Math.floor(random() * largest));
      const most = Math.min(n - x, 1 + Math.floor(random() * largest));
      let wide = 1;
      while (wide < most && owner[y]![x + wide]! < 0) wide += 1;
      for (const row of owner.slice(y, y + high)) row.fill(next, x, x + wide);
      next += 1;
    }
  return owner;
}

/** Walls between cells of different owners, as the longest straight lines. */
function walls(owner: readonly (readonly number[])[], size: number): Polyline[] {
  const [m, n] = [owner.length, owner[0]!.length];
  const place = (x: number, y: number): Pt => [(x * size) / n, (y * size) / m];
  const lines: Polyline[] = [];
  const along = (count: number, has: (i: number) => boolean, at: (i: number) => Pt): void => {
    for (let i = 0; i < count; i += 1) {
      if (!has(i)) continue;
      let end = i;
      while (end < count && has(end)) end += 1;
      lines.push([at(i), at(end)]);
      i = end;
    }
  };
  for (let y = 1; y < m; y += 1)
    along(
      n,
      (x) => owner[y - 1]![x] !== owner[y]![x],
      (x) => place(x, y),
    );
  for (let x = 1; x < n; x += 1)
    along(
      m,
      (y) => owner[y]![x - 1] !== owner[y]![x],
      (y) => place(x, y),
    );
  return lines;
}

/** A square divided into rectangles, not as a rule by cuts from side to side: pinwheels among them. Drawn in random order. */
export const dissection = (n: number, m: number, largest: number, random: Random, size = 300): Polyline[] =>
  shuffled(walls(rectangles(n, m, largest, random), size), random);

const onSide = (side: number, f: number, size: number): Pt =>
  side === 0 ? [size * f, 0] : side === 1 ? [size, size * f] : side === 2 ? [size * f, size] : [0, size * f];

/** Straight and angled lines from edge to edge that cross each other. */
export function strokes(count: number, random: Random, size = 300): Polyline[] {
  return Array.from({ length: count }, (): Polyline => {
    const side = Math.floor(random() * 4);
    const other = (side + 1 + Math.floor(random() * 3)) % 4;
    const [a, b] = [onSide(side, 0.1 + 0.8 * random(), size), onSide(other, 0.1 + 0.8 * random(), size)];
    if (random() < 0.5) return [a, b];
    return [a, [size * (0.25 + 0.5 * random()), size * (0.25 + 0.5 * random())], b];
  });
}

/** A pinwheel in a square: a ring of four lines, each ending on the next. */
export const pinwheel = ([x, y]: Pt, size: number): Polyline[] => {
  const at = (u: number, v: number): Pt => [x + (u * size) / 3, y + (v * size) / 3];
  return [
    [at(0, 1), at(2, 1)],
    [at(2, 0), at(2, 2)],
    [at(3, 2), at(1, 2)],
    [at(1, 3), at(1, 1)],
  ];
};

/** A square divided again and again: by a cut, or by a pinwheel. Drawn in random order. */
export function divided(times: number, pinwheels: number, random: Random, size = 300): Polyline[] {
  const cells: [Pt, number, number][] = [[[0, 0], size, size]];
  const lines: Polyline[] = [];
  for (let i = 0; i < times; i += 1) {
    const [[x, y], wide, high] = cells.splice(Math.floor(random() * cells.length), 1)[0]!;
    const [f, g] = [0.3 + 0.4 * random(), 0.3 + 0.4 * random()];
    if (random() < pinwheels) {
      const [u, v] = [wide / 3, high / 3];
      for (const line of pinwheel([0, 0], 3)) lines.push(line.map(([p, q]): Pt => [x + p * u, y + q * v]));
      cells.push([[x, y], 2 * u, v], [[x + 2 * u, y], u, 2 * v], [[x + u, y + 2 * v], 2 * u, v]);
      cells.push([[x, y + v], u, 2 * v], [[x + u, y + v], u, v]);
    } else if (random() < 0.5) {
      lines.push([
        [x + wide * f, y],
        [x + wide * f, y + high],
      ]);
      cells.push([[x, y], wide * f, high], [[x + wide * f, y], wide * (1 - f), high]);
    } else {
      lines.push([
        [x, y + high * g],
        [x + wide, y + high * g],
      ]);
      cells.push([[x, y], wide, high * g], [[x, y + high * g], wide, high * (1 - g)]);
    }
  }
  return shuffled(lines, random);
}

/** Lines between points of a coarse lattice: many meet at one point, run along each other, close to rings or touch themselves. */
export function latticed(count: number, n: number, random: Random, size = 300): Polyline[] {
  const point = (): Pt => [
    (Math.floor(random() * (n + 1)) * size) / n,
    (Math.floor(random() * (n + 1)) * size) / n,
  ];
  return Array.from({ length: count }, (): Polyline => {
    const points = Array.from({ length: 2 + Math.floor(random() * 3) }, point).filter(
      (p, i, all) => i === 0 || p[0] !== all[i - 1]![0] || p[1] !== all[i - 1]![1],
    );
    return random() < 0.2 && points.length > 2 ? [...points, points[0]!] : points;
  }).filter((l) => l.length > 1);
}
