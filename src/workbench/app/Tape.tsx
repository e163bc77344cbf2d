import type { ReactElement } from 'react';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { PLACES, type Place } from '../store/sessionSlice';
import { fetchSheet } from './placeSheets';
import { PLACE_NAMES, placeFact } from './placeNames';

/** The job's own sequence, laid along the near edge of the table like a tape measure. Each place says what it holds. */
export function Tape(): ReactElement {
  const store = useBenchStore();
  const place = useBench((s) => s.place);
  const sheetOpen = useBench((s) => s.sheetOpen);
  useBench((s) => s.doc);
  const garment = garmentOf(store.getState());
  const go = (to: Place): void =>
    store.getState().set({ place: to, sheetOpen: to === place ? !sheetOpen : true });
  return (
    <nav className="tape" aria-label="The job, in order">
      <ol>
        {PLACES.map((name) => (
          <li key={name}>
            <button
              type="button"
              aria-current={name === place ? 'step' : undefined}
              aria-expanded={name === place ? sheetOpen : undefined}
              onPointerEnter={() => fetchSheet(name)}
              onFocus={() => fetchSheet(name)}
              onClick={() => go(name)}
            >
              <span className="station">{PLACE_NAMES[name]}</span>
              <span className="fact">{placeFact(name, garment)}</span>
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}
