import {
  applyMatrix,
  distance,
  endOf,
  flattenPath,
  flattenRing,
  isCubic,
  isInPolygon,
  JOIN_GAP,
  labelSpot,
  mirrorAcross,
  pathLength,
  SAME_POINT,
  signedArea,
  startOf,
  type Line,
  type Path,
  type Ring,
} from '../geometry';
import { problem, type Dart, type EdgeName, type Level, type Notch, type Problem } from '../pattern';
import { countCrossings } from './countCrossings';
import { joinOutline } from './joinOutline';
import { LIMITS } from './limits';
import type { DrawnPath, DrawnShape } from './drawnShape';
import { readDart } from './readDart';
import { readNotch } from './readNotch';
import { Refusal, refuse } from './refusal';
import { ringFault } from './ringFault';
import { snapFold } from './snapFold';
import { thinDense } from './thinDense';
import type { TracedFill, TracedLine, TracedPiece } from './tracing';

/** What reading one piece gives beside the piece. */
export interface ReadPiece {
  readonly piece: TracedPiece;
  readonly problems: readonly Problem[];
  /** Shapes with a role that could not be used as it. */
  readonly leftOut: readonly DrawnShape[];
}

/** Most of each kind in one piece. */
const MOST = {
  notch: LIMITS.marks,
  level: LIMITS.marks,
  edge: LIMITS.marks,
  dart: LIMITS.darts,
  'panel line': LIMITS.lines,
  colour: LIMITS.marks,
} as const;

type Kind = NonNullable<DrawnShape['role']>['kind'];

const withRole = (shapes: readonly DrawnShape[], kind: Kind): DrawnShape[] =>
  shapes.filter((s) => s.role?.kind === kind);
const isClosedPath = ({ path, closed }: DrawnPath): boolean =>
  closed || (path.length > 1 && distance(startOf(path), endOf(path)) < JOIN_GAP);

/** Area of a path closed up, mm², without sign. */
export const enclosed = ({ path }: DrawnPath): number =>
  path.length === 0 ? 0 : Math.abs(signedArea([...path, [endOf(path), startOf(path)]]));

/** The closed path that encloses most, with its shape; null if nothing is closed. */
export function largestClosed(shapes: readonly DrawnShape[]): DrawnShape | null {
  let best: { shape: DrawnShape; area: number } | null = null;
  for (const shape of shapes) {
    for (const drawn of shape.paths) {
      const area = isClosedPath(drawn) ? enclosed(drawn) : 0;
      if (area > (best?.area ?? 0)) best = { shape, area };
    }
  }
  return best && best.shape;
}

/** @throws Refusal for more of a thing than can be worked with in reasonable time */
function checkCount(size: number, most: number, file: string): void {
  if (size > most) refuse('file-too-large', { file, size, most });
}

/** @throws Refusal when there is no sound outline */
function outlineOf(
  shapes: readonly DrawnShape[],
  file: string,
  piece: string,
): { outline: Ring; problems: Problem[] } {
  const drawn = shapes.flatMap((s) => s.paths);
  if (shapes.length === 0) return refuse('no-outline', { file, piece }, piece);
  checkCount(drawn.length, LIMITS.outlineParts, file);
  const { rings, gap, leftOver } = joinOutline(drawn);
  const outline = rings[0] && thinDense(rings[0]);
  if (!outline) {
    if (!gap) return refuse('outline-without-area', { file, piece }, piece);
    throw new Refusal(problem('outline-open', { file, piece, gap: gap.length }, piece, gap.at));
  }
  checkCount(outline.length, LIMITS.curves, file);
  const fault = ringFault(outline);
  if (fault?.kind === 'crosses')
    throw new Refusal(problem('outline-crosses-itself', { file, piece }, piece, fault.at));
  if (fault) throw new Refusal(problem('outline-without-area', { file, piece }, piece, fault.at));
  const count = rings.length + leftOver;
  return { outline, problems: count > 1 ? [problem('several-outlines', { piece, count }, piece)] : [] };
}

/** The longest straight stretch of a traced line: of an arrow, its shaft. Runs as drawn. */
function straightOf(paths: readonly DrawnPath[]): Line | null {
  let best: Line | null = null;
  const offer = (line: Line): void => {
    if (distance(...line) >= SAME_POINT && (!best || distance(...line) > distance(...best))) best = line;
  };
  for (const { path, closed } of paths) {
    if (path.length === 0) continue;
    if (!closed && path.every(isCubic)) offer([startOf(path), endOf(path)]);
    for (const c of path) if (!isCubic(c)) offer(c);
  }
  return best;
}

/** First to last point of each open path, for levels. */
const spans = (shape: DrawnShape): Line[] =>
  shape.paths
    .map(({ path }): Line => [startOf(path), endOf(path)])
    .filter((line) => distance(...line) >= SAME_POINT);

/** A spot inside the largest part of a filled shape. */
function fillOf({ paths, fill }: DrawnShape): TracedFill | null {
  if (fill === null) return null;
  const [largest] = [...paths].sort((a, b) => enclosed(b) - enclosed(a));
  if (!largest || enclosed(largest) <= SAME_POINT * pathLength(largest.path)) return null;
  return { at: labelSpot(flattenPath(largest.path).points).at, fill };
}

/** Reads the marks of one piece, noting the shapes that do not fit their role. */
class Marks {
  readonly leftOut: DrawnShape[] = [];
  private readonly shapes: readonly DrawnShape[];
  private readonly outline: Ring;

  constructor(shapes: readonly DrawnShape[], outline: Ring) {
    this.shapes = shapes;
    this.outline = outline;
  }

  /** All that shapes of a kind give; a shape that gives nothing is left out. */
  private gather<T>(kind: Kind, read: (shape: DrawnShape) => readonly T[]): T[] {
    return withRole(this.shapes, kind).flatMap((shape) => {
      const found = read(shape);
      if (found.length === 0) this.leftOut.push(shape);
      return found;
    });
  }

  /** The first of a kind; the others are left out. */
  first<T>(kind: Kind, read: (shape: DrawnShape) => T | null): T | null {
    let found: T | null = null;
    for (const shape of withRole(this.shapes, kind)) {
      const value: T | null = found === null ? read(shape) : null;
      if (value === null) this.leftOut.push(shape);
      else found = value;
    }
    return found;
  }

  darts(): Dart[] {
    return this.gather('dart', (s) =>
      s.paths.flatMap((p): Dart[] => {
        const dart = readDart(p, this.outline);
        return dart ? [{ ...dart, treatment: { kind: 'keep' } }] : [];
      }),
    );
  }

  notches(): Notch[] {
    const points = flattenRing(this.outline);
    return this.gather('notch', (s) =>
      s.paths.map(({ path }) => readNotch(path, this.outline, points)).filter((n) => n !== null),
    );
  }

  levels(): Level[] {
    return this.gather('level', (s) =>
      spans(s).map((line) => ({ name: s.role?.kind === 'level' ? s.role.name : '', line })),
    );
  }

  edgeNames(): EdgeName[] {
    return this.gather('edge', (s) =>
      s.paths.map(({ path }) => ({ name: s.role?.kind === 'edge' ? s.role.name : '', path })),
    );
  }

  lines(): TracedLine[] {
    const isLong = (path: Path): boolean => pathLength(path) >= SAME_POINT;
    return this.gather('panel line', (s) =>
      s.paths
        .filter(({ path }) => isLong(path))
        .map(({ path }) => ({ path: thinDense(path), once: s.role?.kind === 'panel line' && s.role.once })),
    );
  }

  /** A fill beside the piece colours nothing; one beside the half may lie on the other half. */
  fills(fold: Line | null): TracedFill[] {
    const points = flattenRing(this.outline);
    const isOnPiece = ({ at }: TracedFill): boolean =>
      isInPolygon(at, points) || (fold !== null && isInPolygon(applyMatrix(mirrorAcross(fold), at), points));
    return this.gather('colour', (s) => [fillOf(s)].filter((f) => f !== null).filter(isOnPiece));
  }

  fold(): Path | null {
    return this.first(
      'fold',
      (s) => s.paths.map(({ path }) => path).sort((a, b) => pathLength(b) - pathLength(a))[0] ?? null,
    );
  }

  grain(): Line | null {
    return this.first('grain', (s) => straightOf(s.paths));
  }
}

/**
 * Read one piece from its shapes, all of them with a role.
 * @throws Refusal where the piece cannot be used: no sound outline, a fold that does not lie on it, numbers that are none
 */
export function readPiece(shapes: readonly DrawnShape[], file: string, name: string): ReadPiece {
  const broken = shapes.find((s) => s.fault !== null);
  if (broken?.fault) throw new Refusal({ ...broken.fault, piece: name });
  for (const kind of ['notch', 'level', 'edge', 'dart', 'panel line', 'colour'] as const) {
    const count = withRole(shapes, kind).reduce((sum, s) => sum + s.paths.length, 0);
    checkCount(count, MOST[kind], file);
  }
  const { outline: traced, problems } = outlineOf(withRole(shapes, 'outline'), file, name);
  const unfolded = new Marks(shapes, traced);
  const foldPath = unfolded.fold();
  const snapped = foldPath && snapFold(foldPath, traced, name);
  if (snapped && 'code' in snapped) throw new Refusal(snapped);
  const outline = snapped ? snapped.outline : traced;
  const marks = new Marks(shapes, outline);
  const piece: TracedPiece = {
    name,
    outline,
    fold: snapped ? snapped.fold : null,
    grain: marks.grain(),
    darts: marks.darts(),
    notches: marks.notches(),
    levels: marks.levels(),
    edgeNames: marks.edgeNames(),
    lines: marks.lines(),
    fills: marks.fills(snapped ? snapped.fold : null),
  };
  for (const { path } of [...piece.lines, ...piece.edgeNames]) checkCount(path.length, LIMITS.curves, file);
  if (countCrossings(piece.lines.map((l) => l.path)) > LIMITS.crossings)
    throw new Refusal(problem('lines-too-tangled', { most: LIMITS.crossings }, name));
  return { piece, problems, leftOut: [...unfolded.leftOut, ...marks.leftOut] };
}
