import { useState, type ReactElement } from 'react';
import type { Path } from '../../geometry';
import type { PanelledPiece } from '../../panels';
import type { Units } from '../../pattern';
import { catchField } from '../drawing/catchField';
import type { Measured } from '../drawing/measure';
import { placeAt, placingRows, type PlacingRow } from '../drawing/placing';
import { sayReference } from '../drawing/words';
import { LengthField } from '../parts/LengthField';

interface PlacingCardProps {
  readonly piece: PanelledPiece;
  readonly path: Path;
  readonly units: Units;
  readonly without: Parameters<typeof catchField>[1];
  readonly onPlace: (path: Path) => void;
  readonly firstField?: (field: HTMLInputElement | null) => void;
}

interface RowProps extends PlacingCardProps {
  readonly row: PlacingRow;
}

const WAYS: Readonly<Record<string, readonly [Measured['way'], Measured['way']]>> = {
  level: ['above', 'below'],
};

function Row({ row, piece, path, units, without, onPlace, firstField }: RowProps): ReactElement {
  const { whole } = piece;
  const [chosen, setChosen] = useState<string | null>(null);
  const option = row.options.find(({ key }) => key === chosen) ?? row.options[0]!;
  const { measured } = option;
  const ways = WAYS[measured.reference.kind]?.includes(measured.way) ? WAYS[measured.reference.kind]! : null;
  const place = (way: Measured['way'], mm: number): boolean => {
    const next = placeAt(whole, catchField(piece, without), path, row, option, way, mm);
    if (next) onPlace(next);
    return next !== null;
  };
  return (
    <div className="placing-row" role="group" aria-label={row.label}>
      <span className="placing-name">{row.label}</span>
      <LengthField
        label={`${row.label}: distance`}
        quiet
        value={measured.distance}
        units={units}
        onChange={(mm) => place(measured.way, mm)}
        fieldRef={firstField}
      />
      {ways && (
        <select
          aria-label={`${row.label}: above or below`}
          value={measured.way}
          onChange={(e) => place(e.target.value as Measured['way'], measured.distance)}
        >
          {ways.map((way) => (
            <option key={way}>{way}</option>
          ))}
        </select>
      )}
      <select
        aria-label={`${row.label}: measured from`}
        value={option.key}
        onChange={(e) => setChosen(e.target.value)}
        className="placing-from"
      >
        {row.options.map(({ key, measured: m }) => (
          <option key={key} value={key}>
            {m.reference.kind === 'edge end'
              ? `along ${sayReference(m.reference, whole)}`
              : m.reference.kind === 'centre'
                ? 'from the centre'
                : sayReference(m.reference, whole)}
          </option>
        ))}
      </select>
    </div>
  );
}

/** Where a line lies, in numbers that can be typed. */
export function PlacingCard(props: PlacingCardProps): ReactElement | null {
  const [eachEnd, setEachEnd] = useState(false);
  const rows = placingRows(props.piece.whole, props.path, eachEnd);
  const isTrue = placingRows(props.piece.whole, props.path)[0]?.whole ?? false;
  if (rows.length === 0)
    return <p className="note">This line lies free: there is no level or edge to measure it from.</p>;
  return (
    <div className="placing">
      {rows.map((row, i) => (
        <Row key={row.label} {...props} row={row} firstField={i === 0 ? props.firstField : undefined} />
      ))}
      {isTrue && (
        <button
          type="button"
          className="plain each-end"
          aria-pressed={eachEnd}
          onClick={() => setEachEnd(!eachEnd)}
        >
          {eachEnd ? 'Whole line' : 'Each end'}
        </button>
      )}
    </div>
  );
}
