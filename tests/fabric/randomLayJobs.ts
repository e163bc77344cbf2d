import type { Line, Polyline, Pt } from '../../src/geometry';
import type { ClothPiece, ClothShape, LayJob } from '../../src/fabric';
import { seededRandom } from '../../src/fabric/search/random';
import type { RemnantId } from '../../src/pattern';
import { jobOf, panelOutline, pieceOf, rectangle } from './madeUpPieces';

type Random = () => number;
const between = (random: Random, from: number, to: number): number => from + (to - from) * random();
const oneOf = <T>(random: Random, of: readonly T[]): T => of[Math.floor(random() * of.length)]!;

/** Straight sides, corners at random round a middle, often with hollows. */
function star(random: Random, size: number): Polyline {
  const corners = 3 + Math.floor(random() * 8);
  return Array.from({ length: corners }, (_, k): Pt => {
    const [r, a] = [size * between(random, 0.25, 1), (2 * Math.PI * k) / corners];
    return [r * Math.cos(a), r * Math.sin(a)];
  });
}

/** Its own mirror image across the x axis, exactly: a profile of random widths. */
function symmetric(random: Random, size: number): { cutting: Polyline; middle: Line } {
  const n = 3 + Math.floor(random() * 12);
  const profile = Array.from({ length: n }, (_, k): Pt => [
    (size * 2 * k) / (n - 1),
    size * between(random, 0.15, 0.7),
  ]);
  const cutting = [...profile, ...profile.toReversed().map(([x, y]): Pt => [x, -y])];
  return {
    cutting,
    middle: [
      [0, 0],
      [size * 2, 0],
    ],
  };
}

/** Sides that add up to usual widths: pieces come to lie exactly edge to edge. */
const exactRectangle = (random: Random): Polyline =>
  rectangle(oneOf(random, [75, 150, 225, 300, 450, 700]), oneOf(random, [75, 150, 225, 300, 450, 700]));

/** Turned by the grain angle and traced anywhere. */
function traced(random: Random, grainAngle: number): (p: Pt) => Pt {
  const a = (grainAngle * Math.PI) / 180;
  const [x, y] = [between(random, -500, 1500), between(random, -500, 1500)];
  return ([px, py]) => [Math.cos(a) * px - Math.sin(a) * py + x, Math.sin(a) * px + Math.cos(a) * py + y];
}

function randomPiece(random: Random, number: number, nap: boolean, printed: boolean): ClothPiece[] {
  const size = between(random, 40, 260);
  const kind = random();
  const grainAngle = oneOf(random, [0, 90, -90, 180, Math.round(between(random, -180, 180)), 37.123]);
  const move = traced(random, grainAngle);
  const flat = kind < 0.3 ? symmetric(random, size) : null;
  const shape =
    flat?.cutting ??
    (kind > 0.9 ? exactRectangle(random) : null) ??
    (kind < 0.65 ? panelOutline(random, size * 1.6, size) : star(random, size));
  const leave = random() < 0.2 ? oneOf(random, [5, 30, 45, 90]) : null;
  const ways = nap ? [0] : [0, 180];
  const isPair = random() < 0.4;
  const piece = pieceOf(number, shape.map(move), {
    grainAngle,
    ...(leave === null ? {} : { turns: [...ways, ...ways.flatMap((w) => [w + leave, w - leave])] }),
    ...(printed ? { anchor: move(flat ? [between(random, 0, 2 * size), 0] : [size / 2, size / 3]) } : {}),
    ...(flat && !isPair ? { middle: [move(flat.middle[0]), move(flat.middle[1])] as const } : {}),
  });
  return isPair ? [piece, { ...piece, copy: 2, flipped: true }] : [piece];
}

/** A piece of one's own cloth: a rectangle, an L, a notched or a star-shaped one, 500 to 1500 mm. */
function ownCloth(random: Random): ClothShape {
  const [l, w] = [between(random, 700, 1800), between(random, 600, 1500)];
  const [a, b] = [l * between(random, 0.3, 0.7), w * between(random, 0.3, 0.7)];
  const outline = oneOf<Polyline>(random, [
    rectangle(l, w),
    [
      [0, 0],
      [a, 0],
      [a, b],
      [l, b],
      [l, w],
      [0, w],
    ],
    [
      [0, 0],
      [a - 60, 0],
      [a, b],
      [a + 60, 0],
      [l, 0],
      [l, w],
      [0, w],
    ],
    [
      [0, b],
      [a, 0],
      [l, b],
      [a, w],
    ],
  ]);
  return { remnant: 'own' as RemnantId, copy: 1, outline };
}

/** A lay job of every kind there is: cloth in one layer or folded, with margin, gap, nap and repeat as it comes, or one's own cloth. */
export function randomLayJob(seed: number): LayJob {
  const random = seededRandom(seed);
  const layering = random() < 0.45 ? 'folded' : 'single';
  const within = layering === 'single' && random() < 0.2 ? ownCloth(random) : null;
  const printed = !within && random() < 0.3;
  const repeat = printed
    ? oneOf(random, [
        { along: between(random, 20, 300), across: 0 },
        { along: 0, across: between(random, 20, 200) },
        { along: between(random, 20, 300), across: between(random, 20, 200) },
      ])
    : { along: 0, across: 0 };
  const nap = random() < 0.3;
  const pieces = Array.from({ length: 1 + Math.floor(random() * (random() < 0.1 ? 14 : 6)) }, (_, i) =>
    randomPiece(random, i + 1, nap, printed),
  ).flat();
  const ys = within?.outline.map((p) => p[1]);
  return jobOf(pieces, {
    layering,
    within,
    repeat,
    nap,
    width: ys ? Math.max(...ys) : oneOf(random, [450, 900, 1150, 1400, 1500]),
    gap: oneOf(random, [0, 0, 2, 5, 12.5]),
    margin: within ? 0 : oneOf(random, [0, 0, 10, 15]),
    seconds: oneOf(random, [0, 0, 0.01, 0.03, 0.03, 0.1]),
    seed,
  });
}
