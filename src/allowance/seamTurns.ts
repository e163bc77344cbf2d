import {
  type Line,
  type Path,
  applyMatrix,
  distance,
  endOf,
  mirrorAcross,
  pathLength,
  pointAtLength,
  startOf,
} from '../geometry';
import type { Seam, SeamId } from '../panels';
import { SAME_CUT } from './mirrorImage';

/** Which seam a seam is the mirror image of across the fold (it may be its own), and whether it runs against it. */
export interface SeamImage {
  readonly of: SeamId;
  readonly isAgainst: boolean;
}

/** Ends, middle and length of a seam: enough to know its mirror image by. */
const summary = (path: Path) => {
  const length = pathLength(path);
  return { start: startOf(path), end: endOf(path), middle: pointAtLength(path, length / 2).point, length };
};

/**
 * Seams of a piece that are the mirror image of an earlier one, or of themselves, across the fold. Panels that are mirror images have
 * match marks that are, so such seams take their marks from one another.
 */
export function seamTurns(seams: readonly Seam[], fold: Line | null): ReadonlyMap<SeamId, SeamImage> {
  const images = new Map<SeamId, SeamImage>();
  if (!fold) return images;
  const mirror = mirrorAcross(fold);
  const known: (ReturnType<typeof summary> & { readonly id: SeamId })[] = [];
  for (const seam of seams) {
    const own = { ...summary(seam.path), id: seam.id };
    const near = (p: (typeof own)['start'], q: (typeof own)['start']): boolean =>
      distance(applyMatrix(mirror, p), q) < SAME_CUT;
    known.push(own);
    const isImage = (k: typeof own): boolean =>
      Math.abs(k.length - own.length) < SAME_CUT && near(k.middle, own.middle);
    const against = known.find((k) => isImage(k) && near(k.start, own.end) && near(k.end, own.start));
    const along = known.find((k) => isImage(k) && near(k.start, own.start) && near(k.end, own.end));
    // a closed line runs both ways at once; what lies on the fold is its own image and runs along itself
    const image = along ?? against;
    if (image) images.set(seam.id, { of: image.id, isAgainst: image === against && image !== along });
  }
  return images;
}
