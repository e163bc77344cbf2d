import type { Hand } from './hand';
import type { BenchStore } from '../store/benchStore';
import { panelAt } from '../drawing/find';

/** Looking only: a click picks a panel, a drag moves the table. */
export function lookHand(store: BenchStore): Hand {
  return {
    hover: () => undefined,
    press: () => false,
    drag: () => undefined,
    release: ({ piece, p }, dragged) => {
      if (dragged) return;
      const panel = piece ? panelAt(piece.panels, p) : null;
      store.getState().set({ selected: panel ? { kind: 'panel', panel: panel.id } : null });
    },
    cancel: () => undefined,
    leave: () => undefined,
    cursor: () => 'grab',
  };
}
