import type { ReactElement } from 'react';
import type { Garment } from '../../garment';
import { layerHints } from '../../garment/telling';
import { sayProblem } from '../../pattern';
import { showPlace, useTable } from '../canvas/tableControls';
import { useBenchStore } from '../store/benchStore';
import { Part } from './Sheet';

/** Where too many layers come together, with what helps; a click shows the place. */
export function ThickPlaces({ garment }: { garment: Garment }): ReactElement | null {
  const store = useBenchStore();
  const table = useTable();
  const hints = layerHints(garment);
  if (hints.length === 0) return null;
  return (
    <Part title="Thick places">
      <ul className="rows">
        {hints.map((hint, i) => {
          const piece = garment.pieces.find(({ whole }) => whole.name === hint.piece)?.whole.piece.id;
          return (
            <li key={i}>
              <button
                type="button"
                className="row-button"
                onClick={() => piece && hint.at && showPlace(table, store, piece, hint.at)}
              >
                <span>{sayProblem(hint, garment.design.units)}</span>
              </button>
            </li>
          );
        })}
      </ul>
    </Part>
  );
}
