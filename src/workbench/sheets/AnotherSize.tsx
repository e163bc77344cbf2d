import type { ReactElement } from 'react';
import type { Piece } from '../../pattern';
import { useFiles } from '../bringIn/FilesContext';
import { counted } from '../drawing/words';
import { useBench, useBenchStore } from '../store/benchStore';
import { tieLinesHere } from '../store/lineEdits';

/** Put another size of a piece in its place; lines that would not follow can be tied first. */
export function AnotherSize({ piece }: { piece: Piece }): ReactElement {
  const store = useBenchStore();
  const files = useFiles();
  const doc = useBench((s) => s.doc);
  const free = doc.lines.filter((l) => l.piece === piece.id && !l.ties);
  return (
    <div className="another-size">
      <button type="button" onClick={() => files.bringSize(piece.id)}>
        Bring another size of this piece
      </button>
      {free.length > 0 && (
        <p className="note">
          {counted(free.length, 'line')} of it {free.length === 1 ? 'is' : 'are'} not tied and would not
          follow.{' '}
          <button
            type="button"
            className="plain untie"
            onClick={() =>
              store
                .getState()
                .commit(`Tie the lines of ${piece.name}`, tieLinesHere(free.map(({ id }) => id)))
            }
          >
            Tie {free.length === 1 ? 'it' : 'them'}
          </button>
        </p>
      )}
    </div>
  );
}
