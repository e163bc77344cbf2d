import { useRef, useEffect, type ReactElement } from 'react';
import type { Path } from '../../geometry';
import { startOf } from '../../geometry';
import { isTyping } from '../canvas/gestures';
import { useTable } from '../canvas/tableControls';
import { strokeTo } from '../drawing/stroke';
import { catchField } from '../drawing/catchField';
import { lineOf, reshapeLine } from '../store/lineEdits';
import { takeLineAway } from '../store/takeLineAway';
import { PlacingCard } from '../sheets/PlacingCard';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';

/** Typing a digit over the drawing goes to the first distance field. */
function useTypedDigits(): (field: HTMLInputElement | null) => void {
  const field = useRef<HTMLInputElement | null>(null);
  useEffect(() => {
    const typed = (e: KeyboardEvent): void => {
      if (
        !/^[0-9.,]$/.test(e.key) ||
        e.ctrlKey ||
        e.metaKey ||
        e.altKey ||
        isTyping(e.target) ||
        !field.current
      )
        return;
      field.current.focus();
      field.current.select();
    };
    window.addEventListener('keydown', typed);
    return () => window.removeEventListener('keydown', typed);
  }, []);
  return (f) => {
    field.current = f;
  };
}

/** How far the end of a stroke reaches for an edge after its start was typed, mm. */
const TYPED_REACH = 12;

/** Over the drawing while a line is being drawn or is chosen: where it lies, ready to be typed. */
export function StrokeSlip(): ReactElement | null {
  const store = useBenchStore();
  const place = useBench((s) => s.place);
  const doc = useBench((s) => s.doc);
  const underWay = useBench((s) => s.underWay);
  const selected = useBench((s) => s.selected);
  const draft = useBench((s) => s.draft);
  const table = useTable();
  const firstField = useTypedDigits();
  if (place !== 'lines') return null;
  const garment = garmentOf(store.getState());
  if (underWay) {
    const piece = garment.pieceById.get(underWay.piece);
    if (!piece) return null;
    const { stroke } = underWay;
    const long = Math.hypot(stroke.to.at[0] - stroke.from.at[0], stroke.to.at[1] - stroke.from.at[1]) > 1;
    const path: Path = [[stroke.from.at, stroke.to.at]];
    const move = (next: Path): void => {
      const field = catchField(piece);
      const from = { ...stroke.from, at: startOf(next) };
      const { anyAngle } = store.getState();
      store.getState().set({
        underWay: {
          piece: underWay.piece,
          from,
          stroke: strokeTo(piece.whole, field, from, stroke.to.at, { anyAngle, reach: TYPED_REACH }),
        },
      });
    };
    return (
      <div className="stroke-slip">
        {long ? (
          <PlacingCard
            piece={piece}
            path={path}
            units={doc.units}
            without={null}
            onPlace={move}
            firstField={firstField}
          />
        ) : (
          <p>Now click or tap where the line ends.</p>
        )}
        <button type="button" className="plain" onClick={() => table.cancelHand()}>
          Leave off
        </button>
      </div>
    );
  }
  const line = selected?.kind === 'line' ? lineOf(draft ?? doc, selected.line) : null;
  const piece = line ? garment.pieceById.get(line.piece) : undefined;
  if (!line || !piece) return null;
  return (
    <div className="stroke-slip">
      <PlacingCard
        piece={piece}
        path={line.path}
        units={doc.units}
        without={line.id}
        onPlace={(path) => store.getState().commit('Place a line', reshapeLine(line.id, path))}
        firstField={firstField}
      />
      <button type="button" className="plain" onClick={() => takeLineAway(store, line.id)}>
        Delete
      </button>
    </div>
  );
}
