import {
  type Matrix,
  type Path,
  type Pt,
  applyMatrix,
  centroidOfPoints,
  cross,
  endOf,
  endToEnd,
  flattenRing,
  mirrorAcross,
  startOf,
  subtract,
  transformPath,
} from '../../geometry';
import { type Design, type Piece, type PieceId, swingMap } from '../../pattern';

/** Where a place of the flat piece goes when darts are swung. */
interface Carry {
  readonly point: (p: Pt) => Pt;
  readonly path: (path: Path) => Path;
}

/** From the piece as it is to the piece as it will be; both maps are of the traced half. */
function carryHalf(from: Piece, to: Piece): Carry {
  const [before, after] = [swingMap(from), swingMap(to)];
  const path = (p: Path): Path =>
    endToEnd(
      before
        .backPath(p)
        .flatMap((part) => after.path(part.path))
        .map((part) => part.path),
    );
  return { point: (p) => after.point(before.back(p)), path: (p) => (p.length === 0 ? p : path(p)) };
}

/** On the mirrored side of a piece traced by the half, everything goes the mirrored way. */
function carryWhole(from: Piece, to: Piece): Carry {
  const half = carryHalf(from, to);
  const { fold } = from;
  if (!fold) return half;
  const m: Matrix = mirrorAcross(fold);
  const side = (p: Pt): number => cross(subtract(fold[1], fold[0]), subtract(p, fold[0]));
  const traced = Math.sign(side(centroidOfPoints(flattenRing(from.outline))));
  const isMirrored = (p: Pt): boolean => side(p) * traced < 0;
  const image = (p: Pt): Pt => applyMatrix(m, p);
  return {
    point: (p) => (isMirrored(p) ? image(half.point(image(p))) : half.point(p)),
    path: (path) => {
      const ends = path.length > 0 ? [startOf(path), endOf(path)] : [];
      // a line over the fold keeps its middle: the fold never turns
      return ends.length > 0 && ends.every(isMirrored)
        ? transformPath(half.path(transformPath(path, m)), m)
        : half.path(path);
    },
  };
}

/** A design after a piece has changed its shape by swinging, with what is drawn on it carried along. */
export function carried(before: Design, after: Design, piece: PieceId): Design {
  const [from, to] = [before, after].map((d) => d.pieces.find((p) => p.id === piece));
  if (!from || !to) return after;
  const carry = carryWhole(from, to);
  return {
    ...after,
    lines: after.lines.map((l) => (l.piece === piece ? { ...l, path: carry.path(l.path) } : l)),
    marks: after.marks.map((m) => (m.piece === piece ? { ...m, at: carry.point(m.at) } : m)),
    offGrain: after.offGrain.map((m) => (m.piece === piece ? { ...m, at: carry.point(m.at) } : m)),
  };
}
