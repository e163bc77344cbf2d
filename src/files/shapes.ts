import { pathThrough, type Curve, type Pt } from '../geometry';
import { arcCurves, ellipseCurves } from './arcs';
import { parseLength, parseNumbers } from './lengths';
import { parsePathData, type Subpath } from './pathData';
import type { XmlElement } from './readXml';

/** Size of the frame that percentages refer to, user units. */
export interface Viewport {
  readonly width: number;
  readonly height: number;
}

/** A shape in its element's own units. */
export interface Shape {
  readonly subpaths: readonly Subpath[];
  readonly commands: number;
  /** Attribute and text that is no number; null when all is well. */
  readonly fault: { readonly where: string; readonly what: string } | null;
}

export const SHAPE_TAGS: ReadonlySet<string> = new Set([
  'path',
  'rect',
  'circle',
  'ellipse',
  'line',
  'polyline',
  'polygon',
]);

/** Carries the first attribute that is no usable number up to `shapeOf`. */
class BadAttribute extends Error {
  readonly where: string;
  readonly what: string;
  constructor(where: string, what: string) {
    super(where);
    this.where = where;
    this.what = what;
  }
}

const shown = (text: string): string => (text.trim() === '' ? 'nothing' : `“${text.trim().slice(0, 30)}”`);

/** Reads the length attributes of one element, in user units. */
class Attributes {
  private readonly element: XmlElement;
  private readonly viewport: Viewport;
  constructor(element: XmlElement, viewport: Viewport) {
    this.element = element;
    this.viewport = viewport;
  }

  /** The length, `missing` where the attribute is absent or auto. Percentages as SVG 1.1 section 7.10 says. */
  length<T>(name: string, along: 'x' | 'y' | 'both', missing: T): number | T {
    const text = this.element.attributes.get(name);
    if (text === undefined || text.trim() === 'auto') return missing;
    const length = parseLength(text);
    if (length.kind === 'absolute') return length.px;
    const { width, height } = this.viewport;
    const whole = along === 'x' ? width : along === 'y' ? height : Math.hypot(width, height) / Math.SQRT2;
    if (length.kind === 'percent' && Number.isFinite(whole)) return length.share * whole;
    throw new BadAttribute(name, shown(text));
  }

  /** A length that must not be negative. */
  size<T>(name: string, along: 'x' | 'y' | 'both', missing: T): number | T {
    const value = this.length(name, along, missing);
    if (typeof value === 'number' && value < 0)
      throw new BadAttribute(name, shown(this.element.attributes.get(name) ?? ''));
    return value;
  }

  text(name: string): string {
    return this.element.attributes.get(name) ?? '';
  }
}

function rectCurves(a: Attributes): readonly Curve[] {
  const [x, y] = [a.length('x', 'x', 0), a.length('y', 'y', 0)];
  const [w, h] = [a.size('width', 'x', 0), a.size('height', 'y', 0)];
  const [givenX, givenY] = [a.size('rx', 'x', null), a.size('ry', 'y', null)];
  if (w === 0 || h === 0) return [];
  const rx = Math.min(givenX ?? givenY ?? 0, w / 2);
  const ry = Math.min(givenY ?? givenX ?? 0, h / 2);
  const [right, bottom] = [x + w, y + h];
  if (rx === 0 || ry === 0)
    return pathThrough(
      [
        [x, y],
        [right, y],
        [right, bottom],
        [x, bottom],
      ],
      true,
    );
  const corner = (from: Pt, to: Pt): Curve[] => arcCurves(from, rx, ry, 0, false, true, to);
  const straight = (from: Pt, to: Pt): Curve[] =>
    from[0] === to[0] && from[1] === to[1] ? [] : [[from, to]];
  // In the order of SVG 1.1 section 9.2.
  return [
    ...straight([x + rx, y], [right - rx, y]),
    ...corner([right - rx, y], [right, y + ry]),
    ...straight([right, y + ry], [right, bottom - ry]),
    ...corner([right, bottom - ry], [right - rx, bottom]),
    ...straight([right - rx, bottom], [x + rx, bottom]),
    ...corner([x + rx, bottom], [x, bottom - ry]),
    ...straight([x, bottom - ry], [x, y + ry]),
    ...corner([x, y + ry], [x + rx, y]),
  ];
}

function roundCurves(a: Attributes, tag: string): readonly Curve[] {
  const centre: Pt = [a.length('cx', 'x', 0), a.length('cy', 'y', 0)];
  const r = tag === 'circle' ? a.size('r', 'both', 0) : null;
  const [givenX, givenY] = [a.size('rx', 'x', null), a.size('ry', 'y', null)];
  const rx = r ?? givenX ?? givenY ?? 0;
  const ry = r ?? givenY ?? givenX ?? 0;
  return rx === 0 || ry === 0 ? [] : ellipseCurves(centre, rx, ry);
}

function pointsPath(a: Attributes, closed: boolean): readonly Curve[] {
  const text = a.text('points');
  const numbers = parseNumbers(text);
  if (!numbers || numbers.length % 2 === 1)
    throw new BadAttribute('points', shown(/[^\d\s,.eE+-]\S*/.exec(text)?.[0] ?? text));
  const points: Pt[] = [];
  for (let i = 0; i < numbers.length; i += 2) {
    const p: Pt = [numbers[i]!, numbers[i + 1]!];
    const before = points.at(-1);
    if (!before || before[0] !== p[0] || before[1] !== p[1]) points.push(p);
  }
  const [first, last] = [points[0], points.at(-1)];
  if (closed && points.length > 1 && first![0] === last![0] && first![1] === last![1]) points.pop();
  return points.length < 2 ? [] : pathThrough(points, closed);
}

const one = (curves: readonly Curve[], closed: boolean): readonly Subpath[] =>
  curves.length === 0 ? [] : [{ curves, closed }];

function subpathsOf(tag: string, a: Attributes): readonly Subpath[] {
  if (tag === 'rect') return one(rectCurves(a), true);
  if (tag === 'circle' || tag === 'ellipse') return one(roundCurves(a, tag), true);
  if (tag === 'polygon') return one(pointsPath(a, true), true);
  if (tag === 'polyline') return one(pointsPath(a, false), false);
  const [x1, y1] = [a.length('x1', 'x', 0), a.length('y1', 'y', 0)];
  const [x2, y2] = [a.length('x2', 'x', 0), a.length('y2', 'y', 0)];
  return one(
    x1 === x2 && y1 === y2
      ? []
      : [
          [
            [x1, y1],
            [x2, y2],
          ],
        ],
    false,
  );
}

/**
 * The curves of a basic shape or path element, in its own user units. Circles and ellipses become eight cubics.
 * @param most path commands that may still be read; `commands` is larger when the path has more
 */
export function shapeOf(element: XmlElement, viewport: Viewport, most: number): Shape {
  if (element.tag === 'path') {
    const d = element.attributes.get('d') ?? '';
    const { subpaths, commands, fault } = parsePathData(d.trim() === 'none' ? '' : d, most);
    return { subpaths, commands, fault: fault === null ? null : { where: 'd', what: fault } };
  }
  try {
    const subpaths = subpathsOf(element.tag, new Attributes(element, viewport));
    return { subpaths, commands: subpaths.reduce((sum, s) => sum + s.curves.length, 0), fault: null };
  } catch (error) {
    if (!(error instanceof BadAttribute)) throw error;
    return { subpaths: [], commands: 1, fault: { where: error.where, what: error.what } };
  }
}
