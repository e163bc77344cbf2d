import { useId, useState, type FormEvent, type ReactElement } from 'react';
import { flattenRing } from '../../geometry';
import { findLevel, levelHeight, levelKey, levelsDown, linesOnLevel, USUAL_WAIST_TO_HIP } from '../../lines';
import { type Level, type Piece, type WholePiece, heightOf } from '../../pattern';
import { counted } from '../drawing/words';
import { LengthField } from '../parts/LengthField';
import { TextField } from '../parts/TextField';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { nameLevel, removeLevel, setLevel, shiftLevel } from '../store/levelEdits';

interface Placed {
  readonly level: Level;
  readonly height: number;
}

/** What a level's height can be told from: another level, or the piece's highest point. */
interface From {
  readonly key: string;
  readonly words: string;
  readonly height: number;
}

const highest = (whole: WholePiece): number =>
  Math.min(...flattenRing(whole.stitching).map((p) => heightOf(whole, p)));
const lowest = (whole: WholePiece): number =>
  Math.max(...flattenRing(whole.stitching).map((p) => heightOf(whole, p)));

/** Other levels, the next one up first, then the highest point. */
function fromWhat(whole: WholePiece, levels: readonly Placed[], { height, level }: Placed): From[] {
  const others = levels
    .filter((o) => o.level !== level)
    .map((o): From => ({ key: o.level.name, words: o.level.name, height: o.height }));
  const above = others.filter((o) => o.height <= height).reverse();
  const below = others.filter((o) => o.height > height);
  return [...above, ...below, { key: '', words: 'the highest point', height: highest(whole) }];
}

function LevelRow({
  piece,
  whole,
  placed,
}: {
  piece: Piece;
  whole: WholePiece;
  placed: Placed;
}): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const [chosen, setChosen] = useState<string | null>(null);
  const { commit, set } = store.getState();
  const { level, height } = placed;
  const all = fromWhat(whole, levelsDown(whole), placed);
  const from = all.find(({ key }) => key === chosen) ?? all[0]!;
  const off = height - from.height;
  const follow = linesOnLevel(doc, piece.id, level.name).length;
  const put = (mm: number): void =>
    commit(`Move the ${level.name} level`, shiftLevel(piece.id, level.name, mm - off));
  return (
    <div className="level-row" role="group" aria-label={`${level.name} level`}>
      <TextField
        label={`Name of the ${level.name} level`}
        quiet
        value={level.name}
        onChange={(name) => commit('Rename a level', nameLevel(piece.id, level.name, name))}
      />
      <button
        type="button"
        className="plain"
        aria-label={`Delete the ${level.name} level`}
        title={follow > 0 ? `${counted(follow, 'line')} tied to it will stay where it is` : undefined}
        onClick={() => {
          commit(`Delete the ${level.name} level`, removeLevel(piece.id, level.name));
          set({ spoken: `The ${level.name} level is deleted.` });
        }}
      >
        Delete
      </button>
      <span className="level-height">
        <LengthField
          label={`Height of the ${level.name} level`}
          quiet
          value={Math.abs(off)}
          units={doc.units}
          onChange={(mm) => put(off < 0 ? -mm : mm)}
        />
        <select
          aria-label={`${level.name} level: above or below`}
          value={off < 0 ? 'above' : 'below'}
          onChange={(e) => put(e.target.value === 'above' ? -Math.abs(off) : Math.abs(off))}
        >
          <option>above</option>
          <option>below</option>
        </select>
        <select
          className="tie-from"
          aria-label={`${level.name} level: measured from`}
          value={from.key}
          onChange={(e) => setChosen(e.target.value)}
        >
          {all.map(({ key, words }) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
      </span>
      {follow > 0 && <p className="note">{counted(follow, 'line')} tied to it</p>}
    </div>
  );
}

const USUAL_NAMES = ['bust', 'underbust', 'waist', 'high hip', 'hip', 'knee', 'hem'];

/** Where a new level is set: the hip at its usual depth below the waist, else in the middle of the piece; it is moved from there. */
function firstHeight(whole: WholePiece, name: string): number {
  const waist = findLevel(whole.levels, 'waist');
  const [top, bottom] = [highest(whole), lowest(whole)];
  const hip = waist && levelHeight(whole, waist) + USUAL_WAIST_TO_HIP;
  return hip !== null && levelKey(name) === 'hip' && hip < bottom ? hip : (top + bottom) / 2;
}

function NewLevel({ piece, whole }: { piece: Piece; whole: WholePiece }): ReactElement {
  const store = useBenchStore();
  const id = useId();
  const [name, setName] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const add = (e: FormEvent): void => {
    e.preventDefault();
    if (levelKey(name) === '') return setWrong('Give the level a name.');
    if (findLevel(piece.levels, name))
      return setWrong(`${piece.name} has a level called ${name.trim()} already.`);
    store
      .getState()
      .commit(`Set the ${name.trim()} level`, setLevel(piece.id, name, firstHeight(whole, name)));
    setName('');
    setWrong(null);
  };
  return (
    <form className="level-row" onSubmit={add} aria-label={`Set a level on ${piece.name}`}>
      <span className="text-field">
        <label htmlFor={id} className="unseen">
          Name of a new level
        </label>
        <input
          id={id}
          type="text"
          list={`${id}-usual`}
          placeholder="New level"
          autoComplete="off"
          maxLength={80}
          value={name}
          onChange={(e) => setName(e.target.value)}
        />
        <datalist id={`${id}-usual`}>
          {USUAL_NAMES.filter((n) => !findLevel(piece.levels, n)).map((n) => (
            <option key={n}>{n}</option>
          ))}
        </datalist>
      </span>
      <button type="submit">Set</button>
      {wrong && (
        <p className="field-wrong" role="alert">
          {wrong}
        </p>
      )}
    </form>
  );
}

/** The levels of a piece: named heights square to the grain that lines can be tied to. */
export function LevelFields({ piece }: { piece: Piece }): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const whole = garmentOf(store.getState()).pieceById.get(piece.id)?.whole;
  if (!whole) return null;
  return (
    <details className="about-cloth">
      <summary>Levels</summary>
      <div className="levels">
        {levelsDown(whole).map((placed) => (
          <LevelRow key={placed.level.name} piece={piece} whole={whole} placed={placed} />
        ))}
        <NewLevel piece={piece} whole={whole} />
      </div>
    </details>
  );
}
