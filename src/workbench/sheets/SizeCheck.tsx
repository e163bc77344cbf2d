import { useState, type ReactElement } from 'react';
import { formatLength, parseLength, scaleCheck, type ScaleCheck, type Units } from '../../pattern';
import { fitAll, useTable } from '../canvas/tableControls';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { scaleDrawing } from '../store/scaleEdit';
import { measurables, sizeAsTraced, type Measurable } from './knownLengths';

const times = (factor: number): string =>
  factor
    .toFixed(Math.abs(factor - 1) < 0.1 ? 4 : 3)
    .replace(/0+$/, '')
    .replace(/\.$/, '');
const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;

/** What the known lengths say, in words. */
function sayCheck(check: ScaleCheck, units: Units): string[] {
  const { apart, apartBy, scaleX, scaleY, isRight, cause, ratioX, ratioY } = check;
  const both = ratioX !== null && ratioY !== null;
  const differ = !both
    ? null
    : apartBy < 0.5
      ? 'Both ways agree.'
      : `The two ways differ by ${percent(apart)}, that is ${formatLength(apartBy, units === 'cm' ? 'mm' : units)} over the longer length${scaleX === scaleY ? ': no more than measuring does' : ''}.`;
  if (isRight) return ['The size is right, as far as a tape can tell.', ...(differ ? [differ] : [])];
  return [...(cause ? [cause.words] : []), ...(differ ? [differ] : [])];
}

interface KnownProps {
  readonly way: 'across' | 'down';
  readonly things: readonly Measurable[];
  readonly units: Units;
  readonly chosen: number;
  readonly onChoose: (index: number) => void;
  readonly text: string;
  readonly onText: (text: string) => void;
}

/** One thing whose true length is known, and that length. */
function KnownField({ way, things, units, chosen, onChoose, text, onText }: KnownProps): ReactElement {
  return (
    <div className="known-length">
      <label className="select-field">
        Known length {way}
        <select value={chosen} onChange={(e) => onChoose(Number(e.target.value))}>
          {things.map(({ name, length }, i) => (
            <option key={i} value={i}>
              {name}, {formatLength(length, units)}
            </option>
          ))}
        </select>
      </label>
      <span className="length-box">
        <input
          type="text"
          inputMode="decimal"
          autoComplete="off"
          aria-label={`True length ${way}`}
          placeholder="in truth"
          value={text}
          onChange={(e) => onText(e.target.value)}
        />
        <span aria-hidden="true">{units}</span>
      </span>
    </div>
  );
}

/** Sizes of the pieces, and one known length each way to check them by. */
export function SizeCheck(): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  const doc = useBench((s) => s.doc);
  const [chosen, setChosen] = useState({ across: 0, down: 0 });
  const [text, setText] = useState({ across: '', down: '' });
  const things = measurables(garmentOf(store.getState()).pieces.map((p) => p.whole));
  const { units } = doc;
  const known = (way: 'across' | 'down') => {
    const thing = things[way][chosen[way]] ?? things[way][0];
    const mm = parseLength(text[way], units);
    return thing && thing.length > 0 && mm !== null && mm > 0 ? { measured: thing.length, true: mm } : null;
  };
  const isWrong = (way: 'across' | 'down'): boolean => text[way].trim() !== '' && known(way) === null;
  const [across, down] = [known('across'), known('down')];
  const check = across || down ? scaleCheck(across, down) : null;
  const apply = (): void => {
    if (!check) return;
    store.getState().commit('Scale the drawing', scaleDrawing(check.scaleX, check.scaleY));
    setText({ across: '', down: '' });
    // what was doubtful is settled now
    store.getState().set({ lookOver: { doubts: [] } });
    fitAll(table, store);
  };
  const field = (way: 'across' | 'down'): ReactElement => (
    <KnownField
      way={way}
      things={things[way]}
      units={units}
      chosen={chosen[way]}
      onChoose={(i) => setChosen({ ...chosen, [way]: i })}
      text={text[way]}
      onText={(words) => setText({ ...text, [way]: words })}
    />
  );
  return (
    <>
      <table className="piece-sizes">
        <thead>
          <tr>
            <th scope="col">Piece</th>
            <th scope="col">Width</th>
            <th scope="col">Height</th>
          </tr>
        </thead>
        <tbody>
          {doc.pieces.map((piece) => {
            const { width, height } = sizeAsTraced(piece);
            return (
              <tr key={piece.id}>
                <th scope="row">
                  {piece.name}
                  {piece.fold ? ', half' : ''}
                </th>
                <td>{formatLength(width, units)}</td>
                <td>{formatLength(height, units)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {field('across')}
      {field('down')}
      {(isWrong('across') || isWrong('down')) && (
        <p className="field-wrong" role="alert">
          A length is needed, like {units === 'cm' ? '48.5' : '19 1/8'}.
        </p>
      )}
      {check && (
        <div className="size-answer" role="status">
          {sayCheck(check, units).map((words) => (
            <p key={words}>{words}</p>
          ))}
          {!check.isRight && (
            <button type="button" className="strong" onClick={apply}>
              {check.scaleX === check.scaleY
                ? `Scale the drawing by ${times(check.scaleX)}`
                : `Scale it by ${times(check.scaleX)} across and ${times(check.scaleY)} down`}
            </button>
          )}
        </div>
      )}
    </>
  );
}
