import { lazy, Suspense, type ReactElement } from 'react';
import { pathLength } from '../../geometry';
import type { PanelledPiece } from '../../panels';
import { formatLength, type PanelLine } from '../../pattern';
import { bowed, bowOf, straightened } from '../drawing/bendLine';
import { isStraight } from '../drawing/moveLine';
import { Tick } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { useBench, useBenchStore } from '../store/benchStore';
import { keepToOneSide, reorderLine, reshapeLine } from '../store/lineEdits';
import { takeLineAway } from '../store/takeLineAway';

/** Loaded when a line is first chosen. */
const TiesCard = lazy(() => import('./TiesCard').then((m) => ({ default: m.TiesCard })));

const ContinueCard = lazy(() => import('./ContinueCard').then((m) => ({ default: m.ContinueCard })));
const OverDarts = lazy(() => import('./OverDarts').then((m) => ({ default: m.OverDarts })));

const SewnWithLine = lazy(() => import('./SewnWithLine').then((m) => ({ default: m.SewnWithLine })));
const TrimOnLine = lazy(() => import('./TrimOnLine').then((m) => ({ default: m.TrimOnLine })));

const SpotPart = lazy(() => import('../cost/SpotPart').then((m) => ({ default: m.SpotPart })));

const LineWidth = lazy(() => import('./LineWidth').then((m) => ({ default: m.LineWidth })));

/** What can be done with the chosen line. */
export function LineCard({ line, piece }: { line: PanelLine; piece: PanelledPiece }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit } = store.getState();
  const index = doc.lines.indexOf(line);
  return (
    <div className="card">
      <Suspense fallback={<p className="note">…</p>}>
        <TiesCard line={line} whole={piece.whole} />
        <ContinueCard line={line} />
        <OverDarts line={line} whole={piece.whole} />
        <LineWidth line={line} />
        <SewnWithLine line={line} />
        <TrimOnLine line={line} />
        <SpotPart />
      </Suspense>
      <p className="note">{formatLength(pathLength(line.path), doc.units)} long as drawn</p>
      {line.path.length === 1 && (
        <LengthField
          label="Bow of its middle"
          value={bowOf(line.path[0]!)}
          units={doc.units}
          least={-1000}
          most={1000}
          onChange={(bow) => commit('Bend a line', reshapeLine(line.id, bowed(line.path, 0, bow)))}
        />
      )}
      {piece.whole.unfolded && (
        <Tick
          label="This side only"
          on={line.once}
          onChange={(once) =>
            commit(once ? 'Keep a line to one side' : 'Mirror a line', keepToOneSide(line.id, once))
          }
        />
      )}
      <div className="actions">
        {!isStraight(line.path) && (
          <button
            type="button"
            onClick={() => commit('Straighten a line', reshapeLine(line.id, straightened(line.path)))}
          >
            Straighten
          </button>
        )}
        <button
          type="button"
          disabled={index <= 0}
          onClick={() => commit('Let a line run through earlier', reorderLine(line.id, -1))}
          title="Where two lines cross, the earlier one runs through"
        >
          Earlier
        </button>
        <button
          type="button"
          disabled={index < 0 || index >= doc.lines.length - 1}
          onClick={() => commit('Let a line run through later', reorderLine(line.id, 1))}
        >
          Later
        </button>
        <button type="button" className="warn" onClick={() => takeLineAway(store, line.id)}>
          Delete
        </button>
      </div>
    </div>
  );
}
