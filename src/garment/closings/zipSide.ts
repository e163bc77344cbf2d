import {
  type Path,
  type Pt,
  distance,
  endOf,
  endToEnd,
  pathLength,
  reversePath,
  startOf,
} from '../../geometry';
import { type SeamJoin, type Wholes, type Zip, edgesOfZip, roleOfName, sameEdge } from '../../neighbours';
import { type PanelledPiece, placeAlong, sewnLength } from '../../panels';
import {
  type LineId,
  type PieceId,
  type WholePiece,
  acrossFromMiddle,
  heightOf,
  placeAtSewn,
  sewnEdge,
} from '../../pattern';

/** One side of the seam a zip is in, on the flat piece; a panel line has one for both of its sides. */
export interface ZipSide {
  readonly piece: PieceId;
  /** Index into WholePiece.edges; null for a panel line. */
  readonly edge: number | null;
  readonly line: LineId | null;
  /** The whole seam on this side, from its upper end. */
  readonly path: Path;
  /** Its length with darts sewn, mm. */
  readonly length: number;
}

/** Whether a path's last end is the upper one: the higher one along the grain, or for a level seam the left one as drawn. */
function endsUp(whole: WholePiece, path: Path): boolean {
  const [a, b] = [startOf(path), endOf(path)];
  const fall = heightOf(whole, b) - heightOf(whole, a);
  const run = acrossFromMiddle(whole, b) - acrossFromMiddle(whole, a);
  return Math.abs(fall) >= Math.abs(run) ? fall < 0 : run < 0;
}

const fromTop = (path: Path, isUpsideDown: boolean): Path => (isUpsideDown ? reversePath(path) : path);

/** Both edges of a seam, or the one edge of a pair or of no seam, each from the end that is the upper one on the zip's own edge. */
function edgeSides(zip: Zip, wholes: Wholes): ZipSide[] {
  const own = zip.edge!;
  const upsideDown = endsUp(wholes.get(own.piece)!, sewnEdge(wholes.get(own.piece)!, own.edge).path);
  return edgesOfZip(zip).map(({ piece, edge }): ZipSide => {
    const { path, length } = sewnEdge(wholes.get(piece)!, edge);
    const isOwn = sameEdge({ piece, edge }, own);
    const turned = isOwn ? upsideDown : upsideDown !== (zip.join as SeamJoin).reversed;
    return { piece, edge, line: null, path: fromTop(path, turned), length };
  });
}

/** The longest connected stretch of a panel line as it is laid, not of its mirror image. Null where it divides nothing. */
function lineSide(line: LineId, pieces: readonly PanelledPiece[]): ZipSide | null {
  for (const { whole, runs } of pieces) {
    const paths = runs
      .filter((r) => r.line.line === line && !r.line.mirrored)
      .map((r) => endToEnd(r.stretches.map((s) => s.path)));
    if (paths.length === 0) continue;
    const longest = paths.reduce((a, b) => (pathLength(b) > pathLength(a) ? b : a));
    const path = fromTop(longest, endsUp(whole, longest));
    return { piece: whole.piece.id, edge: null, line, path, length: sewnLength(path, whole.darts) };
  }
  return null;
}

/** The sides of a zip's seam, its own first. Empty where there is nothing to set it into. */
export function zipSides(zip: Zip, wholes: Wholes, pieces: readonly PanelledPiece[]): readonly ZipSide[] {
  if (zip.on.kind === 'line') {
    const side = lineSide(zip.on.line, pieces);
    return side ? [side] : [];
  }
  const sides = zip.edge ? edgeSides(zip, wholes) : [];
  const own = sides.findIndex((s) => s.piece === zip.edge?.piece && s.edge === zip.edge.edge);
  return own > 0 ? [sides[own]!, ...sides.filter((_, i) => i !== own)] : sides;
}

/** The point of a side at a sewn length from its upper end, mm. */
export function placeOnSide({ edge, path, length }: ZipSide, whole: WholePiece, sewn: number): Pt {
  if (edge === null) return placeAlong(path, whole.darts, sewn).point;
  const own = sewnEdge(whole, edge);
  const isTurned = own.path.length > 0 && startOf(own.path) !== startOf(path);
  return placeAtSewn(own, isTurned ? length - sewn : sewn).point;
}

/** Neighbouring edges end this near each other, mm: re-fitted stitching lines end a little off. */
const AT_END = 0.05;

/** Whether a seam begins at the waist: at an edge named so, or where a level of that name is. */
export function startsAtWaist({ edge, path }: ZipSide, whole: WholePiece): boolean {
  if (edge === null) return false;
  const n = whole.edges.length;
  const beside = [whole.edges[(edge + 1) % n]!, whole.edges[(edge + n - 1) % n]!];
  const top = startOf(path);
  return beside.some((e) => {
    if (roleOfName(e.plainName) !== 'waist') return false;
    const ends = sewnEdge(whole, whole.edges.indexOf(e)).path;
    return ends.length > 0 && [startOf(ends), endOf(ends)].some((p) => distance(p, top) < AT_END);
  });
}
