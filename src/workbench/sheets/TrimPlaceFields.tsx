import type { ReactElement } from 'react';
import { pathLength } from '../../geometry';
import { type Trim, formatLength } from '../../pattern';
import { drawnCourse } from '../drawing/trimHandles';
import { LengthField } from '../parts/LengthField';
import { useBench, useBenchStore } from '../store/benchStore';
import { changeTrim, moveTrimEnd, onLine } from '../store/trimEdits';

/** From where to where a trim lies along its line, as lengths from the line's start. Its ends can be dragged on the table as well. */
export function TrimPlaceFields({ trim }: { trim: Trim }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit } = store.getState();
  const { on } = trim;
  const course = drawnCourse(doc, trim);
  if (!course || course.path.length === 0) return null;
  const total = pathLength(course.path);
  if (on.kind === 'path')
    return (
      <p className="note">
        On a path of its own, {formatLength(total, doc.units)} as drawn. Drag its ends on the table.
      </p>
    );
  const move =
    (end: 'from' | 'to') =>
    (mm: number): void =>
      commit('Move the end of a trim', moveTrimEnd(trim.id, end, mm / total));
  return (
    <>
      <LengthField
        label="Begins at"
        value={on.from * total}
        units={doc.units}
        most={total}
        onChange={move('from')}
      />
      <LengthField
        label="Ends at"
        value={on.to * total}
        units={doc.units}
        most={total}
        onChange={move('to')}
      />
      {(on.from > 0 || on.to < 1) && (
        <button
          type="button"
          onClick={() => commit('Lay a trim on a whole line', changeTrim(trim.id, { on: onLine(on.line) }))}
        >
          All of the line
        </button>
      )}
    </>
  );
}
