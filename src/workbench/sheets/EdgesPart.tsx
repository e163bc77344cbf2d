import { useEffect, useRef, useState, type ReactElement } from 'react';
import { widthOfEdge } from '../../garment';
import type { EdgeWork, Neighbours } from '../../neighbours';
import { formatLength, placeAtSewn, sewnEdge, type Design, type Piece } from '../../pattern';
import { showPlace, useTable } from '../canvas/tableControls';
import { joinChoices, jobKey, plainChoices, sayJob } from '../drawing/edgeWords';
import { LengthField } from '../parts/LengthField';
import { TextField } from '../parts/TextField';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { agreeTo, answerEdge, callEdge } from '../store/edgeEdits';
import { allowEdge } from '../store/patternEdits';
import { BandOnHem } from './BandOnHem';
import { ZipsOnEdge, useZipsOnEdge } from './ZipCard';

/** The edges of a piece, one of each plain name: settings are kept by that. */
function ofEachName(works: readonly EdgeWork[]): readonly EdgeWork[] {
  return works.filter((w, i) => works.findIndex((o) => o.plainName === w.plainName) === i);
}

/** What becomes of an edge: one choice of plain words, or what it is sewn to. */
function JobField({
  work,
  neighbours,
  label,
}: {
  work: EdgeWork;
  neighbours: Neighbours;
  label: string;
}): ReactElement {
  const store = useBenchStore();
  const joins = joinChoices(work, neighbours);
  const choose = (key: string): void => {
    const choice = [...plainChoices, ...joins].find((c) => c.key === key);
    if (!choice) return;
    store
      .getState()
      .commit(`Say what becomes of ${work.plainName}`, answerEdge(work.piece, work.plainName, choice.job));
    store.getState().set({ spoken: `${work.plainName}: ${choice.words}.` });
  };
  return (
    <label className="select-field">
      {label}
      <select value={jobKey(work.job)} onChange={(e) => choose(e.target.value)}>
        {plainChoices.map((c) => (
          <option key={c.key} value={c.key}>
            {c.words}
          </option>
        ))}
        <optgroup label="a seam">
          {joins.map((c) => (
            <option key={c.key} value={c.key}>
              {c.words}
            </option>
          ))}
        </optgroup>
      </select>
    </label>
  );
}

/** What an edge gets when no width is set for it by hand, mm. */
function usualWidth(doc: Design, work: EdgeWork, neighbours: Neighbours): number {
  const edges = doc.allowances.edges.filter((e) => e.piece !== work.piece);
  return widthOfEdge(work, { allowances: { ...doc.allowances, edges } }, neighbours);
}

/** Everything that can be said of one edge. */
function EdgeCard({ work, neighbours }: { work: EdgeWork; neighbours: Neighbours }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit } = store.getState();
  const usual = usualWidth(doc, work, neighbours);
  const hasZip = useZipsOnEdge(work.piece, work.plainName).length > 0;
  const { naming } = neighbours.wholes.get(work.piece)!.edges[work.edge]!;
  return (
    <div className="card edge-card">
      <TextField
        label="Name"
        value={work.plainName}
        onChange={(name) => {
          commit('Name an edge', callEdge(work.piece, work.plainName, name));
          store.getState().set({ spoken: `The edge is called ${name} now.` });
        }}
      />
      {naming === 'proposed' && (
        <p className="note">Named by its shape and place. Type another name if it is wrong.</p>
      )}
      <JobField work={work} neighbours={neighbours} label="It is" />
      {!hasZip && (
        <LengthField
          label={doc.allowances.tracing.kind === 'cut' ? 'Allowance inside it' : 'Allowance'}
          value={widthOfEdge(work, doc, neighbours)}
          units={doc.units}
          most={200}
          onChange={(mm) =>
            commit(
              `Change the allowance of ${work.plainName}`,
              allowEdge(work.piece, work.plainName, Math.abs(mm - usual) < 1e-6 ? null : mm),
            )
          }
        />
      )}
      {doc.allowances.edges.some((e) => e.piece === work.piece && e.edge === work.plainName) && (
        <div className="actions">
          <button
            type="button"
            onClick={() =>
              commit(`Forget the allowance of ${work.plainName}`, allowEdge(work.piece, work.plainName, null))
            }
          >
            Usual allowance
          </button>
        </div>
      )}
      {work.job.kind === 'hem' && <BandOnHem work={work} />}
      <ZipsOnEdge piece={work.piece} edge={work.plainName} />
      {!hasZip && work.job.kind === 'joins' && (
        <div className="actions">
          <button
            type="button"
            onClick={() => {
              commit(
                `Put a zip into ${work.plainName}`,
                answerEdge(work.piece, work.plainName, { kind: 'zip' }),
              );
              store.getState().set({ spoken: `There is a zip in ${work.plainName} now.` });
            }}
          >
            A zip in this seam
          </button>
        </div>
      )}
      {work.isAnswered && (
        <div className="actions">
          <button
            type="button"
            onClick={() =>
              commit(`Forget what becomes of ${work.plainName}`, answerEdge(work.piece, work.plainName, null))
            }
          >
            As proposed
          </button>
        </div>
      )}
    </div>
  );
}

function EdgeRow({ work, neighbours }: { work: EdgeWork; neighbours: Neighbours }): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const [open, setOpen] = useState(false);
  const row = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (open) row.current?.scrollIntoView?.({ block: 'nearest' });
  }, [open]);
  const toggle = (): void => {
    setOpen(!open);
    const whole = neighbours.wholes.get(work.piece)!;
    const sewn = sewnEdge(whole, work.edge);
    if (!open) showPlace(table, store, work.piece, placeAtSewn(sewn, sewn.length / 2).point, 0);
  };
  return (
    <li ref={row} className={open ? 'chosen' : undefined}>
      <button type="button" className="row-button edge-row" aria-expanded={open} onClick={toggle}>
        <span>
          {work.plainName}
          <em>{sayJob(work, neighbours)}</em>
        </span>
        <span className="edge-width">{formatLength(widthOfEdge(work, doc, neighbours), doc.units)}</span>
      </button>
      {open && <EdgeCard work={work} neighbours={neighbours} />}
    </li>
  );
}

/** Edges without a sure job: asked once, with what is likely filled in. */
function OpenQuestions({
  open,
  neighbours,
  piece,
}: {
  open: readonly EdgeWork[];
  neighbours: Neighbours;
  piece: Piece;
}): ReactElement {
  const store = useBenchStore();
  return (
    <div className="edge-questions" role="group" aria-label={`What becomes of these edges of ${piece.name}?`}>
      <p>What becomes of {open.length === 1 ? 'this edge' : 'these edges'}?</p>
      {open.map((work) => (
        <JobField key={work.plainName} work={work} neighbours={neighbours} label={work.plainName} />
      ))}
      <div className="actions">
        <button
          type="button"
          className="strong"
          onClick={() => {
            store.getState().commit(`Settle the edges of ${piece.name}`, agreeTo(open));
            store.getState().set({ spoken: `The edges of ${piece.name} are settled.` });
          }}
        >
          All right
        </button>
      </div>
    </div>
  );
}

/** The edges of a piece with their jobs and allowances: questions first, then one calm list. */
export function EdgesPart({ piece }: { piece: Piece }): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const { neighbours } = garmentOf(store.getState());
  const works = ofEachName(neighbours.jobs.edges.get(piece.id) ?? []);
  if (works.length === 0) return null;
  const open = works.filter((w) => !w.isSure);
  return (
    <div className="edges-part">
      {open.length > 0 && <OpenQuestions open={open} neighbours={neighbours} piece={piece} />}
      <details className="about-cloth">
        <summary>Edges</summary>
        <ul className="rows">
          {works.map((work) => (
            <EdgeRow key={work.plainName} work={work} neighbours={neighbours} />
          ))}
        </ul>
      </details>
    </div>
  );
}
