import {
  JOIN_GAP,
  type Line,
  type Path,
  type Pt,
  applyMatrix,
  distanceToSegment,
  endOf,
  mirrorAcross,
  mix,
  nearestOnPath,
  pathLength,
  pointAtLength,
  reversePath,
  startOf,
  transformPath,
} from '../geometry';
import { type PanelLine, type PlacedDart, type WholePiece, withPathEnds } from '../pattern';
import { mendPath, throughPoints } from './darts/mendPath';
import type { LaidLine } from './panel';

const touches = (p: Pt, fold: Line): boolean => distanceToSegment(p, ...fold).distance <= JOIN_GAP;

function ontoFold(p: Pt, [a, b]: Line): Pt {
  return mix(a, b, distanceToSegment(p, a, b).t);
}

/** Whether a line is its own mirror image: drawn along the fold, or square across it on both sides alike. */
function isOwnImage(path: Path, image: Path): boolean {
  const half = pathLength(path) / 2;
  return [startOf(path), pointAtLength(path, half).point, endOf(path)].every(
    (p) => nearestOnPath(image, p).distance <= JOIN_GAP,
  );
}

/**
 * A line over a dart that it swallows can only be laid as it is sewn; over one that is kept, it is laid as the user wants it. Either
 * way it stays near to where it was drawn: one that was drawn with the dart folded shut meets both legs alike and stays as it is.
 */
function layOverDarts({ path, overDarts }: PanelLine, darts: readonly PlacedDart[]): Path {
  return darts.reduce((laid, dart) => {
    if (dart.close !== null) return mendPath(throughPoints(laid, dart), dart);
    return overDarts === 'sewn' ? mendPath(laid, dart) : laid;
  }, path);
}

/**
 * A drawn line as it lies on the whole piece: alone, with its mirror image, or joined with it over the fold.
 * `order` is the line's place in the design's drawing order.
 */
export function layLine(
  line: PanelLine,
  order: number,
  { foldLine, darts }: WholePiece,
): readonly LaidLine[] {
  const label = `L${order + 1}`;
  const laid = (path: Path, mirrored: boolean, image: LaidLine['image'] = null): LaidLine => ({
    line: line.id,
    order,
    mirrored,
    isMirroring: foldLine !== null && !line.once,
    label: mirrored ? `${label} mirrored` : label,
    path,
    image,
  });
  if (line.path.length === 0) return [];
  const path = layOverDarts(line, darts);
  if (!foldLine || line.once) return [laid(path, false)];
  const m = mirrorAcross(foldLine);
  const image = transformPath(path, m);
  if (isOwnImage(path, image)) return [laid(path, false, touches(startOf(path), foldLine) ? null : 'itself')];
  const [a, b] = [startOf(path), endOf(path)];
  const start = touches(a, foldLine) ? ontoFold(a, foldLine) : null;
  const end = touches(b, foldLine) ? ontoFold(b, foldLine) : null;
  if (!start && !end) return [laid(path, false), laid(image, true)];
  const own = withPathEnds(path, start ?? a, end ?? b);
  const back = withPathEnds(reversePath(image), end ?? applyMatrix(m, b), start ?? applyMatrix(m, a));
  if (end) return [laid([...own, ...back], false, 'after')];
  return [laid([...back, ...own], false, 'before')];
}

/** All lines of one piece, in drawing order. */
export const layLines = (
  lines: readonly { readonly line: PanelLine; readonly order: number }[],
  whole: WholePiece,
): readonly LaidLine[] => lines.flatMap(({ line, order }) => layLine(line, order, whole));
