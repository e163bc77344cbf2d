import { useEffect, useId, useRef, useState, type FormEvent, type ReactElement } from 'react';
import { useBench, useBenchStore } from '../store/benchStore';

interface ScaleDialogProps {
  /** Read the waiting files again at this scale, mm per unit. */
  readonly onScale: (mmPerUnit: number) => void;
}

/** Asks how large a tracing is that does not say so itself. */
export function ScaleDialog({ onScale }: ScaleDialogProps): ReactElement | null {
  const store = useBenchStore();
  const question = useBench((s) => s.question);
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  const [units, setUnits] = useState('1');
  const [length, setLength] = useState('');
  const [wrong, setWrong] = useState(false);
  useEffect(() => {
    if (question) dialog.current?.showModal();
    else dialog.current?.close();
  }, [question]);
  const answer = (e: FormEvent): void => {
    e.preventDefault();
    const scale = Number(length.replace(',', '.')) / Number(units.replace(',', '.'));
    const isScale = Number.isFinite(scale) && scale > 0;
    setWrong(!isScale);
    if (isScale) onScale(scale);
  };
  return (
    <dialog
      ref={dialog}
      className="leaf"
      aria-labelledby={`${id}t`}
      onCancel={() => store.getState().set({ question: null })}
    >
      <h2 id={`${id}t`}>How large is it?</h2>
      <p>
        {question?.files.map((f) => f.name).join(', ')} does not say how large it is. Measure something on the
        paper tracing, look up the same length in the drawing program, and give both.
      </p>
      <form onSubmit={answer}>
        <p className="measure-words">
          <input
            aria-label="Length in the drawing, in its units"
            type="text"
            inputMode="decimal"
            value={units}
            onChange={(e) => setUnits(e.target.value)}
          />
          <span>units in the drawing are</span>
          <input
            aria-label="The same length on paper, mm"
            type="text"
            inputMode="decimal"
            value={length}
            onChange={(e) => setLength(e.target.value)}
            autoFocus
          />
          <span>mm on paper</span>
        </p>
        {wrong && (
          <p className="field-wrong" role="alert">
            Both lengths are needed, as numbers above 0: say 100 units are 250 mm.
          </p>
        )}
        <div className="actions">
          <button type="submit" className="strong">
            Read it at this scale
          </button>
          <button type="button" onClick={() => onScale(1)}>
            One unit is 1 mm
          </button>
          <button type="button" onClick={() => onScale(25.4 / 96)}>
            96 units are an inch
          </button>
          <button type="button" className="plain" onClick={() => store.getState().set({ question: null })}>
            Leave it
          </button>
        </div>
      </form>
    </dialog>
  );
}
