import { useCallback, type ReactElement } from 'react';
import { type Problem, type Trim, formatLength, sayProblem, severityOf } from '../../pattern';
import { MOST_STRAIN, type TrimRun } from '../../trim';
import { showPlace, useTable } from '../canvas/tableControls';
import { capital, counted } from '../drawing/words';
import { Choice, Tick } from '../parts/Choice';
import { ColourField } from '../parts/ColourField';
import { LengthField } from '../parts/LengthField';
import { NumberField } from '../parts/NumberField';
import { TextField } from '../parts/TextField';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { addTrim, changeTrim, freshTrim, onLine, removeTrim, trimToLine } from '../store/trimEdits';
import { TrimPlaceFields } from './TrimPlaceFields';
import { cutAsPanel } from './narrowPanels';

/** The length a ribbon sold in lengths usually has, mm: until the user says (common practice, no source). */
const USUAL_PIECE = 5000;

/** What is to be said of one trim. Names may be shared by several that are one ribbon; then places tell. */
export const problemsOf = (problems: readonly Problem[], { id, name }: Trim): readonly Problem[] =>
  problems.filter(
    (p) =>
      p.code.startsWith('trim-') &&
      'trim' in p.facts &&
      p.facts.trim === name &&
      (!('id' in p.facts) || p.facts.id === id),
  );

/** One note of a trim, where it is, and the change that cures it. */
function NoteRow({ trim, problem: p }: { trim: Trim; problem: Problem }): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const { commit } = store.getState();
  const home = garmentOf(store.getState()).pieces.find(({ whole }) => whole.name === p.piece);
  const cure = p.code === 'trim-end-uncovered' ? p.facts.cure : null;
  return (
    <li className={severityOf(p)}>
      <p className="note">{capital(sayProblem(p, doc.units))}</p>
      <div className="actions">
        {home && p.at && (
          <button type="button" onClick={() => showPlace(table, store, home.whole.piece.id, p.at!, 0)}>
            Show me
          </button>
        )}
        {cure?.kind === 'extend' && (
          <button
            type="button"
            onClick={() => commit('Let a trim run on', changeTrim(trim.id, { on: cure.place }))}
          >
            Let it run on
          </button>
        )}
        {cure?.kind === 'cover' && (
          <button
            type="button"
            onClick={() =>
              commit('Lay a trim over another’s end', (d) =>
                addTrim({ ...trim, id: freshTrim(d, trim.on).id, on: onLine(cure.line) })(d),
              )
            }
          >
            Lay one along {cure.label}
          </button>
        )}
      </div>
    </li>
  );
}

/** How long it is, how it ends, and how much it must give. */
function Facts({ trim, runs }: { trim: Trim; runs: readonly TrimRun[] }): ReactElement {
  const { units } = useBench((s) => s.doc);
  const all = runs.reduce((sum, r) => sum + r.length, 0);
  const strain = Math.max(0, ...runs.map((r) => r.strain));
  const percent = `${Math.round(strain * 1000) / 10} %`;
  const most = MOST_STRAIN[trim.kind] * 100;
  if (runs.length === 0) return <p className="note">It lies on nothing that is sewn.</p>;
  return (
    <>
      <p className="note">
        {formatLength(all, units)} to cut, ends included
        {runs.length > 1 && `, in ${counted(runs.length, 'length')}`}.
      </p>
      {strain > 0 && (
        <p className={strain * 100 > most ? 'field-wrong' : 'note'}>
          At the tightest curve its edges must give by {percent}; {most} % lies flat.
        </p>
      )}
    </>
  );
}

/** What kind of ribbon it is. */
function RibbonFields({ trim }: { trim: Trim }): ReactElement {
  const store = useBenchStore();
  const { units } = useBench((s) => s.doc);
  const change = (label: string, patch: Partial<Omit<Trim, 'id'>>): void =>
    store.getState().commit(label, changeTrim(trim.id, patch));
  return (
    <>
      <Choice
        label="Its edges"
        options={[
          ['straight', 'Straight'],
          ['bias', 'Bias'],
          ['scalloped', 'Scalloped'],
        ]}
        value={trim.kind}
        onChoose={(kind) => change('Change the kind of a trim', { kind })}
      />
      <Choice
        label="Stitched on"
        options={[
          ['2', 'Along both edges'],
          ['1', 'Along the middle'],
        ]}
        value={`${trim.rows}`}
        onChoose={(rows) => change('Change the rows of a trim', { rows: rows === '1' ? 1 : 2 })}
      />
      <NumberField
        label="Shrinks, %"
        value={trim.shrinkage}
        most={40}
        onChange={(shrinkage) => change('Change a trim’s shrinkage', { shrinkage: shrinkage ?? 0 })}
      />
      <Tick
        label="Sold in lengths"
        note="Longer runs are joined on the diagonal."
        on={trim.soldIn !== null}
        onChange={(on) => change('Change how a trim is sold', { soldIn: on ? USUAL_PIECE : null })}
      />
      {trim.soldIn !== null && (
        <LengthField
          label="Of"
          value={trim.soldIn}
          units={units}
          least={600}
          most={100_000}
          onChange={(soldIn) => change('Change how a trim is sold', { soldIn })}
        />
      )}
    </>
  );
}

/** Everything about one trim: what it is, where it lies, how it bends and ends. */
export function TrimCard({ trim, runs }: { trim: Trim; runs: readonly TrimRun[] }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit, preview } = store.getState();
  const shown = useBench((s) => s.draft?.trims.find((t) => t.id === trim.id)?.fill ?? trim.fill);
  const choose = useCallback(
    (fill: string) => commit('Change the colour of a trim', changeTrim(trim.id, { fill })),
    [commit, trim.id],
  );
  // the two sides of a piece have the same to say: once is enough
  const notes = problemsOf(garmentOf(store.getState()).problems, trim).filter(
    (p, i, all) =>
      all.findIndex((q) => sayProblem(q, doc.units) === sayProblem(p, doc.units) && q.piece === p.piece) ===
      i,
  );
  return (
    <div className="card trim-card">
      <div className="cloth-row">
        <ColourField
          label={`Change the colour of ${trim.name}`}
          value={shown}
          onLook={(fill) => preview(changeTrim(trim.id, { fill }))}
          onChoose={choose}
        />
        <TextField
          label="Name"
          quiet
          value={trim.name}
          onChange={(name) => commit('Rename a trim', changeTrim(trim.id, { name }))}
        />
      </div>
      <LengthField
        label="Width"
        value={trim.width}
        units={doc.units}
        least={0.5}
        most={500}
        onChange={(width) => commit('Change the width of a trim', changeTrim(trim.id, { width }))}
      />
      <TrimPlaceFields trim={trim} />
      <Facts trim={trim} runs={runs} />
      {notes.length > 0 && (
        <ul className="trim-notes">
          {notes.map((p, i) => (
            <NoteRow key={`${p.code} ${i}`} trim={trim} problem={p} />
          ))}
        </ul>
      )}
      <details>
        <summary>Kind, stitching, how it is sold</summary>
        <div className="fields">
          <RibbonFields trim={trim} />
        </div>
      </details>
      <div className="actions">
        {trim.on.kind === 'path' && (
          <button type="button" onClick={() => commit('Make a trim’s path a line', trimToLine(trim.id))}>
            Make its path a panel line
          </button>
        )}
        {trim.on.kind === 'line' && (
          <button type="button" onClick={() => cutAsPanel(store, trim.id)}>
            Cut it as a panel instead
          </button>
        )}
        <button
          type="button"
          className="warn"
          onClick={() => {
            commit(`Take ${trim.name} off`, removeTrim(trim.id));
            store.getState().set({ openTrim: null, spoken: 'Trim taken off.' });
          }}
        >
          Take it off
        </button>
      </div>
    </div>
  );
}
