/**
 * What is put on paper, as plain data: strokes, fills and lines of lettering, mm, y down.
 * Sheets, tests and the choice of pages all work on these; only the pen knows the PDF library.
 */
import { boxOfPoints, flattenPath, pathThrough } from '../geometry';
import type { Box, Line, Path, Pt } from '../geometry';

export interface Stroke {
  /** mm */
  readonly width: number;
  /** #rrggbb */
  readonly colour: string;
  /** On, off … in mm. */
  readonly dash?: readonly number[];
}

/** Paths drawn together; filled by the even-odd rule, so that a ring inside a ring is a hole. */
export interface PathMark {
  readonly kind: 'path';
  readonly paths: readonly Path[];
  readonly closed: boolean;
  readonly stroke: Stroke | null;
  readonly fill: string | null;
}

/** One line of horizontal lettering. `at` is the left end of its base line; `size` is the em, mm. */
export interface TextMark {
  readonly kind: 'text';
  readonly at: Pt;
  readonly text: string;
  /** As measured when it was made, mm. */
  readonly width: number;
  readonly size: number;
  readonly bold: boolean;
  readonly colour: string;
}

export type Mark = PathMark | TextMark;

/** Lettering as the pen measures it. */
export interface Lettering {
  /** Width of one line, mm, at an em of `size` mm. */
  width(text: string, size: number, bold: boolean): number;
  /** The text without characters that cannot or must not be printed. */
  clean(text: string): string;
}

export interface TextStyle {
  readonly size: number;
  readonly bold?: boolean;
  readonly colour?: string;
  readonly align?: 'left' | 'centre' | 'right';
}

// Highest and lowest ink of ordinary letters of the DejaVu Sans Condensed face, in ems (read off its glyphs).
const ABOVE = 0.76;
const BELOW = 0.24;
/** Height of capitals and figures of that face, in ems. */
export const CAPITALS = 0.73;

/** A line of lettering whose base line starts (or is centred, or ends) at `at`. */
export function text(lettering: Lettering, raw: string, at: Pt, style: TextStyle): TextMark {
  const clean = lettering.clean(raw);
  const { size, bold = false, colour = '#23262d', align = 'left' } = style;
  const width = lettering.width(clean, size, bold);
  const x = align === 'left' ? at[0] : align === 'right' ? at[0] - width : at[0] - width / 2;
  return { kind: 'text', at: [x, at[1]], text: clean, width, size, bold, colour };
}

export const stroked = (paths: readonly Path[], stroke: Stroke, closed = false): PathMark => ({
  kind: 'path',
  paths,
  closed,
  stroke,
  fill: null,
});

export const filled = (paths: readonly Path[], fill: string, stroke: Stroke | null = null): PathMark => ({
  kind: 'path',
  paths,
  closed: true,
  stroke,
  fill,
});

export const line = (a: Pt, b: Pt, stroke: Stroke): PathMark => stroked([[[a, b]]], stroke);

/** A rectangle from its upper left corner. */
export function rectangle(x: number, y: number, w: number, h: number): Path {
  return pathThrough(
    [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ],
    true,
  );
}

// Handle length of a quarter circle as one cubic: 4/3 (√2 − 1).
const QUARTER = (4 / 3) * (Math.SQRT2 - 1);

/** A circle as four cubics. */
export function circle([x, y]: Pt, r: number): Path {
  const k = r * QUARTER;
  return [
    [
      [x + r, y],
      [x + r, y + k],
      [x + k, y + r],
      [x, y + r],
    ],
    [
      [x, y + r],
      [x - k, y + r],
      [x - r, y + k],
      [x - r, y],
    ],
    [
      [x - r, y],
      [x - r, y - k],
      [x - k, y - r],
      [x, y - r],
    ],
    [
      [x, y - r],
      [x + k, y - r],
      [x + r, y - k],
      [x + r, y],
    ],
  ];
}

export const textBox = (m: TextMark): Box => ({
  minX: m.at[0],
  minY: m.at[1] - ABOVE * m.size,
  maxX: m.at[0] + m.width,
  maxY: m.at[1] + BELOW * m.size,
});

const EMPTY: Box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };

/** The straight stretches of a path mark, curves flattened to `sagitta` mm. */
export function segmentsOf(mark: PathMark, sagitta = 0.1): Line[] {
  return mark.paths.flatMap((path) => {
    const points = flattenPath(path, sagitta).points;
    return points.slice(1).map((p, i): Line => [points[i]!, p]);
  });
}

/** Smallest box round all ink, half the line widths included. No marks: an inverted box. */
export function boxOf(marks: readonly Mark[]): Box {
  let box = EMPTY;
  for (const m of marks) box = around(box, m.kind === 'text' ? textBox(m) : pathMarkBox(m));
  return box;
}

function pathMarkBox(mark: PathMark): Box {
  const half = (mark.stroke?.width ?? 0) / 2;
  const b = boxOfPoints(segmentsOf(mark, 0.02).flat());
  return { minX: b.minX - half, minY: b.minY - half, maxX: b.maxX + half, maxY: b.maxY + half };
}

const around = (a: Box, b: Box): Box => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
});

export const overlaps = (a: Box, b: Box): boolean =>
  a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;

export const grown = (b: Box, by: number): Box => ({
  minX: b.minX - by,
  minY: b.minY - by,
  maxX: b.maxX + by,
  maxY: b.maxY + by,
});

export const movedBox = (b: Box, [dx, dy]: Pt): Box => ({
  minX: b.minX + dx,
  minY: b.minY + dy,
  maxX: b.maxX + dx,
  maxY: b.maxY + dy,
});

const movedPoint = (p: Pt, d: Pt): Pt => [p[0] + d[0], p[1] + d[1]];

/** The same mark moved by d. */
export function movedMark(m: Mark, d: Pt): Mark {
  if (m.kind === 'text') return { ...m, at: movedPoint(m.at, d) };
  return {
    ...m,
    paths: m.paths.map((path) => path.map((c) => c.map((p) => movedPoint(p, d)) as unknown as typeof c)),
  };
}

export const movedMarks = (marks: readonly Mark[], d: Pt): Mark[] => marks.map((m) => movedMark(m, d));
