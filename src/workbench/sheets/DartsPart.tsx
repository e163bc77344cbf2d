import { useEffect, useRef, type ReactElement } from 'react';
import { dartOutcome } from '../../panels';
import { dartPoints, nameDart, type PlacedDart, type WholePiece } from '../../pattern';
import { showPlace, useTable } from '../canvas/tableControls';
import { sayAngle, sayNow } from '../drawing/dartWords';
import { capital } from '../drawing/words';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { DartCard } from './DartCard';
import { Part } from './Sheet';

function DartRow({ whole, dart }: { whole: WholePiece; dart: PlacedDart }): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const piece = whole.piece.id;
  const open = useBench((s) => s.openDart?.piece === piece && s.openDart.dart === dart.traced);
  const row = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (open) row.current?.scrollIntoView?.({ block: 'nearest' });
  }, [open]);
  const outcome = dartOutcome(doc, piece, dart.traced);
  const toggle = (): void => {
    store.getState().cancel();
    store.getState().set({ openDart: open ? null : { piece, dart: dart.traced } });
    if (!open) showPlace(table, store, piece, dartPoints(dart)[0]!, 0);
  };
  return (
    <li ref={row} className={open ? 'chosen' : undefined}>
      <button type="button" className="row-button" aria-expanded={open} onClick={toggle}>
        <span>
          {capital(nameDart(dart, whole))}
          {outcome && (
            <em>
              {sayAngle(outcome.angle)} · {sayNow(outcome, doc.units)}
            </em>
          )}
        </span>
      </button>
      {open && <DartCard piece={piece} dart={dart.traced} />}
    </li>
  );
}

/** Every dart of the garment, and what may become of it. */
export default function DartsPart(): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const { pieces } = garmentOf(store.getState());
  const withDarts = pieces
    .map(({ whole }) => ({ whole, darts: firstOfEach(whole) }))
    .filter(({ darts }) => darts.length > 0);
  if (withDarts.length === 0) return null;
  return (
    <Part title="Darts" id="darts">
      {withDarts.map(({ whole, darts }) => (
        <div key={whole.piece.id}>
          {withDarts.length > 1 && <h4>{whole.name}</h4>}
          <ul className="rows">
            {darts.map((dart) => (
              <DartRow key={dart.traced} whole={whole} dart={dart} />
            ))}
          </ul>
        </div>
      ))}
    </Part>
  );
}

/** Each traced dart once, as it lies on its traced side. */
function firstOfEach({ darts }: WholePiece): readonly PlacedDart[] {
  return darts.filter(
    (d, i) => !d.mirrored && darts.findIndex((e) => e.traced === d.traced && !e.mirrored) === i,
  );
}
