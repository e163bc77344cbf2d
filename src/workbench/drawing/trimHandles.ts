import {
  type Path,
  type Pt,
  distance,
  endOf,
  lengthAt,
  nearestOnPath,
  pathLength,
  pointAtLength,
  startOf,
} from '../../geometry';
import type { PanelledPiece } from '../../panels';
import { type Design, type Trim, withPathEnds } from '../../pattern';
import type { TrimRun } from '../../trim';
import type { Edit } from '../store/documentSlice';
import { lineOf } from '../store/lineEdits';
import { moveTrimEnd, reshapeTrim } from '../store/trimEdits';

/** An end of a trim that can be taken hold of, in its piece's traced coordinates. */
export interface TrimHandle {
  readonly end: 'from' | 'to';
  readonly at: Pt;
}

/** The path a trim lies along as drawn, and the part of it that it covers. */
export function drawnCourse(
  design: Pick<Design, 'lines'>,
  { on }: Trim,
): { readonly path: Path; readonly from: number; readonly to: number } | null {
  if (on.kind === 'path') return { path: on.path, from: 0, to: 1 };
  const line = design.lines.find((l) => l.id === on.line);
  return line ? { path: line.path, from: on.from, to: on.to } : null;
}

/** The piece a trim lies on. */
export const pieceOfTrim = (design: Design, { on }: Trim): PanelledPiece['whole']['piece']['id'] | null =>
  on.kind === 'path' ? on.piece : (lineOf(design, on.line)?.piece ?? null);

/** Both ends of a trim; none where it lies along nothing. */
export function handlesOf(design: Design, trim: Trim): readonly TrimHandle[] {
  const course = drawnCourse(design, trim);
  if (!course || course.path.length === 0) return [];
  const total = pathLength(course.path);
  return (['from', 'to'] as const).map((end) => ({
    end,
    at: pointAtLength(course.path, course[end] * total).point,
  }));
}

/** Where an end catches: the junctions along its line, and its line's own ends. */
function catches(path: Path, piece: PanelledPiece): Pt[] {
  const near = piece.nodePoints.filter((n) => nearestOnPath(path, n).distance < 1);
  return [startOf(path), endOf(path), ...near];
}

/** Outline and panel lines an end of a path of its own may be drawn to. */
const edgesNear = ({ whole, seams }: PanelledPiece, p: Pt, reach: number): Pt | null =>
  [whole.stitching, ...seams.map((s) => s.path)]
    .map((path) => nearestOnPath(path, p))
    .filter((n) => n.distance <= reach)
    .sort((a, b) => a.distance - b.distance)[0]?.point ?? null;

/** The edit that takes an end of a trim to where the hand is; `reach` is how near it must come to be caught, mm. */
export function draggedTo(
  design: Design,
  trim: Trim,
  end: 'from' | 'to',
  p: Pt,
  piece: PanelledPiece,
  reach: number,
): Edit | null {
  const course = drawnCourse(design, trim);
  if (!course || course.path.length === 0) return null;
  const { path } = course;
  if (trim.on.kind === 'path') {
    const to = edgesNear(piece, p, reach) ?? p;
    const [a, b] = end === 'from' ? [to, endOf(path)] : [startOf(path), to];
    return distance(a, b) < 5 ? null : reshapeTrim(trim.id, withPathEnds(path, a, b));
  }
  const caught = catches(path, piece)
    .filter((c) => distance(c, p) <= reach)
    .sort((a, b) => distance(a, p) - distance(b, p))[0];
  return moveTrimEnd(trim.id, end, lengthAt(path, nearestOnPath(path, caught ?? p)) / pathLength(path));
}

/** The run of trim under a place, the one laid last; null where none lies. */
export const trimAt = (
  trims: readonly TrimRun[],
  piece: PanelledPiece,
  p: Pt,
  reach: number,
): TrimRun | null =>
  trims.findLast(
    (run) =>
      run.piece === piece.whole.piece.id &&
      nearestOnPath(run.path, p).distance <= Math.max(run.trim.width / 2, reach),
  ) ?? null;
