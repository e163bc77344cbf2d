import { CUTS_TOUCH, type Pt, distance } from '../../geometry';
import type { LayJob } from '../layPlan';
import { placedPoints } from '../placement';
import { type Laid, type LayFault, fault } from './layFault';
import { type Outline, boxesWithin, leastDistance, outlineOf, overlapOf } from './outlineOverlap';

const mirrored = ({ points }: Outline, width: number): Outline =>
  outlineOf(points.map(([x, y]): Pt => [x, width - y]));

/** Each piece with the first later one of the same panel the other side up: pairs, both ways. Pieces left over are alone. */
function pairsAmong(all: readonly Laid[]): ReadonlyMap<Laid, Laid> {
  const mates = new Map<Laid, Laid>();
  all.forEach((own, i) => {
    if (mates.has(own)) return;
    const mate = all
      .slice(i + 1)
      .find(
        (o) => !mates.has(o) && o.piece.panel === own.piece.panel && o.piece.flipped !== own.piece.flipped,
      );
    if (mate) mates.set(own, mate).set(mate, own);
  });
  return mates;
}

/** Both copies have the same corners in the same order, so each must lie where the fold puts its like. */
function notMirrored(own: Laid, mate: Laid, width: number): LayFault[] {
  const image = mirrored(own.outline, width).points;
  let worst = { by: 0, at: mate.outline.points[0]! };
  mate.outline.points.forEach((at, k) => {
    const by = image[k] ? distance(at, image[k]) : Infinity;
    if (by > worst.by) worst = { by, at };
  });
  return worst.by > CUTS_TOUCH ? [fault('not-mirrored', mate.piece, worst.by, worst.at, own)] : [];
}

/** How far an outline reaches over the fold beyond the side that most of it lies on, and where. */
function overTheFold({ points }: Outline, fold: number): { by: number; at: Pt } {
  const [low, high] = points.reduce(
    ([a, b], p) => [p[1] < a[1] ? p : a, p[1] > b[1] ? p : b],
    [points[0]!, points[0]!],
  );
  const [above, below] = [fold - low[1], high[1] - fold];
  return above < below ? { by: above, at: low } : { by: below, at: high };
}

/** Whether a piece lies on the fold with its middle; such a piece is the only one that may lie across it. */
function liesWithItsMiddle({ piece, placement }: Laid, fold: number): boolean {
  const { middle } = piece;
  if (!middle) return false;
  return placedPoints(middle, placement).every(([, y]) => Math.abs(y - fold) <= CUTS_TOUCH);
}

/** What lies in the other layer where a piece is cut from one alone, or nearer to it there than the gap. */
function otherLayer(own: Laid, all: readonly Laid[], { width, gap }: LayJob): LayFault[] {
  const under = mirrored(own.outline, width);
  return all.flatMap((other): LayFault[] => {
    if (other === own || !boxesWithin(under.box, other.outline.box, gap)) return [];
    const over = overlapOf(under, other.outline);
    if (over && over.depth > CUTS_TOUCH)
      return [fault('other-layer-taken', own.piece, over.depth, over.at, other)];
    const near = gap > 0 ? leastDistance(under, other.outline, gap) : null;
    return near && near.distance < gap - CUTS_TOUCH
      ? [fault('other-layer-taken', own.piece, gap - near.distance, near.at, other)]
      : [];
  });
}

/**
 * What cannot be cut as drawn on cloth folded lengthwise, drawn opened out with the fold at half its width. Pairs lie mirrored about the
 * fold. A piece that is its own mirror image may lie across it with its middle on it, nothing else may. Any other piece is cut
 * from one layer alone: so that the other need not be lifted or pieced round, nothing lies in that one within the gap of its place.
 */
export function foldFaults(all: readonly Laid[], job: LayJob): LayFault[] {
  if (job.layering !== 'folded') return [];
  const fold = job.width / 2;
  const mates = pairsAmong(all);
  return all.flatMap((own): LayFault[] => {
    const mate = mates.get(own);
    const isAcross = !mate && liesWithItsMiddle(own, fold);
    if (isAcross) return [];
    const over = overTheFold(own.outline, fold);
    const across = over.by > CUTS_TOUCH ? [fault('across-the-fold', own.piece, over.by, over.at)] : [];
    if (mate) return own.piece.flipped ? across : [...across, ...notMirrored(own, mate, job.width)];
    return [...across, ...otherLayer(own, all, job)];
  });
}
