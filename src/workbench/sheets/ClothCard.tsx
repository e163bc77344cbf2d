import type { ReactElement } from 'react';
import type { Colour } from '../../pattern';
import { counted } from '../drawing/words';
import { TextField } from '../parts/TextField';
import { useBench, useBenchStore } from '../store/benchStore';
import { changeColour, removeColour } from '../store/colourEdits';

/** A cloth in hand: its name, the way to all that is known of it, and taking it off the list. */
export function ClothCard({ colour }: { colour: Colour }): ReactElement {
  const store = useBenchStore();
  const count = useBench((s) => s.doc.colours.length);
  const lined = useBench(
    (s) => s.doc.lining?.colour === colour.id || s.doc.facings.some((f) => f.colour === colour.id),
  );
  const own = useBench((s) => s.doc.remnants.filter((r) => r.colour === colour.id).length);
  return (
    <details className="card about-cloth">
      <summary>Name, width, nap, price</summary>
      <div className="fields">
        <TextField
          label="Name"
          value={colour.name}
          onChange={(name) => store.getState().commit('Rename a cloth', changeColour(colour.id, { name }))}
        />
        <div className="actions">
          <button
            type="button"
            onClick={() =>
              store.getState().set({ place: 'cloth', sheetOpen: true, shownCloth: colour.id, held: null })
            }
          >
            Width, nap and price
          </button>
          <button
            type="button"
            className="warn"
            disabled={count < 2}
            onClick={() => {
              store.getState().commit(`Remove ${colour.name}`, removeColour(colour.id));
              const [first] = store.getState().doc.colours;
              store.getState().set({
                held: null,
                spoken: `${colour.name} is removed.${lined && first ? ` Lining and facings of it are cut from ${first.name} now.` : ''}${own > 0 && first ? ` Your own ${counted(own, 'piece')} of it count as ${first.name} now: look whether they may.` : ''}`,
              });
            }}
          >
            Remove this cloth
          </button>
        </div>
      </div>
    </details>
  );
}
