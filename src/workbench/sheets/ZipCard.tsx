import type { ReactElement } from 'react';
import type { PlacedClosing } from '../../garment';

import { type PanelLine, type Piece, formatLength } from '../../pattern';
import { liesOnFold } from '../../lines';
import { Choice } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { type ZipWords, sayZip, takeZipOut, zipInLine, zipOnFold } from '../store/closingEdits';

/** Everything that can be said of a zip. */
export function ZipCard({ placed }: { placed: PlacedClosing }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const { commit } = store.getState();
  const { zip, proposed } = placed;
  const say = (label: string, words: ZipWords): void => commit(label, sayZip(zip, words));
  return (
    <div className="zip-card" role="group" aria-label="The zip">
      <Choice
        label="Kind of zip"
        quiet
        options={[
          ['hidden', 'Hidden zip'],
          ['shown', 'Shown zip'],
        ]}
        value={zip.kind}
        onChoose={(kind) => say('Choose the kind of zip', { kind })}
      />
      <LengthField
        label="Length, from the upper end"
        value={placed.length}
        units={doc.units}
        least={30}
        most={placed.seam}
        onChange={(mm) =>
          say('Change the length of a zip', { length: Math.abs(mm - proposed) < 1e-6 ? null : mm })
        }
      />
      <LengthField
        label="Allowance on both sides"
        value={placed.allowance}
        units={doc.units}
        least={5}
        most={60}
        onChange={(allowance) => say('Change the allowance at a zip', { allowance })}
      />
      {zip.kind === 'shown' && (
        <LengthField
          label="Width of the slot"
          value={zip.slot}
          units={doc.units}
          least={2}
          most={40}
          onChange={(slot) => say('Change the slot of a zip', { slot })}
        />
      )}
      <p className="note">
        {zip.length === null
          ? `Proposed: ${formatLength(proposed, doc.units)} in a seam of ${formatLength(placed.seam, doc.units)}. `
          : `The seam is ${formatLength(placed.seam, doc.units)} long; ${formatLength(proposed, doc.units)} is proposed. `}
        Below the stop the seam is sewn shut. Have the zip before you cut: lengths sold differ.
      </p>
      <div className="actions">
        {zip.length !== null && (
          <button type="button" onClick={() => say('Take the proposed length', { length: null })}>
            Proposed length
          </button>
        )}
        <button
          type="button"
          className="warn"
          onClick={() => {
            commit('Take a zip out', takeZipOut(zip));
            store.getState().set({ spoken: 'The zip is taken out.' });
          }}
        >
          Take the zip out
        </button>
      </div>
    </div>
  );
}

/** The zip in the seam of a line, or the way to put one there. */
export function ZipOnLine({ line }: { line: PanelLine }): ReactElement {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const placed = garmentOf(store.getState()).closings.find(
    ({ zip }) => zip.on.kind === 'line' && zip.on.line === line.id,
  );
  if (placed) return <ZipCard placed={placed} />;
  return (
    <div className="actions">
      <button
        type="button"
        onClick={() => {
          store.getState().commit('Put a zip into a seam', zipInLine(line.id));
          store.getState().set({ spoken: 'There is a zip in this seam now.' });
        }}
      >
        A zip in this seam
      </button>
    </div>
  );
}

/** The zips in edges of a name of a piece, as they lie. */
export function useZipsOnEdge(piece: Piece['id'], edge: string): readonly PlacedClosing[] {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const garment = garmentOf(store.getState());
  return garment.closings.filter(({ sides }) =>
    sides.some(
      (s) =>
        s.piece === piece &&
        s.edge !== null &&
        garment.neighbours.wholes.get(piece)?.edges[s.edge]?.plainName === edge,
    ),
  );
}

/** The cards of the zips in edges of a name of a piece. */
export function ZipsOnEdge({ piece, edge }: { piece: Piece['id']; edge: string }): ReactElement {
  return (
    <>
      {useZipsOnEdge(piece, edge).map((placed) => (
        <ZipCard key={placed.zip.id} placed={placed} />
      ))}
    </>
  );
}

/** The zip at the fold of a half piece, or the way to put one there. */
export function ZipAtFold({ piece }: { piece: Piece }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const garment = garmentOf(store.getState());
  const whole = garment.pieceById.get(piece.id)?.whole;
  if (!whole?.foldLine) return null;
  const lines = doc.lines.filter((l) => l.piece === piece.id && liesOnFold(whole, l.path));
  const placed = garment.closings.find(
    ({ zip }) => zip.on.kind === 'line' && lines.some((l) => zip.on.kind === 'line' && l.id === zip.on.line),
  );
  if (placed)
    return (
      <div className="card">
        <p className="note">There is a seam along the fold now, with allowance on both sides.</p>
        <ZipCard placed={placed} />
      </div>
    );
  return (
    <div className="actions">
      <button
        type="button"
        title="The piece gains a seam along its fold, with allowance on both sides"
        onClick={() => {
          store.getState().commit('Put a zip at the fold', zipOnFold(piece.id));
          store.getState().set({ spoken: `${piece.name} has a seam along its fold now, with a zip in it.` });
        }}
      >
        A zip at the fold
      </button>
    </div>
  );
}
