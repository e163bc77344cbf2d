/** Random pieces that random lines run right across: straight, with a corner, curved. Invented. */
import fc from 'fast-check';
import { type Curve, type Path, type Pt, type Ring, pathThrough } from '../../src/geometry';
import { ringThrough } from './designs';

export interface Crossed {
  readonly outline: Ring;
  readonly lines: Path[];
  readonly newSeam: number;
}

/** Even over 0..1: lines that really cross, not only extremes. */
const unit = fc.noBias(fc.integer({ min: 0, max: 100_000 })).map((n) => n / 100_000);
/** A place outside the piece, and one in it. */
const beyond = unit.map((turn): Pt => [
  300 + 420 * Math.cos(turn * 2 * Math.PI),
  300 + 420 * Math.sin(turn * 2 * Math.PI),
]);
const within = fc.tuple(unit, unit).map(([x, y]): Pt => [150 + x * 300, 150 + y * 300]);
const star = fc
  .array(
    unit.map((u) => 120 + 180 * u),
    { minLength: 4, maxLength: 12 },
  )
  .map((radii) =>
    ringThrough(
      radii.map((r, i): Pt => {
        const turn = (2 * Math.PI * i) / radii.length;
        return [300 + r * Math.cos(turn), 300 + r * Math.sin(turn)];
      }),
    ),
  );
const straight = fc.tuple(beyond, beyond).map(([a, b]): Path => pathThrough([a, b], false));
const broken = fc.tuple(beyond, within, beyond).map((points): Path => pathThrough(points, false));
const bent = fc
  .tuple(beyond, within, within, beyond)
  .map(([a, b, c, d]): Path => [[a, b, c, d] satisfies Curve]);
const someLines = fc.array(fc.oneof(straight, broken, bent), { minLength: 1, maxLength: 5 });
/** A star-shaped piece with lines that run right across it, and the allowance of its new seams, mm. */
export const crossedPiece: fc.Arbitrary<Crossed> = fc.record({
  outline: star,
  lines: someLines,
  newSeam: fc.constantFrom(0, 3, 6, 10, 15),
});
