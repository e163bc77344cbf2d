import { subtract, type Polyline, type Pt } from '../../geometry';
import { flattenRing } from '../../geometry';
import type { PanelledPiece } from '../../panels';
import { awayFrom } from '../drawing/find';
import type { HandAt } from '../hands/hand';
import { garmentOf, type BenchState } from '../store/benchStore';
import type { Board } from './board';
import { layoutOf } from './layoutOf';

/** Fine enough to tell which piece the hand is on, mm. */
const ROUGH = 1;
const roughOutlines = new WeakMap<object, Polyline>();

function roughOutline({ whole }: PanelledPiece): Polyline {
  const known = roughOutlines.get(whole.outline) ?? flattenRing(whole.outline, ROUGH);
  roughOutlines.set(whole.outline, known);
  return known;
}

interface Pressing {
  readonly pointerType: string;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
}

/** Where a canvas pixel lies: on or nearest to which piece, in whose traced coordinates. */
export function handAt(board: Board, s: BenchState, px: Pt, event: Pressing): HandAt {
  const table = board.toTable(px);
  const garment = garmentOf(s);
  const { shift } = layoutOf(garment);
  const inside = (piece: PanelledPiece): Pt => subtract(table, shift.get(piece.whole.piece.id) ?? [0, 0]);
  let best: { piece: PanelledPiece; away: number } | null = null;
  for (const piece of garment.pieces) {
    const away = awayFrom(roughOutline(piece), inside(piece));
    if (!best || away < best.away) best = { piece, away };
  }
  return {
    piece: best?.piece ?? null,
    p: best ? inside(best.piece) : table,
    away: best?.away ?? Infinity,
    perPixel: 1 / board.zoom(),
    touch: event.pointerType === 'touch',
    alt: event.altKey,
    ctrl: event.ctrlKey || event.metaKey,
    shift: event.shiftKey,
    inside,
  };
}
