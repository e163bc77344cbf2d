import type { ReactElement } from 'react';
import { useTable, viewOf } from '../canvas/tableControls';
import { useBenchStore } from '../store/benchStore';

/** Nearer, farther, everything. */
export function ViewButtons(): ReactElement {
  const store = useBenchStore();
  const table = useTable();
  return (
    <div className="view-buttons" role="group" aria-label="View">
      <button type="button" onClick={() => viewOf(table, store).zoomBy(1 / 1.4)} aria-label="Farther away (−)">
        −
      </button>
      <button type="button" onClick={() => viewOf(table, store).fitAll()} aria-label="Show everything (0)">
        All
      </button>
      <button type="button" onClick={() => viewOf(table, store).zoomBy(1.4)} aria-label="Nearer (+)">
        +
      </button>
    </div>
  );
}
