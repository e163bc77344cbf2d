import type { ReactElement } from 'react';
import type { PanelLine } from '../../pattern';
import { capital } from '../drawing/words';
import { useBench, useBenchStore } from '../store/benchStore';
import { addTrim, freshTrim, lineToTrim, onLine } from '../store/trimEdits';

/** The trims on a line, and the ways to lay one. */
export function TrimOnLine({ line }: { line: PanelLine }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit, set } = store.getState();
  const own = doc.trims.filter((t) => t.on.kind === 'line' && t.on.line === line.id);
  const open = (openTrim: (typeof own)[number]['id']): void =>
    set({ place: 'colours', sheetOpen: true, selected: null, held: null, openTrim });
  return (
    <div className="actions">
      {own.map((trim) => (
        <button key={trim.id} type="button" onClick={() => open(trim.id)}>
          <span className="chip" style={{ background: trim.fill }} /> {trim.name} on it
        </button>
      ))}
      {own.length === 0 && (
        <button
          type="button"
          onClick={() => {
            const trim = freshTrim(doc, onLine(line.id));
            commit('Lay a trim on a line', addTrim(trim));
            open(trim.id);
            set({
              spoken: `${capital(trim.name)} lies on the line. What it is can be changed in the list of trims.`,
            });
          }}
        >
          Lay a trim on this line
        </button>
      )}
      <button
        type="button"
        title="Nothing is sliced there any more: the trim is sewn on whole cloth"
        onClick={() => {
          commit('Make a line the path of a trim', lineToTrim(line.id));
          const made = store.getState().doc.trims.at(-1);
          if (!made) return;
          open(made.id);
          set({ spoken: `${capital(made.name)} lies where the line was; nothing is sliced there any more.` });
        }}
      >
        Make it a trim without a seam
      </button>
    </div>
  );
}
