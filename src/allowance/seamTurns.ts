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
import type { SeamTurn } from './matchMarks';
import { SAME_CUT } from './mirrorImage';

/** Ends, middle and length of a seam: enough to know its mirror image by. */
const summary = (path: Path) => {
  const length = pathLength(path);
  return { start: startOf(path), end: endOf(path), middle: pointAtLength(path, length / 2).point, length };
};

/**
 * Which notch places each seam of a piece takes, by running number in the order of the seams. A seam and its mirror image across the fold
 * take places that are mirror images, so that panels that are mirror images have notches that are.
 */
export function seamTurns(seams: readonly Seam[], fold: Line | null): ReadonlyMap<SeamId, SeamTurn> {
  const turns = new Map<SeamId, SeamTurn>();
  const known: (ReturnType<typeof summary> & SeamTurn)[] = [];
  const mirror = fold && mirrorAcross(fold);
  seams.forEach((seam, i) => {
    const own = summary(seam.path);
    const near = (p: (typeof own)['start'], q: (typeof own)['start']): boolean =>
      mirror !== null && distance(applyMatrix(mirror, p), q) < SAME_CUT;
    const image = known.find((k) => Math.abs(k.length - own.length) < SAME_CUT && near(k.middle, own.middle));
    const isAlike = image && near(image.start, own.start) && near(image.end, own.end);
    const isAgainst = image && near(image.start, own.end) && near(image.end, own.start);
    const turn =
      image && (isAlike || isAgainst)
        ? { running: image.running, fromEnd: image.fromEnd !== isAgainst }
        : { running: i, fromEnd: false };
    turns.set(seam.id, turn);
    known.push({ ...own, ...turn });
  });
  return turns;
}
