import { type Curve, type Path, type Pt, add, flattenRing, subtract } from '../geometry';
import { type PanelLine, type WholePiece, heightOf, placeAcross, pointInGrain } from '../pattern';
import { basePlace, centreOf } from './axis';
import { findLevel, levelHeight, levelsDown } from './levelOf';
import { isLost } from './lost';

interface Extent {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
  readonly centre: number;
}

/** How far a piece reaches along and across the grain, and where its centre runs at its middle height. */
function extentOf(whole: WholePiece): Extent {
  const points = flattenRing(whole.stitching);
  const down = points.map((p) => heightOf(whole, p));
  const over = points.map((p) => placeAcross(whole, p));
  const [top, bottom] = [Math.min(...down), Math.max(...down)];
  const [left, right] = [Math.min(...over), Math.max(...over)];
  const axis = { kind: 'over', at: pointInGrain(whole, (top + bottom) / 2, (left + right) / 2) } as const;
  const centre = centreOf(whole) ? basePlace(whole, axis, { kind: 'centre' }) : null;
  return {
    top,
    bottom,
    left,
    right,
    centre: centre && !isLost(centre) ? centre.place : (left + right) / 2,
  };
}

/** Heights that are the same place of the body on both: top, levels of the same name, bottom. Rising on both. */
function landmarks(from: WholePiece, to: WholePiece, a: Extent, b: Extent): (readonly [number, number])[] {
  const common = levelsDown(from).flatMap(({ level, height }): (readonly [number, number])[] => {
    const other = findLevel(to.levels, level.name);
    return other ? [[height, levelHeight(to, other)]] : [];
  });
  const marks: (readonly [number, number])[] = [];
  for (const mark of [[a.top, b.top] as const, ...common, [a.bottom, b.bottom] as const]) {
    const last = marks.at(-1);
    if (!last || (mark[0] > last[0] + 1e-6 && mark[1] > last[1] + 1e-6)) marks.push(mark);
  }
  return marks;
}

function between(marks: readonly (readonly [number, number])[], value: number): number {
  if (marks.length < 2) return value + (marks[0]![1] - marks[0]![0]);
  const upper = marks.findIndex(([h]) => h >= value);
  const i = Math.min(marks.length - 1, Math.max(1, upper < 0 ? marks.length - 1 : upper));
  const [a, b] = [marks[i - 1]!, marks[i]!];
  return a[1] + ((value - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
}

/** Carries places of a piece over to another size of it, or to another tracing. */
export interface CarryOver {
  /** The like place: heights go between levels of the same name, widths grow from the centre. */
  readonly like: (p: Pt) => Pt;
  /** The same shift for every point, so that what is moved by it keeps its size: centre on centre, level on level. */
  readonly shift: Pt;
  /** Height on the new piece for a height on the old one, mm. */
  readonly height: (down: number) => number;
}

/** How places of one whole piece are carried over to another size of it. */
export function carryOver(from: WholePiece, to: WholePiece): CarryOver {
  const [a, b] = [extentOf(from), extentOf(to)];
  const marks = landmarks(from, to, a, b);
  const width = (left: boolean): number => {
    const [old, now] = left
      ? [a.centre - a.left, b.centre - b.left]
      : [a.right - a.centre, b.right - b.centre];
    return old > 1e-6 ? now / old : (b.right - b.left) / (a.right - a.left);
  };
  const [growLeft, growRight] = [width(true), width(false)];
  const like = (p: Pt): Pt => {
    const off = placeAcross(from, p) - a.centre;
    return pointInGrain(
      to,
      between(marks, heightOf(from, p)),
      b.centre + off * (off < 0 ? growLeft : growRight),
    );
  };
  const anchor = marks.length > 2 ? marks[1]! : marks[0]!;
  const shift = subtract(pointInGrain(to, anchor[1], b.centre), pointInGrain(from, anchor[0], a.centre));
  return { like, shift, height: (down) => between(marks, down) };
}

const mapped = (path: Path, f: (p: Pt) => Pt): Path => {
  // Joints are carried once, so that curves go on meeting exactly.
  const known = new Map<string, Pt>();
  const once = (p: Pt): Pt => {
    const key = `${p[0]} ${p[1]}`;
    const at = known.get(key) ?? f(p);
    known.set(key, at);
    return at;
  };
  return path.map((curve) => curve.map(once) as unknown as Curve);
};

/**
 * A line carried over to another size: one that is tied comes to the like place, from where its ties take it to its true one;
 * an untied one keeps its shape and size.
 */
export const carriedLine = (line: PanelLine, carry: CarryOver): PanelLine => ({
  ...line,
  path: mapped(line.path, line.ties ? carry.like : (p) => add(p, carry.shift)),
});
