import { useState, type ReactElement } from 'react';
import type { EdgeWork } from '../../neighbours';
import { Choice } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { addBand } from '../store/bandEdits';
import { useBench, useBenchStore } from '../store/benchStore';

/** Depth that a new band begins with, mm. */
const FIRST_DEPTH = 50;

export const BAND_ORDERS = [
  ['flat', 'Sewn flat'],
  ['round', 'In the round'],
] as const;

/** A band along a hem: typed depth, sewn flat or in the round. It goes on over the seams to every hem that goes round with this one. */
export function BandOnHem({ work }: { work: EdgeWork }): ReactElement {
  const store = useBenchStore();
  const units = useBench((s) => s.doc.units);
  const [depth, setDepth] = useState(FIRST_DEPTH);
  const [order, setOrder] = useState<'flat' | 'round'>('flat');
  const [isTooDeep, setTooDeep] = useState(false);
  const add = (): void => {
    const { commit, doc } = store.getState();
    commit('Add a band', addBand({ piece: work.piece, edge: work.edge }, depth, order === 'round'));
    const fits = store.getState().doc !== doc;
    setTooDeep(!fits);
    if (fits)
      store
        .getState()
        .set({ spoken: 'A band goes round. Its line is among the lines; its depth can be changed there.' });
  };
  return (
    <div className="band-on-hem" role="group" aria-label="A band along it">
      <LengthField
        label="A band along it, depth"
        value={depth}
        units={units}
        least={5}
        most={600}
        onChange={(mm) => {
          setDepth(mm);
          setTooDeep(false);
        }}
      />
      {isTooDeep && (
        <p className="field-wrong" role="alert">
          There is no room for a band this deep from one closing seam to the other. Make it narrower.
        </p>
      )}
      <Choice label="How the band is sewn" quiet options={BAND_ORDERS} value={order} onChoose={setOrder} />
      <div className="actions">
        <button type="button" onClick={add}>
          Add a band
        </button>
      </div>
    </div>
  );
}
