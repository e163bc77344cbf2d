import type { ReactElement } from 'react';
import { formatLength } from '../../pattern';
import { curableEnds, type CurableEnd } from '../drawing/openEnd';
import { garmentOf, useBench, useBenchStore, type BenchStore } from '../store/benchStore';
import { reshapeLine } from '../store/lineEdits';
import { Floating } from './Floating';

/** Draw an open end on to the line or edge ahead of it. */
export function cureOpenEnd(store: BenchStore, { line, cured }: CurableEnd): void {
  store.getState().commit('Extend a line', reshapeLine(line, cured));
  store
    .getState()
    .set({ selected: { kind: 'line', line }, spoken: 'The line now reaches the next line or edge.' });
}

/** At every line end in the open: a small button that extends it, below its end so that the way ahead and aside stays free to draw on. */
export function OpenEnds(): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const busy = useBench((s) => s.draft !== null || s.underWay !== null);
  const place = useBench((s) => s.place);
  if (busy || place !== 'lines') return null;
  const garment = garmentOf(store.getState());
  /** Below a pencil's width a length would read as nothing. */
  const byHow = ({ gap }: CurableEnd): string =>
    gap === null || gap < 1 ? '' : ` ${formatLength(gap, doc.units)}`;
  return (
    <>
      {garment.pieces.flatMap(({ whole }) =>
        curableEnds(garment.problems, whole, doc.lines).map((open) => (
          <Floating
            key={`${open.line} ${open.end}`}
            piece={whole.piece.id}
            at={open.at}
            className="cure"
            wanted={open.ahead[0] < -0.3 ? 'left' : 'right'}
          >
            <button
              type="button"
              onClick={() => cureOpenEnd(store, open)}
              aria-label={`Extend${byHow(open)} to the next line or edge`}
              title="to the next line or edge"
            >
              Extend{byHow(open)}
            </button>
          </Floating>
        )),
      )}
    </>
  );
}
