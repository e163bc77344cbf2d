import type { PanelId } from '../../panels';
import { type Design, type Outcome, type TrimId, sayProblem } from '../../pattern';
import { panelToTrim, trimToPanel } from '../../trim';
import { type BenchStore, garmentOf } from '../store/benchStore';
import { freshLineId } from '../store/lineEdits';
import { freshTrim } from '../store/trimEdits';

/** Take what came of it, or say why nothing did. */
function take(store: BenchStore, label: string, outcome: Outcome<Design>, said: string): boolean {
  const { commit, set, doc } = store.getState();
  if (outcome.ok) {
    commit(label, () => outcome.value);
    set({ spoken: said });
    return true;
  }
  const lines = outcome.problems.map((p) => sayProblem(p, doc.units));
  set({ notice: { tone: 'bad', title: 'That cannot be had here.', lines, of: doc } });
  return false;
}

/** Lay a trim where a narrow panel is. */
export function layTrimInstead(store: BenchStore, panel: PanelId): void {
  const garment = garmentOf(store.getState());
  const found = garment.panelById.get(panel);
  if (!found) return;
  const piece = garment.pieceById.get(found.piece)!;
  const { id } = freshTrim(garment.design, { kind: 'path', piece: found.piece, path: [], once: true });
  const outcome = panelToTrim(garment.design, piece, found, id);
  if (take(store, 'Lay a trim instead of a narrow panel', outcome, 'A trim lies there now.'))
    store.getState().set({ place: 'colours', sheetOpen: true, openTrim: id, selected: null });
}

/** Cut a panel where a trim lies. */
export function cutAsPanel(store: BenchStore, trim: TrimId): void {
  const { design, pieces } = garmentOf(store.getState());
  const outcome = trimToPanel(design, pieces, trim, freshLineId(design));
  if (take(store, 'Cut a trim as a panel', outcome, 'It is a panel now, between two lines.'))
    store.getState().set({ openTrim: null });
}
