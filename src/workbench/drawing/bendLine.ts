import {
  add,
  asCubic,
  cross,
  distance,
  endOfCurve,
  mix,
  pointAt,
  scale,
  startOfCurve,
  subtract,
  unit,
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

/** How far the middle of a curve stands off its chord, mm; positive to the left of its direction of travel on the drawing. */
export function bowOf(curve: Curve): number {
  const [a, b] = [startOfCurve(curve), endOfCurve(curve)];
  const chord = distance(a, b);
  return chord > 0 ? -cross(subtract(b, a), subtract(middleOf(curve), a)) / chord : 0;
}

/** The line with one curve bent evenly so that its middle stands off its chord by `bow`; nothing else of its shape is kept. */
export const bowed = (path: Path, index: number, bow: number): Path =>
  path.map((curve, i) => {
    if (i !== index) return curve;
    const [a, b] = [startOfCurve(curve), endOfCurve(curve)];
    const along = unit(subtract(b, a));
    return bendCurve([a, b], add(mix(a, b, 0.5), [along[1] * bow, -along[0] * bow]));
  });

/** The line with every bend taken out, ends and joints kept. */
export const straightened = (path: Path): Path =>
  path.map((curve): Curve => [startOfCurve(curve), endOfCurve(curve)]);
