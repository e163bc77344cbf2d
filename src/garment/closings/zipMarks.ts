import {
  type Curve,
  IDENTITY,
  type Matrix,
  type Path,
  type Pt,
  add,
  applyMatrix,
  directionAt,
  endOf,
  flattenPath,
  lengthAt,
  nearestOnCurve,
  nearestOnPath,
  pathLength,
  pathThrough,
  perpendicular,
  pointAt,
  pointAtLength,
  reversePath,
  scale,
  startOf,
  subCurve,
  subtract,
  transformCurve,
  unit,
} from '../../geometry';
import type { Panel, PanelEdge, Seam, SeamId } from '../../panels';
import { type PlacedClosing, type PlacedSide, openingEnd } from './placedClosings';

/** What is drawn for a zip on one cut panel, in the panel's own coordinates. */
export interface ZipMark {
  readonly closing: PlacedClosing;
  /** The stitching line along the opening, as cut, from the upper end; one path for each stretch of boundary. */
  readonly opening: readonly Path[];
  /** The stop: on the stitching line, with the unit vector outwards; null where it lies on another panel. */
  readonly stop: { readonly at: Pt; readonly outward: Pt } | null;
  /** Where the slot of a shown zip is folded and stitched, and its end; empty for a hidden one. */
  readonly slot: readonly Path[];
}

/** A turn and shift taken back. */
function takenBack([a, b, c, d, e, f]: Matrix): Matrix {
  return [a, c, b, d, -(a * e + b * f), -(c * e + d * f)];
}

/** A curve this far from a side does not run along it, mm. */
const ON_SIDE = 0.1;

/** The part of one curve of a panel's boundary that lies along an opening, as cut; and whether the stop lies on it. */
function curveAlong(
  curve: Curve,
  turn: Matrix,
  side: PlacedSide,
  end: number,
): { part: Curve; stop: number | null } | null {
  const flat = turn === IDENTITY ? curve : transformCurve(curve, takenBack(turn));
  if (nearestOnPath(side.path, pointAt(flat, 0.5)).distance > ON_SIDE) return null;
  const along = (t: number): number => lengthAt(side.path, nearestOnPath(side.path, pointAt(flat, t)));
  const [s, t] = [along(0), along(1)];
  const [near, far] = [Math.min(s, t), Math.max(s, t)];
  if (near >= end - 1e-6) return null;
  if (far <= end + 1e-6) return { part: curve, stop: far >= end - 1e-6 ? (t > s ? 1 : 0) : null };
  const at = nearestOnCurve(flat, side.stop).t;
  return { part: t > s ? subCurve(curve, 0, at) : subCurve(curve, at, 1), stop: at };
}

/** The stretch of a panel's edge along an opening, from the upper end, and the stop where it lies on it. */
function alongOpening(edge: PanelEdge, side: PlacedSide): Pick<ZipMark, 'opening' | 'stop'> {
  const end = openingEnd(side);
  let stop: ZipMark['stop'] = null;
  const parts = edge.path.flatMap((curve, i): Curve[] => {
    const found = curveAlong(curve, edge.turns?.[i] ?? IDENTITY, side, end);
    if (!found) return [];
    if (found.stop !== null)
      stop = {
        at: pointAt(curve, found.stop),
        outward: scale(perpendicular(directionAt(curve, found.stop)), -1),
      };
    return [found.part];
  });
  return { opening: parts.length > 0 ? [parts] : [], stop };
}

/** Points beside a stretch of boundary, inwards of the panel by a width, mm. */
function beside(path: Path, width: number): Pt[] {
  const { points } = flattenPath(path);
  return points.map((p, i) => {
    const [before, after] = [points[Math.max(0, i - 1)]!, points[Math.min(points.length - 1, i + 1)]!];
    return add(p, scale(perpendicular(unit(subtract(after, before))), width));
  });
}

/** The slot's fold line on one side, half its width from the stitching line, and square across at the stop. */
function slotLines({ opening, stop }: Pick<ZipMark, 'opening' | 'stop'>, slot: number): Path[] {
  if (slot <= 0) return [];
  const half = slot / 2;
  const lines = opening.map((path) => pathThrough(beside(path, half), false));
  return stop ? [...lines, [[stop.at, subtract(stop.at, scale(stop.outward, half))]]] : lines;
}

const isOnSide = (edge: PanelEdge, side: PlacedSide, seamOf: (id: SeamId) => Seam | undefined): boolean => {
  if (edge.origin.kind === 'outline') return side.edge === edge.origin.edge;
  const line = seamOf(edge.origin.seam)?.line;
  return line !== undefined && line.line === side.line && !line.mirrored;
};

/** What zips put on one panel as it is cut: where the opening runs, the stop, the slot. */
export function zipMarks(
  closings: readonly PlacedClosing[],
  panel: Panel,
  seamOf: (id: SeamId) => Seam | undefined,
): readonly ZipMark[] {
  return closings.flatMap((closing): ZipMark[] => {
    const own = closing.sides.filter((s) => s.piece === panel.piece);
    const edges = [...panel.boundary, ...panel.holes.flat()];
    const found = own.flatMap((side) =>
      edges.filter((e) => isOnSide(e, side, seamOf)).map((e) => alongOpening(e, side)),
    );
    const opening = found.flatMap((f) => f.opening);
    const stop = found.find((f) => f.stop)?.stop ?? null;
    return opening.length > 0
      ? [{ closing, opening, stop, slot: slotLines({ opening, stop }, closing.slot) }]
      : [];
  });
}

/** The middle of the longest stretch of a mark's opening, and the unit vector into the panel: where its words go. */
export function middleOfOpening({ opening }: ZipMark): { at: Pt; inward: Pt; length: number } {
  const longest = opening.reduce((a, b) => (pathLength(b) > pathLength(a) ? b : a));
  const length = pathLength(longest);
  const { point, direction } = pointAtLength(longest, length / 2);
  return { at: point, inward: perpendicular(direction), length };
}

/** A mark as it lies on the panel's mirror image. */
export const movedMark = (mark: ZipMark, m: Matrix): ZipMark => {
  const move = (path: Path): Path => path.map((c) => transformCurve(c, m));
  const at = (p: Pt): Pt => applyMatrix(m, p);
  return {
    ...mark,
    opening: mark.opening.map((path) => reversePath(move(path))),
    stop: mark.stop && {
      at: at(mark.stop.at),
      outward: subtract(at(mark.stop.outward), at([0, 0])),
    },
    slot: mark.slot.map(move),
  };
};

/** Whether two marks are drawn alike. */
export const sameMark = (a: ZipMark, b: ZipMark): boolean => {
  const [p, q] = [a.opening[0], b.opening[0]];
  if (!p || !q || a.closing.slot !== b.closing.slot) return false;
  const near = (x: Pt, y: Pt): boolean => Math.abs(x[0] - y[0]) + Math.abs(x[1] - y[1]) < 0.1;
  return near(startOf(p), startOf(q)) && near(endOf(p), endOf(q));
};
