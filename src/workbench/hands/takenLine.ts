import { distance, endOf, startOf, subtract, type Path, type Pt } from '../../geometry';
import type { PanelledPiece } from '../../panels';
import { type PanelLine, grainFrame } from '../../pattern';
import { bendPath, middleOf } from '../drawing/bendLine';
import { catchField, type CatchField, type CatchSpot } from '../drawing/catchField';
import { catchAnywhere, catchOnStraight, free, type Caught } from '../drawing/catchPoint';
import { lineAt, seenBy } from '../drawing/find';
import { squaredDirection } from '../drawing/grainRun';
import { catchMovement, isStraight, moveEnd, movePath } from '../drawing/moveLine';
import { catchReach, grabReach, type HandAt } from './hand';

/** A selected line taken hold of: by an end, by the middle of a curve, or as a whole. */
export interface TakenLine {
  readonly line: PanelLine;
  readonly piece: PanelledPiece;
  readonly reflect: boolean;
  readonly hold:
    | { readonly by: 'start' | 'end' }
    | { readonly by: 'middle'; readonly curve: number }
    | { readonly by: 'whole' };
  readonly from: Pt;
  readonly field: CatchField;
}

/** The line's new path, and what the tip has caught. */
export interface Reshaped {
  readonly path: Path;
  readonly tip: Caught;
  readonly label: string;
}

/** This near, mm per pixel apart, an end being dragged falls square to the grain again. */
const SQUARE_PIXELS = 7;

function holdAt(line: PanelLine, q: Pt, reach: number): TakenLine['hold'] | null {
  const spots = [
    { hold: { by: 'start' as const }, at: startOf(line.path) },
    { hold: { by: 'end' as const }, at: endOf(line.path) },
    ...line.path.map((curve, i) => ({ hold: { by: 'middle' as const, curve: i }, at: middleOf(curve) })),
  ];
  const near = spots
    .map((spot) => ({ ...spot, away: distance(spot.at, q) }))
    .sort((a, b) => a.away - b.away)[0]!;
  return near.away <= reach ? near.hold : null;
}

/** Take hold of the selected line under the hand, or its mirror image; null when it is not there. */
export function takeLine(line: PanelLine, piece: PanelledPiece, at: HandAt): TakenLine | null {
  if (line.path.length === 0) return null;
  const { whole } = piece;
  const reach = grabReach(at) * 1.3;
  for (const reflect of whole.foldLine && !line.once ? [false, true] : [false]) {
    const q = seenBy(whole, reflect, at.inside(piece));
    const hold = holdAt(line, q, reach);
    if (hold) return { line, piece, reflect, hold, from: q, field: catchField(piece, line.id) };
  }
  const held = lineAt(whole, [line], at.inside(piece), grabReach(at));
  if (!held) return null;
  return {
    line,
    piece,
    reflect: held.reflect,
    hold: { by: 'whole' },
    from: seenBy(whole, held.reflect, at.inside(piece)),
    field: catchField(piece, line.id),
  };
}

/** An end under the hand: caught, or falling square to the grain where it comes near enough to it. */
function endUnderHand(
  taken: TakenLine,
  q: Pt,
  other: Pt,
  reach: number,
  perPixel: number,
  anyAngle: boolean,
): Caught {
  if (!anyAngle && reach > 0 && isStraight(taken.line.path)) {
    const direction = squaredDirection(grainFrame(taken.piece.whole), other, q);
    const along = (q[0] - other[0]) * direction[0] + (q[1] - other[1]) * direction[1];
    const off = distance(q, [other[0] + direction[0] * along, other[1] + direction[1] * along]);
    if (off <= SQUARE_PIXELS * perPixel) {
      const caught = catchOnStraight(taken.field, other, direction, q, reach);
      return caught.kind
        ? { ...caught, word: `${caught.word ?? ''}, square` }
        : { ...caught, kind: 'square', word: 'square' };
    }
  }
  return catchAnywhere(taken.field, q, reach);
}

/**
 * What the hand makes of the line now. Always from the line as taken, so that a long drag cannot drift.
 * @param cheap spots that a line moved as a whole catches on besides all else
 */
export function reshape(
  taken: TakenLine,
  at: HandAt,
  manner: { anyAngle: boolean; catching: boolean },
  cheap: readonly CatchSpot[] = [],
): Reshaped {
  const q = seenBy(taken.piece.whole, taken.reflect, at.inside(taken.piece));
  const reach = catchReach(at, manner.catching);
  const { path } = taken.line;
  const { hold } = taken;
  if (hold.by === 'middle')
    return { path: bendPath(path, hold.curve, q), tip: free(q), label: 'Bend a line' };
  if (hold.by === 'whole') {
    const { curves, spots } = taken.field;
    const field = { curves, spots: [...spots, ...cheap] };
    const { delta, caught } = catchMovement(path, field, subtract(q, taken.from), reach);
    const moved = movePath(path, taken.field, delta);
    return {
      path: moved,
      tip: {
        at: middleOf(moved[Math.floor(moved.length / 2)]!),
        kind: caught?.kind ?? null,
        word: caught?.word ?? null,
      },
      label: 'Move a line',
    };
  }
  const other = hold.by === 'start' ? endOf(path) : startOf(path);
  const tip = endUnderHand(taken, q, other, reach, at.perPixel, manner.anyAngle || at.alt);
  return { path: moveEnd(path, hold.by, tip.at), tip, label: 'Move the end of a line' };
}
