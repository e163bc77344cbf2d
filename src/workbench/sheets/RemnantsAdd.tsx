import { useId, useState, type FormEvent, type ReactElement } from 'react';
import { readClothOutlines } from '../../files';
import { parseLength, formatLength, sayProblem, type Colour, type ColourId, type Units } from '../../pattern';
import { counted } from '../drawing/words';
import { useBenchStore } from '../store/benchStore';
import { addRemnants, rectangleOf, type NewRemnant } from '../store/remnantEdits';
import { RemnantsBoard } from './RemnantsBoard';

/** mm: the smallest and largest sides of a piece of cloth. */
const [LEAST_SIDE, MOST_SIDE] = [10, 20_000];

type Way = 'rectangle' | 'corners' | 'file';

const NAME = 'piece of cloth';

function Rectangle({
  units,
  onAdd,
}: {
  units: Units;
  onAdd: (added: readonly NewRemnant[]) => void;
}): ReactElement {
  const id = useId();
  const [sides, setSides] = useState<readonly [string, string]>(['', '']);
  const [wrong, setWrong] = useState<string | null>(null);
  const add = (e: FormEvent): void => {
    e.preventDefault();
    const [length, width] = sides.map((text) => parseLength(text, units));
    if (!length || !width || [length, width].some((mm) => mm < LEAST_SIDE || mm > MOST_SIDE))
      return setWrong(
        `Give two lengths from ${formatLength(LEAST_SIDE, units)} to ${formatLength(MOST_SIDE, units)}, like ${units === 'cm' ? '62.5' : '24 1/2'}.`,
      );
    setWrong(null);
    setSides(['', '']);
    onAdd([{ name: NAME, outline: rectangleOf(length, width) }]);
  };
  const field = (i: 0 | 1, label: string): ReactElement => (
    <span className="length-field">
      <label htmlFor={`${id}-${i}`}>{label}</label>
      <span className="length-box">
        <input
          id={`${id}-${i}`}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={sides[i]}
          aria-invalid={wrong !== null}
          aria-describedby={wrong ? `${id}-wrong` : undefined}
          onChange={(e) => setSides(i === 0 ? [e.target.value, sides[1]] : [sides[0], e.target.value])}
        />
        <span aria-hidden="true">{units}</span>
      </span>
    </span>
  );
  return (
    <form className="fields" onSubmit={add}>
      {field(0, 'Length, along the grain')}
      {field(1, 'Width')}
      {wrong && (
        <p className="field-wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
      <div className="actions">
        <button type="submit" className="strong">
          Add it
        </button>
      </div>
    </form>
  );
}

/** Choose an SVG and read the outlines in it; null when the window was closed. @throws Error saying what is wrong with the file */
async function fromFile(units: Units): Promise<readonly NewRemnant[] | null> {
  const { fileOpen } = await import('browser-fs-access');
  try {
    const file = await fileOpen({
      description: 'Outlines of cloth',
      extensions: ['.svg', '.svgz'],
      id: 'panelwright',
    });
    const read = readClothOutlines(new Uint8Array(await file.arrayBuffer()), file.name);
    if (!read.ok) throw new Error(read.problems.map((p) => sayProblem(p, units)).join(' '));
    return read.value;
  } catch (failure) {
    if (failure instanceof DOMException && failure.name === 'AbortError') return null;
    throw failure;
  }
}

/** Ways to say what cloth one owns: two lengths, its corners, or the outlines in an SVG. */
export function RemnantsAdd({ colours, units }: { colours: readonly Colour[]; units: Units }): ReactElement {
  const store = useBenchStore();
  const id = useId();
  const [way, setWay] = useState<Way | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [chosen, setChosen] = useState<ColourId | null>(null);
  const colour = colours.find((c) => c.id === chosen) ?? colours[0]!;
  const { commit, set } = store.getState();
  const add = (added: readonly NewRemnant[]): void => {
    commit(
      added.length === 1 ? 'Add a piece of own cloth' : 'Add pieces of own cloth',
      addRemnants(added, colour.id),
    );
    set({ spoken: `${counted(added.length, 'piece')} of ${colour.name} added.` });
    setWay(null);
  };
  const open = (next: Way): void => {
    setWrong(null);
    setWay(way === next ? null : next);
    if (next !== 'file') return;
    void fromFile(units)
      .then((added) => (added ? add(added) : setWay(null)))
      .catch((failure: unknown) => {
        setWay(null);
        setWrong(failure instanceof Error ? failure.message : String(failure));
      });
  };
  return (
    <div className="remnant-add">
      {colours.length > 1 && (
        <span className="select-field">
          <label htmlFor={id}>Add a piece of</label>
          <select id={id} value={colour.id} onChange={(e) => setChosen(e.target.value as ColourId)}>
            {colours.map((c) => (
              <option key={c.id} value={c.id}>
                {c.name}
              </option>
            ))}
          </select>
        </span>
      )}
      <div className="actions" role="group" aria-label="Add a piece of your own cloth">
        <button type="button" aria-expanded={way === 'rectangle'} onClick={() => open('rectangle')}>
          Add a rectangle
        </button>
        <button type="button" aria-expanded={way === 'corners'} onClick={() => open('corners')}>
          Draw its corners
        </button>
        <button type="button" onClick={() => open('file')}>
          From an SVG
        </button>
      </div>
      {wrong && (
        <p className="field-wrong" role="alert">
          {wrong}
        </p>
      )}
      {way === 'rectangle' && <Rectangle units={units} onAdd={add} />}
      {way === 'corners' && (
        <RemnantsBoard
          start={[]}
          units={units}
          done="Add it"
          onDone={(outline) => add([{ name: NAME, outline }])}
          onLeave={() => setWay(null)}
          onSpoken={(spoken) => set({ spoken })}
        />
      )}
    </div>
  );
}
