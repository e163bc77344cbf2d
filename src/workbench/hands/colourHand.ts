import { garmentOf, type BenchStore } from '../store/benchStore';
import { paintPanels } from '../store/paintPanels';
import { panelAt, twinOf } from '../drawing/find';
import type { Panel, PanelledPiece } from '../../panels';
import type { Hand, HandAt } from './hand';

/** The panels a dab of colour reaches: the one under the hand, and its mirrored twin when both sides are to be alike. */
export function dabbed(piece: PanelledPiece, panel: Panel, bothSides: boolean): Panel[] {
  const twin = bothSides ? twinOf(piece, panel) : null;
  return twin ? [panel, twin] : [panel];
}

/** Colouring: with a cloth in hand a click dabs it on; without one a click picks the panel. */
export function colourHand(store: BenchStore): Hand {
  const under = ({ piece, p, away }: HandAt): Panel | null =>
    piece && away === 0 ? panelAt(piece.panels, p) : null;
  const dab = (at: HandAt): void => {
    const { held, bothSides, doc, commit, set } = store.getState();
    const panel = under(at);
    if (!panel || !at.piece) return set({ selected: null });
    if (held === null) return set({ selected: { kind: 'panel', panel: panel.id } });
    const colour = doc.colours.find(({ id }) => id === held);
    if (!colour) return;
    commit(`Colour a panel ${colour.name}`, paintPanels(dabbed(at.piece, panel, bothSides), held));
    const number = garmentOf(store.getState()).plan.numbers.get(panel.id);
    set({
      selected: { kind: 'panel', panel: panel.id },
      spoken: `Panel ${number ?? ''} is ${colour.name} now.`,
    });
  };
  return {
    hover: () => undefined,
    press: () => false,
    drag: () => undefined,
    release: (at, dragged) => {
      if (!dragged) dab(at);
    },
    cancel: () => undefined,
    leave: () => undefined,
    cursor: (at) => (under(at) ? (store.getState().held === null ? 'pointer' : 'copy') : 'grab'),
  };
}
