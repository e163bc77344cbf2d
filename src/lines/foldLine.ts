import {
  type Path,
  crossStraight,
  distanceToSegment,
  endOf,
  pathLength,
  pointAtLength,
  startOf,
  subtract,
  unit,
} from '../geometry';
import type { LineId, PanelLine, WholePiece } from '../pattern';

/** Lines put along a fold for a zip have ids that begin so: they go when the zip goes. */
const FOR_ZIP = 'zip-line-';

/** The first free id of a line that is put along a fold for a zip. */
export function foldLineId(taken: readonly Pick<PanelLine, 'id'>[]): LineId {
  const ids = new Set<string>(taken.map((l) => l.id));
  let n = 1;
  while (ids.has(`${FOR_ZIP}${n}`)) n += 1;
  return `${FOR_ZIP}${n}` as LineId;
}

/** Whether a line was put along the fold for a zip, and is there only for that. */
export const isFoldLine = ({ id }: Pick<PanelLine, 'id'>): boolean => id.startsWith(FOR_ZIP);

/** Along the fold of a whole piece from one end of the stitching outline to the other; null for a piece without a fold. */
export function pathOnFold({ foldLine, stitching }: WholePiece): Path | null {
  if (!foldLine) return null;
  const [a, b] = foldLine;
  const met = crossStraight(stitching, a, unit(subtract(b, a)));
  const [first, last] = [met[0], met.at(-1)];
  return first && last && first !== last ? [[first.point, last.point]] : null;
}

/** A point this near the fold is on it, mm. */
const ON_FOLD = 0.05;

/** Whether a line lies along the fold of its piece. */
export function liesOnFold({ foldLine }: Pick<WholePiece, 'foldLine'>, path: Path): boolean {
  if (!foldLine || path.length === 0) return false;
  const along = [startOf(path), pointAtLength(path, pathLength(path) / 2).point, endOf(path)];
  return along.every((p) => distanceToSegment(p, ...foldLine).distance <= ON_FOLD);
}
