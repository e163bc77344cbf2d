import { outerEdgesOf, widthAlong, zipIn } from '../garment/telling';
import type { Garment } from '../garment';
import {
  add,
  nearestOnPath,
  pathLength,
  perpendicular,
  pointAtLength,
  scale,
  subPath,
  transformPath,
} from '../geometry';
import type { Box, Matrix, Path, Pt } from '../geometry';
import type { EdgeRef } from '../neighbours';
import type { Panel } from '../panels';
import { edgePath } from '../pattern';
import type { Step } from '../sewing';
import type { Block } from './block';
import { EMPTY_BLOCK } from './block';
import { garmentDrawing, placePieces } from './garmentDrawing';
import { tint } from './ink';
import { boxOf, overlaps, textBox } from './marks';
import type { Lettering, Mark } from './marks';
import { colourOf } from './panelOnPaper';
import { allowanceEdge, arrow, sewnMarks, zipStroke } from './seamMarks';

const PALE = 0.35;

/** Where arrows stand along a hem, as shares of it: the first place of each that is clear of panel numbers. */
const ARROWS = [
  [0.3, 0.2, 0.4, 0.1],
  [0.7, 0.8, 0.6, 0.9],
] as const;

/** Arrows that turn a hem up, from its stitching line inwards. */
function hemMarks(garment: Garment, edge: EdgeRef, m: Matrix, words: readonly Box[]): Mark[] {
  const path = transformPath(edgePath(garment.neighbours.wholes.get(edge.piece)!, edge.edge), m);
  const depth = widthAlong(garment, edge) * m[0];
  const length = pathLength(path);
  const at = (share: number): Mark[] => {
    const { point, direction } = pointAtLength(path, length * share);
    const up: Pt = scale(perpendicular(direction), Math.max(3, depth));
    return arrow(point, add(point, up));
  };
  const isClear = (marks: readonly Mark[]): boolean => !words.some((w) => overlaps(boxOf(marks), w));
  const arrows = ARROWS.flatMap((shares) => {
    const all = shares.map(at);
    return all.find(isClear) ?? all[0]!;
  });
  return [allowanceEdge(path, 1, depth), ...arrows];
}

const endRef = (path: Path): { index: number; t: number } => ({ index: path.length - 1, t: 1 });

/** What of an edge is sewn in a step: all of it, what is below its zip, or, with a band in the round, the panels in hand. */
function sewnPaths(garment: Garment, step: Step, edge: EdgeRef): readonly Path[] {
  const whole = edgePath(garment.neighbours.wholes.get(edge.piece)!, edge.edge);
  const inHand = new Set(step.joins.flat());
  const along = outerEdgesOf(garment, edge);
  const own = along.filter(({ panel }) => inHand.has(panel.id));
  const zip = step.kind === 'join' ? zipIn(garment, step) : null;
  const side = zip?.sides.find((s) => s.piece === edge.piece && s.edge === edge.edge);
  if (side) return [subPath(side.path, nearestOnPath(side.path, side.stop), endRef(side.path))];
  return own.length === along.length || own.length === 0 ? [whole] : own.map((o) => o.edge.path);
}

function edgeMarks(garment: Garment, step: Step, edge: EdgeRef, m: Matrix, words: readonly Box[]): Mark[] {
  const paths = sewnPaths(garment, step, edge)
    .filter((p) => p.length > 0)
    .map((p) => transformPath(p, m));
  if (paths.length === 0) return [];
  return [...sewnMarks(paths), ...(step.kind === 'hem' ? hemMarks(garment, edge, m, words) : [])];
}

/** The pieces of a step side by side, whole again, with the edges that are joined, finished, hemmed or closed drawn thick. */
export function joinPicture(
  lettering: Lettering,
  garment: Garment,
  step: Step,
  size: { readonly width: number; readonly height: number },
): Block {
  const ids = new Set([
    ...step.edges.map((e) => e.piece),
    ...step.joins.flat().flatMap((id) => garment.panelById.get(id)?.piece ?? []),
  ]);
  const edged = new Set(step.edges.map((e) => e.piece));
  const pieces = garment.pieces.filter(({ whole }) => (edged.size > 0 ? edged : ids).has(whole.piece.id));
  if (pieces.length === 0) return EMPTY_BLOCK;
  const style = {
    ...size,
    fill: (panel: Panel): string => tint(colourOf(garment, panel).fill, PALE),
    isNumbered: () => true,
    hasNames: true,
    hasDetail: false,
    numberSize: 3,
    gap: 4,
    beside: 5,
    isSmall: true,
  };
  const picture = garmentDrawing(lettering, garment, pieces, style);
  const { placed } = placePieces(pieces, style);
  const words = picture.marks.flatMap((mark) => (mark.kind === 'text' ? [textBox(mark)] : []));
  const marks = placed.flatMap(({ piece, matrix }) =>
    step.edges
      .filter((e) => e.piece === piece.whole.piece.id)
      .flatMap((e) => edgeMarks(garment, step, e, matrix, words)),
  );
  const zip = step.kind === 'zip' ? zipIn(garment, step) : null;
  const teeth = placed.flatMap(({ piece, matrix }) =>
    zipStroke(
      (zip?.sides ?? [])
        .filter((side) => side.piece === piece.whole.piece.id)
        .map((side) => transformPath(side.opening, matrix)),
    ),
  );
  return { ...picture, marks: [...picture.marks, ...(zip ? teeth : marks)] };
}
