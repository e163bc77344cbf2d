import { meetings, chordRing } from '../../src/geometry/simplicity';
import { asOuterRing, pathThrough, type Curve, type Pt, type Ring } from '../../src/geometry';

const between = (random: () => number, a: number, b: number): number => a + (b - a) * random();
const polar = (r: number, angle: number): Pt => [r * Math.cos(angle), r * Math.sin(angle)];
const pick = <T>(random: () => number, list: readonly T[]): T => list[Math.floor(random() * list.length)]!;

/** Corners on an ellipse at uneven angles: a straight convex ring. */
export function convexRing(random: () => number): Ring {
  const n = 3 + Math.floor(random() * 9);
  const flat = between(random, 0.4, 1);
  const angles = Array.from({ length: n }, (_, i) => ((i + between(random, -0.4, 0.4)) / n) * 2 * Math.PI);
  return pathThrough(
    angles.map((a): Pt => [150 * Math.cos(a), 150 * flat * Math.sin(a)]),
    true,
  );
}

/** Corners at random distances from the origin: sharp points, deep notches. */
export function starRing(random: () => number): Ring {
  const n = 5 + Math.floor(random() * 20);
  const deep = between(random, 0.1, 0.8);
  const corner = (i: number): Pt =>
    polar(150 * between(random, deep, 1), ((i + between(random, 0, 0.8)) / n) * 2 * Math.PI);
  return pathThrough(
    Array.from({ length: n }, (_, i) => corner(i)),
    true,
  );
}

/** Teeth and gaps of random widths, down to 0.5 mm, on a bar. */
export function combRing(random: () => number): Ring {
  const points: Pt[] = [[0, 0]];
  let x = 0;
  const teeth = 2 + Math.floor(random() * 8);
  for (let i = 0; i < teeth; i += 1) {
    const [tooth, gap, depth] = [between(random, 2, 32), between(random, 0.5, 30), between(random, 20, 100)];
    points.push([x, depth], [x + tooth, depth], [x + tooth, 5], [x + tooth + gap, 5]);
    x += tooth + gap;
  }
  points.push([x, 60], [x + 15, 60], [x + 15, 0]);
  return asOuterRing(pathThrough(points, true));
}

/** Cubics and some lines; handles missing now and then; bends tighter than usual widths. */
export function curvedRing(random: () => number): Ring {
  const n = 3 + Math.floor(random() * 13);
  const wild = random() < 0.5;
  const corners = Array.from({ length: n }, (_, i): Pt => {
    const [x, y] = polar(200 * (1 - (wild ? 0.6 : 0.3) * random()), ((i + 0.5 * random()) / n) * 2 * Math.PI);
    return [x, 1.3 * y];
  });
  return corners.map((p, i): Curve => {
    const q = corners[(i + 1) % n]!;
    if (random() < 0.25) return [p, q];
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    const handle = (): { along: number; side: number } => {
      const along = random() < 0.1 ? 0 : between(random, 0, 0.6);
      return { along, side: along === 0 ? 0 : between(random, -0.4, 0.6) * (wild ? 1.6 : 0.8) };
    };
    const [a, b] = [handle(), handle()];
    return [
      p,
      [p[0] + dx * a.along + dy * a.side, p[1] + dy * a.along - dx * a.side],
      [q[0] - dx * b.along + dy * b.side, q[1] - dy * b.along - dx * b.side],
      q,
    ];
  });
}

/** The first simple ring that a maker comes up with. */
export function simpleRing(make: (random: () => number) => Ring, random: () => number): Ring {
  for (;;) {
    const ring = asOuterRing(make(random));
    if (meetings([chordRing(ring, 0.002)]).length === 0) return ring;
  }
}

/** Usual widths and unusual ones, one for all curves or one for each; all outwards or all inwards. */
export function someWidths(random: () => number, ring: Ring): number[] {
  const sign = random() < 0.5 ? 1 : -1;
  const one = pick(random, [1, 5, 15, 40]) * between(random, 0.5, 1.5);
  const kind = random();
  if (kind < 0.5) return ring.map(() => sign * one);
  if (kind < 0.75) return ring.map(() => sign * pick(random, [0, 5, 10, 15, 30]));
  return ring.map(() => sign * between(random, 0, 30));
}
