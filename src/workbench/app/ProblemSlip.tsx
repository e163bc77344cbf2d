import { useState, type ReactElement } from 'react';
import { sayProblem, severityOf, type Problem, type Severity } from '../../pattern';
import { cureOpenEnd } from '../canvas/OpenEnds';
import { showPlace, useTable } from '../canvas/tableControls';
import { curableEnds } from '../drawing/openEnd';
import { counted } from '../drawing/words';
import { type BenchStore, garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { layOverDarts } from '../store/lineEdits';

const ORDER: readonly Severity[] = ['error', 'warning', 'hint'];
const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  error: 'To mend',
  warning: 'Worth a look',
  hint: 'Good to know',
};

/** Loaded when it is wanted: a narrow panel given up for a trim. */
async function trimForPanel(store: BenchStore, number: number): Promise<void> {
  const { panels, plan } = garmentOf(store.getState());
  const panel = panels.find((p) => plan.numbers.get(p.id) === number);
  if (panel) (await import('../sheets/narrowPanels')).layTrimInstead(store, panel.id);
}

function ProblemRow({ problem: p }: { problem: Problem }): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const garment = garmentOf(store.getState());
  const home = garment.pieces.find(({ whole }) => whole.name === p.piece);
  const cure =
    home && p.code === 'line-ends-in-the-open' ? curableEnds([p], home.whole, doc.lines)[0] : undefined;
  const go = (): void => {
    if (!home || !p.at) return;
    showPlace(table, store, home.whole.piece.id, p.at);
    if (p.code === 'trim-end-uncovered') store.getState().set({ place: 'colours', openTrim: p.facts.id });
    else if ('line' in p.facts && typeof p.facts.line === 'string')
      store.getState().set({ place: 'lines', selected: { kind: 'line', line: p.facts.line } });
  };
  return (
    <li className={severityOf(p)}>
      <span className="severity">{SEVERITY_WORDS[severityOf(p)]}</span>
      <p>
        {p.piece && <strong>{p.piece}: </strong>}
        {sayProblem(p, doc.units)}
      </p>
      <div className="actions">
        {home && p.at && (
          <button type="button" onClick={go}>
            Show me
          </button>
        )}
        {p.code === 'tracing-taken-as-net' && (
          <button type="button" onClick={() => store.getState().set({ place: 'pattern', sheetOpen: true })}>
            Look at the allowances
          </button>
        )}
        {p.code === 'line-crosses-dart' && (
          <button
            type="button"
            onClick={() => {
              store
                .getState()
                .commit('Lay a line over its darts as sewn', layOverDarts(p.facts.line, 'sewn'));
              store.getState().set({ spoken: 'The line now meets both legs of the dart equally far out.' });
            }}
          >
            Lay it as sewn
          </button>
        )}
        {p.code === 'panel-too-narrow' && (
          <button type="button" onClick={() => void trimForPanel(store, p.facts.panel)}>
            Lay a trim instead
          </button>
        )}
        {cure && (
          <button type="button" onClick={() => cureOpenEnd(store, cure)}>
            Extend it
          </button>
        )}
      </div>
    </li>
  );
}

/** A slip of paper with everything the bench wants you to see; open only when asked for, except that its count always shows. */
export function ProblemSlip(): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const [open, setOpen] = useState(false);
  const { problems } = garmentOf(store.getState());
  if (problems.length === 0) return <p className="problem-slip all-well">All lines can be sewn.</p>;
  const sorted = [...problems].sort((a, b) => ORDER.indexOf(severityOf(a)) - ORDER.indexOf(severityOf(b)));
  const errors = problems.filter((p) => severityOf(p) === 'error').length;
  const words = errors > 0 ? `${counted(errors, 'thing')} to mend` : counted(problems.length, 'note');
  return (
    <section
      className={errors > 0 ? 'problem-slip has-errors' : 'problem-slip'}
      aria-label="Problems and notes"
    >
      <button type="button" className="slip-head" aria-expanded={open} onClick={() => setOpen(!open)}>
        {words}
      </button>
      {open && (
        <ul>
          {sorted.map((p, i) => (
            <ProblemRow key={`${p.code} ${i}`} problem={p} />
          ))}
        </ul>
      )}
    </section>
  );
}
