import { distance } from '../../geometry';
import type { Trim } from '../../pattern';
import { type TrimHandle, draggedTo, handlesOf, pieceOfTrim, trimAt } from '../drawing/trimHandles';
import { type BenchStore, garmentOf } from '../store/benchStore';
import type { Edit } from '../store/documentSlice';
import { trimOf } from '../store/trimEdits';
import { type Hand, type HandAt, catchReach, grabReach } from './hand';

/** Trims: a click on one lays it open, its ends are dragged along its line; all else is left to the other hand. */
export function trimHand(store: BenchStore, other: Hand): Hand {
  let taken: { trim: Trim; handle: TrimHandle } | null = null;
  let last: Edit | null = null;

  const handleUnder = (at: HandAt): { trim: Trim; handle: TrimHandle } | null => {
    const { openTrim, doc } = store.getState();
    const trim = openTrim ? trimOf(doc, openTrim) : null;
    if (!trim || at.piece?.whole.piece.id !== pieceOfTrim(doc, trim)) return null;
    const near = handlesOf(doc, trim)
      .map((handle) => ({ trim, handle, away: distance(handle.at, at.p) }))
      .sort((a, b) => a.away - b.away)[0];
    return near && near.away <= Math.max(grabReach(at), 9 * at.perPixel) ? near : null;
  };
  const stripUnder = (at: HandAt): Trim | null => {
    const { held } = store.getState();
    if (held !== null || !at.piece) return null;
    return trimAt(garmentOf(store.getState()).trims, at.piece, at.p, grabReach(at) / 2)?.trim ?? null;
  };

  return {
    hover: (at) => other.hover(at),
    press: (at) => {
      taken = handleUnder(at);
      last = null;
      return taken !== null || other.press(at);
    },
    drag: (at) => {
      if (!taken) return other.drag(at);
      const { doc, catching, preview } = store.getState();
      const home = garmentOf(store.getState()).pieceById.get(pieceOfTrim(doc, taken.trim)!)!;
      const p = at.inside(home);
      last = draggedTo(doc, taken.trim, taken.handle.end, p, home, catchReach(at, catching)) ?? last;
      if (last) preview(last);
    },
    release: (at, dragged) => {
      if (taken) {
        if (dragged && last) store.getState().commit('Move the end of a trim', last);
        else store.getState().cancel();
        taken = null;
        return;
      }
      const strip = dragged ? null : stripUnder(at);
      if (!strip) return other.release(at, dragged);
      store.getState().set({ openTrim: strip.id, selected: null, spoken: `${strip.name} chosen.` });
    },
    cancel: () => {
      if (taken) store.getState().cancel();
      else other.cancel();
      taken = null;
    },
    leave: () => other.leave(),
    cursor: (at) => (handleUnder(at) ? 'grab' : stripUnder(at) ? 'pointer' : other.cursor(at)),
  };
}
