/** Random pieces with darts for property tests: curved outlines, named edges, darts on straight edges. Invented. */
import fc from 'fast-check';
import {
  type Curve,
  type Path,
  type Pt,
  type Ring,
  add,
  distance,
  mix,
  perpendicular,
  scale,
  subtract,
  unit,
} from '../../src/geometry';
import type { Dart, EdgeName, OutlinePlace, Piece } from '../../src/pattern';
import { piece } from './designs';

const unitNumber = fc.double({ min: 0, max: 1, noNaN: true });

/** A side between two corners, bowed by so many mm at its middle. */
export const side = (a: Pt, b: Pt, bow: number): Curve => {
  if (bow === 0) return [a, b];
  const out = scale(perpendicular(unit(subtract(b, a))), (-bow * 4) / 3);
  return [a, add(mix(a, b, 0.3), out), add(mix(a, b, 0.7), out), b];
};

/** Corners round (0, 0) at even angles, sides bowed; side 0 is straight. Outer rings run from +x towards +y. */
export function starRing(radii: readonly number[], bows: readonly number[]): Ring {
  const corner = (i: number): Pt => {
    const turn = (2 * Math.PI * i) / radii.length;
    const r = radii[i % radii.length]!;
    return [r * Math.cos(turn), r * Math.sin(turn)];
  };
  return radii.map((_, i) =>
    side(corner(i), i + 1 === radii.length ? corner(0) : corner(i + 1), i === 0 ? 0 : bows[i]!),
  );
}

export const nameOf = (i: number): string => `side ${String.fromCharCode(65 + i)}`;
export const namesOf = (ring: Ring): EdgeName[] => ring.map((c, i) => ({ name: nameOf(i), path: [c] }));

/** A dart on a straight side with equally long legs, its mouth round a share of the side; bow > 0 bends its legs away from the middle. */
export function dartOnSide([a, b]: Curve, at: number, width: number, depth: number, bow = 0): Dart {
  const along = unit(subtract(b!, a));
  const middle = mix(a, b!, at);
  const [m, n] = [add(middle, scale(along, -width / 2)), add(middle, scale(along, width / 2))];
  const point = add(middle, scale(perpendicular(along), depth));
  const legs: readonly [Path, Path] | null =
    bow === 0 ? null : [[side(m, point, bow)], [side(point, n, bow)]];
  return { kind: 'single', mouth: [m, n], point, legs, treatment: { kind: 'keep' } };
}

export interface Darted {
  readonly piece: Piece;
  readonly place: OutlinePlace;
}

/** A piece with one dart on its first side and a place on another one; its legs bow by up to so much of its width. */
export const darted = (mostBow: number): fc.Arbitrary<Darted> =>
  fc
    .record({
      radii: fc.array(fc.double({ min: 130, max: 220, noNaN: true }), { minLength: 5, maxLength: 8 }),
      bows: fc.array(fc.double({ min: -14, max: 14, noNaN: true }), { minLength: 8, maxLength: 8 }),
      at: fc.double({ min: 0.35, max: 0.65, noNaN: true }),
      width: fc.double({ min: 8, max: 34, noNaN: true }),
      depth: fc.double({ min: 50, max: 110, noNaN: true }),
      bow: fc.double({ min: -mostBow, max: mostBow, noNaN: true }),
      to: unitNumber,
      share: unitNumber,
    })
    .map(({ radii, bows, at, width, depth, bow, to, share }) => {
      const ring = starRing(radii, bows);
      const other = 1 + Math.min(ring.length - 2, Math.floor(to * (ring.length - 1)));
      const wide = Math.min(width, distance(ring[0]![0], ring[0]![1]!) / 4);
      const dart = dartOnSide(ring[0]!, at, wide, depth, mostBow === 0 ? 0 : bow * wide);
      return {
        piece: piece(ring, {
          darts: [dart],
          edgeNames: namesOf(ring),
          grain: [
            [-4, -20],
            [-4, 20],
          ],
        }),
        place: { edge: nameOf(other), nth: 0, share },
      };
    });

/** The piece with its dart swung, so much of it. */
export const swinging = ({ piece: p, place }: Darted, share: number): Piece => ({
  ...p,
  darts: p.darts.map((d, i) =>
    i === 0 ? { ...d, treatment: { kind: 'swing', parts: [{ to: place, share, close: null }] } } : d,
  ),
});
