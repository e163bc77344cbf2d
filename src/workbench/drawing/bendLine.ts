import {
  add,
  asCubic,
  cross,
  distance,
  endOfCurve,
  pointAt,
  scale,
  startOfCurve,
  subtract,
  type Curve,
  type Path,
  type Pt,
} from '../../geometry';

/** A bend flatter than this, mm from the chord, is straight again. */
const FLAT = 1.5;

/** The middle of a curve, where it is taken hold of to bend it. */
export const middleOf = (curve: Curve): Pt => pointAt(curve, 0.5);

/**
 * Bend one curve of a line so that its middle passes through a point; a straight stretch becomes a cubic.
 * The middle of a cubic is (start + 3·handle + 3·handle + end) / 8, so moving both handles by 4/3 of the way moves it all the way.
 */
export function bendPath(path: Path, index: number, through: Pt): Path {
  return path.map((curve, i) => (i === index ? bendCurve(curve, through) : curve));
}

function bendCurve(curve: Curve, through: Pt): Curve {
  const [a, b] = [startOfCurve(curve), endOfCurve(curve)];
  const chord = distance(a, b);
  const bow = chord > 0 ? Math.abs(cross(subtract(b, a), subtract(through, a))) / chord : 0;
  if (bow < FLAT && chord > 0) return [a, b];
  const cubic = asCubic(curve);
  const shift = scale(subtract(through, middleOf(curve)), 4 / 3);
  return [a, add(cubic[1], shift), add(cubic[2], shift), b];
}

/** The line with every bend taken out, ends and joints kept. */
export const straightened = (path: Path): Path =>
  path.map((curve): Curve => [startOfCurve(curve), endOfCurve(curve)]);
