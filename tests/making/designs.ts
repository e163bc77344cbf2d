/** Small designs for tests, made from corner points. Invented. */
import { type Path, type Polyline, type Pt, type Ring, asOuterRing, pathThrough } from '../../src/geometry';
import {
  type Colour,
  type ColourId,
  type Dart,
  DESIGN_FORMAT,
  DESIGN_VERSION,
  type Design,
  type LineId,
  type PanelLine,
  type Piece,
  type PieceId,
  NOT_MADE_UP,
  PLAIN_CLOTH,
} from '../../src/pattern';

export const ringThrough = (points: Polyline): Ring => asOuterRing(pathThrough(points, true));

export const rectangle = (width: number, height: number, [x, y]: Pt = [0, 0]): Ring =>
  ringThrough([
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ]);

export function piece(outline: Ring, over: Partial<Piece> = {}): Piece {
  const name = over.name ?? 'front';
  return {
    id: name as PieceId,
    name,
    outline,
    fold: null,
    grain: [
      [0, 0],
      [0, 100],
    ],
    darts: [],
    notches: [],
    levels: [],
    edgeNames: [],
    cutting: 'once',
    foldPanels: false,
    ...over,
  };
}

export const panelLine = (
  points: Polyline | Path,
  index: number,
  over: Partial<PanelLine> = {},
): PanelLine => ({
  id: `line-${index + 1}` as LineId,
  piece: 'front' as PieceId,
  path: isPath(points) ? points : pathThrough(points, false),
  once: false,
  overDarts: 'flat',
  ties: null,
  ...over,
});

const isPath = (points: Polyline | Path): points is Path => Array.isArray(points[0]?.[0]);

export const colour = (name: string, fill: string): Colour => ({
  id: name as ColourId,
  name,
  fill,
  width: 1400,
  ...PLAIN_CLOTH,
});

export function design(
  pieces: readonly Piece[],
  lines: readonly PanelLine[],
  over: Partial<Design> = {},
): Design {
  return {
    format: DESIGN_FORMAT,
    version: DESIGN_VERSION,
    name: 'test design',
    units: 'cm',
    pieces,
    lines,
    colours: [colour('chalk', '#e8e4d8'), colour('slate', '#4a5560')],
    marks: [],
    allowances: { tracing: { kind: 'net', outer: 15 }, newSeam: 15, hem: 40, edges: [], lines: [] },
    ...NOT_MADE_UP,
    paper: { size: 'a4' },
    ...over,
  };
}

/** One piece with lines through corner points, in drawing order. */
export const lined = (
  outline: Ring,
  lines: readonly (Polyline | Path)[],
  over: Partial<Piece> = {},
): Design =>
  design(
    [piece(outline, over)],
    lines.map((l, i) => panelLine(l, i)),
  );

/** A single dart with straight legs, kept. */
export const dart = (a: Pt, point: Pt, b: Pt, over: Partial<Dart> = {}): Dart =>
  ({ kind: 'single', mouth: [a, b], point, legs: null, treatment: { kind: 'keep' }, ...over }) as Dart;

/** A double-pointed dart with straight legs, kept: point, side, point, side. */
export const doubleDart = (p: Pt, a: Pt, q: Pt, b: Pt, over: Partial<Dart> = {}): Dart =>
  ({ kind: 'double', points: [p, a, q, b], legs: null, treatment: { kind: 'keep' }, ...over }) as Dart;
