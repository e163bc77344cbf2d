import type { PanelId, PanelledPiece } from '../panels';
import { isInsidePanel } from '../panels';
import { type NumberMark, remember } from '../pattern';

/** The numbers marked in the panels of one piece: of several in one panel the lowest counts. */
const markedIn = remember(
  (piece: PanelledPiece, marks: readonly NumberMark[]): ReadonlyMap<PanelId, number> => {
    const found = new Map<PanelId, number>();
    for (const { at, number } of marks) {
      const panel = piece.panels.find((p) => isInsidePanel(p, at));
      if (panel) found.set(panel.id, Math.min(number, found.get(panel.id) ?? Infinity));
    }
    return found;
  },
);

/**
 * Number panels from 1. Without marks they are numbered in the order they come to hand. With marks a panel keeps the number it is
 * marked with, the others take the lowest free ones in that order; then the highest numbers move into the gaps.
 * @param inOrder all panels, as they first come to hand
 * @param first the lowest number
 */
export function numberPanels(
  pieces: readonly PanelledPiece[],
  inOrder: readonly PanelId[],
  marks: readonly NumberMark[],
  first = 1,
): ReadonlyMap<PanelId, number> {
  const numbers = new Map<PanelId, number>();
  const taken = new Set<number>();
  const give = (panel: PanelId, number: number): void => {
    numbers.set(panel, number);
    taken.add(number);
  };
  for (const piece of marks.length > 0 ? pieces : []) {
    const own = marks.filter((m) => m.piece === piece.whole.piece.id);
    for (const [panel, number] of markedIn(piece, own)) if (!taken.has(number)) give(panel, number);
  }
  let free = first;
  const nextFree = (): number => {
    while (taken.has(free)) free += 1;
    return free;
  };
  for (const panel of inOrder) if (!numbers.has(panel)) give(panel, nextFree());
  const tooHigh = [...numbers].filter(([, n]) => n >= first + inOrder.length).sort((p, q) => p[1] - q[1]);
  for (const [panel] of tooHigh) give(panel, nextFree());
  return numbers;
}
