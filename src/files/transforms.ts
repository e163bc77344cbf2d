import { IDENTITY, multiply, type Matrix, type Pt } from '../geometry';
import { parseLength, parseNumbers } from './lengths';

export const translation = (x: number, y: number): Matrix => [1, 0, 0, 1, x, y];

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Turn by degrees from +x towards +y, exact at quarter turns (a traced rectangle stays square). */
function rotation(degrees: number): Matrix {
  const quarter = (((degrees % 360) + 360) % 360) / 90;
  const [c, s] = Number.isInteger(quarter)
    ? [[1, 0, -1, 0][quarter]!, [0, 1, 0, -1][quarter]!]
    : [Math.cos(radians(degrees)), Math.sin(radians(degrees))];
  return [c, s, -s, c, 0, 0];
}

/** One transform function by name and numbers (SVG 1.1, section 7.6); null where the count of numbers is wrong. */
function single(name: string, n: readonly number[]): Matrix | null {
  const [a = 0, b, c] = n;
  const count = n.length;
  if (name === 'matrix') return count === 6 ? (n as unknown as Matrix) : null;
  if (name === 'translate') return count === 1 || count === 2 ? translation(a, b ?? 0) : null;
  if (name === 'translatex') return count === 1 ? translation(a, 0) : null;
  if (name === 'translatey') return count === 1 ? translation(0, a) : null;
  if (name === 'scale') return count === 1 || count === 2 ? [a, 0, 0, b ?? a, 0, 0] : null;
  if (name === 'scalex') return count === 1 ? [a, 0, 0, 1, 0, 0] : null;
  if (name === 'scaley') return count === 1 ? [1, 0, 0, a, 0, 0] : null;
  if (name === 'skewx') return count === 1 ? [1, 0, Math.tan(radians(a)), 1, 0, 0] : null;
  if (name === 'skewy') return count === 1 ? [1, Math.tan(radians(a)), 0, 1, 0, 0] : null;
  if (name !== 'rotate') return null;
  if (count === 1) return rotation(a);
  if (count !== 3) return null;
  return multiply(multiply(translation(b!, c!), rotation(a)), translation(-b!, -c!));
}

/** In a style, numbers carry units: px lengths and angles. Brought to bare user units and degrees. */
function bare(argument: string): string {
  const angle = /^([+-]?[\d.]+(?:e[+-]?\d+)?)(deg|rad|grad|turn)$/i.exec(argument);
  if (angle) {
    const perUnit: Record<string, number> = { deg: 1, rad: 180 / Math.PI, grad: 0.9, turn: 360 };
    return `${Number(angle[1]) * perUnit[angle[2]!.toLowerCase()]!}`;
  }
  const length = parseLength(argument);
  return length.kind === 'absolute' ? `${length.px}` : argument;
}

/**
 * A transform attribute or style as one matrix; the leftmost function is the outermost.
 * @returns null if it is not a list of known functions with finite numbers
 */
export function parseTransform(text: string): Matrix | null {
  if (text.trim() === '' || text.trim() === 'none') return IDENTITY;
  let result = IDENTITY;
  const one = /[\s,]*([a-zA-Z]+)\s*\(([^()]*)\)[\s,]*/y;
  let end = 0;
  for (let match = one.exec(text); match; match = one.exec(text)) {
    const numbers =
      parseNumbers(match[2]!) ??
      parseNumbers(
        match[2]!
          .split(/[\s,]+/)
          .filter(Boolean)
          .map(bare)
          .join(' '),
      );
    const matrix = numbers && single(match[1]!.toLowerCase(), numbers);
    if (!matrix) return null;
    result = multiply(result, matrix);
    end = one.lastIndex;
  }
  return end === text.length && result.every(Number.isFinite) ? result : null;
}

/** A transform about another origin than the frame's own. */
export const aboutPoint = (matrix: Matrix, [x, y]: Pt): Matrix =>
  multiply(multiply(translation(x, y), matrix), translation(-x, -y));
