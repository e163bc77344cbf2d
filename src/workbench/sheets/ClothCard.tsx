import type { ReactElement } from 'react';
import type { Colour } from '../../pattern';
import { LengthField } from '../parts/LengthField';
import { NumberField } from '../parts/NumberField';
import { TextField } from '../parts/TextField';
import { Tick } from '../parts/Choice';
import { useBench, useBenchStore } from '../store/benchStore';
import { changeColour, removeColour } from '../store/colourEdits';

/** What is known of one cloth. */
export function ClothCard({ colour }: { colour: Colour }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const change = (label: string, patch: Parameters<typeof changeColour>[1]): void =>
    store.getState().commit(label, changeColour(colour.id, patch));
  return (
    <details className="card about-cloth">
      <summary>Name, width, nap, price</summary>
      <div className="fields">
        <TextField label="Name" value={colour.name} onChange={(name) => change('Rename a cloth', { name })} />
        <LengthField
          label="Usable width"
          value={colour.width}
          units={doc.units}
          least={100}
          most={5000}
          onChange={(width) => change('Change a cloth’s width', { width })}
        />
        <NumberField
          label="Shrinks along, %"
          value={colour.shrinkage.along}
          most={40}
          onChange={(along) =>
            change('Change shrinkage', { shrinkage: { ...colour.shrinkage, along: along ?? 0 } })
          }
        />
        <NumberField
          label="Shrinks across, %"
          value={colour.shrinkage.across}
          most={40}
          onChange={(across) =>
            change('Change shrinkage', { shrinkage: { ...colour.shrinkage, across: across ?? 0 } })
          }
        />
        <NumberField
          label="Price a metre"
          value={colour.price}
          most={100000}
          onChange={(price) => change('Change a price', { price })}
        />
        <Tick
          label="One way only (nap or print)"
          note="All pieces lie the same way up; it takes more cloth."
          on={colour.nap}
          onChange={(nap) => change('Change the nap', { nap })}
        />
        <button
          type="button"
          className="warn"
          disabled={doc.colours.length < 2}
          onClick={() => {
            store.getState().commit(`Remove ${colour.name}`, removeColour(colour.id));
            const [first] = store.getState().doc.colours;
            const lined = doc.lining?.colour === colour.id || doc.facings.some((f) => f.colour === colour.id);
            store.getState().set({
              held: null,
              spoken: `${colour.name} is removed.${lined && first ? ` Lining and facings of it are cut from ${first.name} now.` : ''}`,
            });
          }}
        >
          Remove this cloth
        </button>
      </div>
    </details>
  );
}
