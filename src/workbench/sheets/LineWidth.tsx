import type { ReactElement } from 'react';
import type { PanelLine } from '../../pattern';
import { LengthField } from '../parts/LengthField';
import { useBench, useBenchStore } from '../store/benchStore';
import { allowLine } from '../store/patternEdits';

/** The allowance on both sides of a panel line: the general one, or its own. */
export function LineWidth({ line }: { line: PanelLine }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { newSeam, lines } = doc.allowances;
  const own = lines.find((l) => l.line === line.id);
  const { commit } = store.getState();
  // a zip has its own allowance, on its own card
  if (doc.closings.some(({ on }) => on.kind === 'line' && on.line === line.id)) return null;
  return (
    <div className="fields">
      <LengthField
        label="Allowance on both sides"
        value={own?.width ?? newSeam}
        units={doc.units}
        most={100}
        onChange={(mm) =>
          commit(
            'Change the allowance of a line',
            allowLine(line.id, Math.abs(mm - newSeam) < 1e-6 ? null : mm),
          )
        }
      />
      {own && (
        <button
          type="button"
          onClick={() => commit('Forget the allowance of a line', allowLine(line.id, null))}
        >
          As all others
        </button>
      )}
    </div>
  );
}
