import type { Design, LineId } from '../../pattern';
import type { BenchStore } from './benchStore';
import { deleteLine } from './lineEdits';

/** What goes with a line, in words: `Line deleted, with the ribbon on it and the zip in it.` */
function deletedWords({ trims, closings }: Design, line: LineId): string {
  const gone = [
    ...trims
      .filter(({ on }) => on.kind === 'line' && on.line === line)
      .map(({ name }) => `the ${name} on it`),
    ...closings.filter(({ on }) => on.kind === 'line' && on.line === line).map(() => 'the zip in it'),
  ];
  return gone.length === 0 ? 'Line deleted.' : `Line deleted, with ${gone.join(' and ')}.`;
}

/** Delete a line with all that is on it, and say what went. */
export function takeLineAway(store: BenchStore, line: LineId): void {
  const { doc, commit, set } = store.getState();
  commit('Delete a line', deleteLine(line));
  set({ selected: null, spoken: deletedWords(doc, line) });
}
