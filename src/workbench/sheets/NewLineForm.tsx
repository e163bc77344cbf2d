import { useEffect, useId, useRef, useState, type FormEvent, type ReactElement } from 'react';
import type { PieceId } from '../../pattern';
import { parseLength } from '../../pattern';
import { lineReferences, placedLine, type LineDirection } from '../drawing/placedLine';
import { useTable } from '../canvas/tableControls';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { drawLine, freshLineId } from '../store/lineEdits';

/** The form of NewLineCard: loaded when it is first opened, and its first field taken then. */
export function NewLineForm(): ReactElement | null {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const mirroring = useBench((s) => s.mirroring);
  const id = useId();
  const first = useRef<HTMLSelectElement>(null);
  useEffect(() => first.current?.focus(), []);
  const garment = garmentOf(store.getState());
  const [pieceId, setPieceId] = useState<PieceId | null>(null);
  const [direction, setDirection] = useState<LineDirection>('across');
  const [referenceKey, setReferenceKey] = useState<string | null>(null);
  const [way, setWay] = useState<'before' | 'after'>('after');
  const [distance, setDistance] = useState('0');
  const [wrong, setWrong] = useState<string | null>(null);
  const piece = garment.pieces.find(({ whole }) => whole.piece.id === pieceId) ?? garment.pieces[0];
  if (!piece) return null;
  const references = lineReferences(piece.whole, direction);
  const reference = references.find(({ key }) => key === referenceKey) ?? references[0]!;

  const draw = (e: FormEvent): void => {
    e.preventDefault();
    const mm = parseLength(distance, doc.units);
    if (mm === null) return setWrong(`“${distance}” is not a length.`);
    const placed = placedLine(piece.whole, direction, reference, (way === 'after' ? 1 : -1) * mm, mirroring);
    if (!placed) return setWrong('There is nothing of the piece at that height or distance.');
    setWrong(null);
    table.cancelHand();
    const line = freshLineId(doc);
    store
      .getState()
      .commit(
        `Draw a line on ${piece.whole.name}`,
        drawLine(line, piece.whole.piece.id, placed.path, placed.once, reference.base),
      );
    store.getState().set({ selected: { kind: 'line', line }, spoken: `Line drawn on ${piece.whole.name}.` });
  };

  return (
    <form onSubmit={draw} aria-label="Draw a line by measure">
      <label htmlFor={`${id}p`}>Piece</label>
      <select
        id={`${id}p`}
        ref={first}
        value={piece.whole.piece.id}
        onChange={(e) => setPieceId(e.target.value as PieceId)}
      >
        {garment.pieces.map(({ whole }) => (
          <option key={whole.piece.id} value={whole.piece.id}>
            {whole.name}
          </option>
        ))}
      </select>
      <label htmlFor={`${id}d`}>Runs</label>
      <select id={`${id}d`} value={direction} onChange={(e) => setDirection(e.target.value as LineDirection)}>
        <option value="across">across the grain</option>
        <option value="with">with the grain</option>
      </select>
      <label htmlFor={`${id}m`}>Lies</label>
      <span className="measure-words">
        <input
          id={`${id}m`}
          type="text"
          inputMode="decimal"
          value={distance}
          onChange={(e) => setDistance(e.target.value)}
          aria-invalid={wrong !== null}
        />
        <span>{doc.units}</span>
        <select
          aria-label="Which way"
          value={way}
          onChange={(e) => setWay(e.target.value as 'before' | 'after')}
        >
          <option value="after">{direction === 'across' ? 'below' : 'right on the drawing of'}</option>
          <option value="before">{direction === 'across' ? 'above' : 'left on the drawing of'}</option>
        </select>
      </span>
      <label htmlFor={`${id}r`}>From</label>
      <select id={`${id}r`} value={reference.key} onChange={(e) => setReferenceKey(e.target.value)}>
        {references.map(({ key, words }) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
      {wrong && (
        <p className="field-wrong" role="alert">
          {wrong}
        </p>
      )}
      <button type="submit" className="strong">
        Draw it
      </button>
    </form>
  );
}
