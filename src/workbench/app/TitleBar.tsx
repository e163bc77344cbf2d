import type { ReactElement } from 'react';
import { useFiles } from '../bringIn/FilesContext';
import { Choice } from '../parts/Choice';
import { TextField } from '../parts/TextField';
import { useBench, useBenchStore } from '../store/benchStore';
import { renameDesign, showUnits } from '../store/patternEdits';
import type { Keeping } from '../store/sessionSlice';

const KEPT_WORDS: Readonly<Record<Keeping['state'], string>> = {
  unsaved: '',
  saving: 'keeping …',
  kept: 'kept in this browser',
  failed: 'not kept',
};

/** The design's name, taking back, units, and saving. */
export function TitleBar(): ReactElement {
  const store = useBenchStore();
  const files = useFiles();
  const name = useBench((s) => s.doc.name);
  const units = useBench((s) => s.doc.units);
  const back = useBench((s) => s.past.at(-1)?.label ?? null);
  const forth = useBench((s) => s.future.at(-1)?.label ?? null);
  const keeping = useBench((s) => s.keeping.state);
  const { commit, undo, redo } = store.getState();
  return (
    <header className="title-bar">
      <h1 className="unseen">Panelwright: {name}</h1>
      <TextField
        label="Name of the design"
        quiet
        className="design-name"
        value={name}
        onChange={(text) => commit('Rename the design', renameDesign(text))}
      />
      <span className="kept" role="status">
        {KEPT_WORDS[keeping]}
      </span>
      <div className="title-actions">
        <button
          type="button"
          className="plain"
          disabled={back === null}
          onClick={undo}
          title={back ? `Take back: ${back} (Ctrl+Z)` : 'Nothing to take back'}
        >
          Undo
        </button>
        <button
          type="button"
          className="plain"
          disabled={forth === null}
          onClick={redo}
          title={forth ? `Again: ${forth} (Ctrl+Shift+Z)` : 'Nothing to do again'}
        >
          Redo
        </button>
        <button type="button" className="plain" onClick={files.save} title="Save to a file (Ctrl+S)">
          Save
        </button>
        <Choice
          label="Lengths in"
          quiet
          options={[
            ['cm', 'cm'],
            ['in', 'inches'],
          ]}
          value={units}
          onChoose={(u) => commit('Change the units', showUnits(u))}
        />
      </div>
    </header>
  );
}
