import { useEffect, useRef, type ReactElement } from 'react';
import { type Trim, formatLength, severityOf } from '../../pattern';
import { pathLength, pointAtLength } from '../../geometry';
import { ribbonsToBuy } from '../../fabric';
import { showPlace, useTable } from '../canvas/tableControls';
import { capital, counted } from '../drawing/words';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { sayRibbon } from './sayRibbon';
import { Part } from './Sheet';
import { TrimCard, problemsOf } from './TrimCard';

/** Where a trim lies, in a few words. */
function usePlaceWords(trim: Trim): string {
  const doc = useBench((s) => s.doc);
  const { on } = trim;
  if (on.kind === 'path')
    return `${doc.pieces.find((p) => p.id === on.piece)?.name ?? 'no piece'}, on its own path`;
  const index = doc.lines.findIndex((l) => l.id === on.line);
  const piece = doc.pieces.find((p) => p.id === doc.lines[index]?.piece)?.name ?? '';
  const part = on.from > 0 || on.to < 1 ? ', part of it' : '';
  return `${piece}, line ${index + 1}${part}`;
}

function TrimRow({ trim }: { trim: Trim }): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const open = useBench((s) => s.openTrim === trim.id);
  const where = usePlaceWords(trim);
  const row = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (open) row.current?.scrollIntoView?.({ block: 'nearest' });
  }, [open]);
  const garment = garmentOf(store.getState());
  const runs = garment.trims.filter((t) => t.trim.id === trim.id);
  const notes = problemsOf(garment.problems, trim).filter((p) => severityOf(p) !== 'hint').length;
  const toggle = (): void => {
    store.getState().set({ openTrim: open ? null : trim.id, held: null });
    const [run] = runs;
    if (!open && run)
      showPlace(table, store, run.piece, pointAtLength(run.path, pathLength(run.path) / 2).point, 0);
  };
  return (
    <li ref={row} className={open ? 'chosen' : undefined}>
      <button type="button" className="row-button" aria-expanded={open} onClick={toggle}>
        <span className="chip" style={{ background: trim.fill }} />
        <span>
          {capital(trim.name)}, {formatLength(trim.width, doc.units)}
          <em>
            {where}
            {notes > 0 && ` · ${counted(notes, 'thing')} to look at`}
          </em>
        </span>
      </button>
      {open && <TrimCard trim={trim} runs={runs} />}
    </li>
  );
}

/** Every trim of the garment, and what to buy for them. */
export default function TrimsPart(): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const ribbons = ribbonsToBuy(garmentOf(store.getState()).trims, doc.units);
  return (
    <Part title="Trims" id="trims">
      {doc.trims.length === 0 ? (
        <p className="note">
          None yet. Choose a line where you draw lines, and lay a ribbon, braid or tape on it from there.
        </p>
      ) : (
        <ul className="rows">
          {doc.trims.map((trim) => (
            <TrimRow key={trim.id} trim={trim} />
          ))}
        </ul>
      )}
      {ribbons.length > 0 && (
        <p className="note">
          To buy: {ribbons.map((r) => sayRibbon(r, doc.units)).join('; ')}. Wash them before they are cut.
        </p>
      )}
    </Part>
  );
}
