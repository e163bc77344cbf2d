import type { ReactElement } from 'react';
import { lineEndsOf } from '../../garment';
import { continuations, isMeantOff, type Continuation } from '../../neighbours';
import type { PanelLine } from '../../pattern';
import { sayMiss, seamRows, toneOfMiss } from '../drawing/seamWords';
import { shownDesign, shownGarment, useBench, useBenchStore } from '../store/benchStore';
import { continueLine, meanOff } from '../store/edgeEdits';
import { freshLineId } from '../store/lineEdits';

/** Where the chosen line can go on beyond its piece, and where it misses the line it should meet. */
export function ContinueCard({ line }: { line: PanelLine }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench(shownDesign);
  const garment = shownGarment(store.getState());
  const { neighbours } = garment;
  const ends = garment.pieces.flatMap((p) => lineEndsOf(p, doc));
  const ways = continuations(neighbours, doc.lines.find((l) => l.id === line.id) ?? line, ends);
  const misses = seamRows(neighbours)
    .flatMap((s) => s.meetings)
    .filter((m) => (m.a.line === line.id || m.b.line === line.id) && toneOfMiss(m) !== 'good')
    .filter((m) => !isMeantOff(doc.meantOff, m));
  if (ways.length === 0 && misses.length === 0) return null;
  const nameOf = (c: Continuation): string => neighbours.wholes.get(c.piece)!.name;
  const goOn = (c: Continuation): void => {
    const id = freshLineId(doc);
    store.getState().commit(`Continue a line on ${nameOf(c)}`, continueLine(c, id));
    store.getState().set({
      selected: { kind: 'line', line: id },
      spoken:
        c.by === 'seam'
          ? `The line goes on over the ${c.over} on ${nameOf(c)} and follows from now on.`
          : `The line goes on at the same level on ${nameOf(c)}.`,
    });
  };
  return (
    <>
      {misses.map((m) => {
        const other = m.a.line === line.id ? m.b : m.a;
        const mine = m.a.line === line.id ? m.a : m.b;
        return (
          <p className={`miss ${toneOfMiss(m)}`} key={`${m.a.label} ${m.b.label} ${mine.end}`}>
            Misses {other.label} on {neighbours.wholes.get(other.piece)!.name} by {sayMiss(m.mm, doc.units)}.{' '}
            <button
              type="button"
              onClick={() =>
                store
                  .getState()
                  .commit('Let lines miss each other', meanOff([{ line: mine.line, end: mine.end }], true))
              }
            >
              Meant to be off
            </button>
          </p>
        );
      })}
      {ways.length > 0 && (
        <div className="actions">
          {ways.map((c) => (
            <button key={c.key} type="button" onClick={() => goOn(c)}>
              {c.by === 'level'
                ? `Same level on ${nameOf(c)}`
                : `Continue on ${nameOf(c)} over the ${c.over}`}
            </button>
          ))}
        </div>
      )}
    </>
  );
}
