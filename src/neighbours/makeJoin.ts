import { sewnEdge } from '../pattern';
import { type EdgeInPlace, type EdgeRole } from './edgeRole';
import { type SeamEnd, agreedEnd, isReversed, seamEnds } from './seamEnds';
import type { SeamJoin, SeamSide } from './seamJoin';
import { splitCap } from './sleeveCap';

const wholeSide = ({ whole, edge }: EdgeInPlace): SeamSide => ({
  piece: whole.piece.id,
  edge,
  from: 0,
  to: sewnEdge(whole, edge).length,
});

/** A seam between two edges at their full lengths. */
export function joinEdges(a: EdgeInPlace, b: EdgeInPlace, role: EdgeRole | null): SeamJoin {
  const [ends, others] = [seamEnds(a.whole, a.edge), seamEnds(b.whole, b.edge)];
  const isSame = a.whole === b.whole && a.edge === b.edge;
  return {
    a: wholeSide(a),
    b: wholeSide(b),
    reversed: !isSame && isReversed(ends, others),
    ...agreedEnd(role, ends),
    role,
  };
}

const UNDER: Pick<SeamEnd, 'into'> = { into: 'side seam' };
const SHOULDER: Pick<SeamEnd, 'into'> = { into: 'shoulder' };

/**
 * One armhole with its part of a cap: the cap is joined by two edges one after the other, which meet at the shoulder point.
 * @param front, back sewn lengths of the two armholes, mm
 */
export function joinCap(
  armhole: EdgeInPlace,
  cap: EdgeInPlace,
  isFront: boolean,
  { front, back }: { readonly front: number; readonly back: number },
): SeamJoin {
  const split = splitCap(cap.whole, cap.edge, front, back);
  const isFirst = split.frontFirst === isFront;
  const full = wholeSide(cap);
  const ends = seamEnds(armhole.whole, armhole.edge);
  const [first, last] = seamEnds(cap.whole, cap.edge);
  const part = isFirst
    ? ([
        { ...first, ...UNDER },
        { ...last, ...SHOULDER },
      ] as const)
    : ([
        { ...first, ...SHOULDER },
        { ...last, ...UNDER },
      ] as const);
  return {
    a: wholeSide(armhole),
    b: isFirst ? { ...full, to: split.at } : { ...full, from: split.at },
    reversed: isReversed(ends, part),
    ...agreedEnd('armhole', ends),
    role: 'armhole',
  };
}
