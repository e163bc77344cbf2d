import type { ReactElement } from 'react';
import { ribbonsToBuy } from '../../fabric';
import { formatLength, sayProblem } from '../../pattern';
import { counted } from '../drawing/words';
import { LayDrawing } from '../handOut/LayDrawing';
import type { LayState } from '../handOut/layRoom';
import { useLays } from '../handOut/RoomsContext';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';
import { sayBuy } from './sayBuy';
import { sayRibbon } from './sayRibbon';
import { Part, Sheet } from './Sheet';

function Cloth({ lay }: { lay: LayState }): ReactElement {
  const doc = useBench((s) => s.doc);
  const colour = doc.colours.find(({ id }) => id === lay.colour);
  const { job } = lay;
  const plan = lay.plan?.bought;
  const fits = plan && plan.placed.length > 0;
  const cost = fits && colour?.price ? ` · ${((plan.buy / 1000) * colour.price).toFixed(2)} in all` : '';
  return (
    <section className="cloth" aria-busy={!lay.done}>
      <h3>
        <span className="chip" style={{ background: colour?.fill }} /> {job.colourName}
      </h3>
      {fits && (
        <p className="buy">
          <strong>{sayBuy(plan.buy, doc.units)}</strong> of{' '}
          {formatLength(colour?.width ?? plan.width, doc.units)} wide{cost}
        </p>
      )}
      {fits && <LayDrawing job={job} plan={plan} fill={colour?.fill ?? '#e9dfce'} name={job.colourName} />}
      {fits && (
        <p className="note">
          {counted(job.pieces.length, 'piece')} on {formatLength(plan.length, doc.units)},{' '}
          {Math.round(plan.density * 100)} % of the cloth used
          {job.nap ? ', all one way' : ''}
        </p>
      )}
      {plan?.problems.map((p, i) => (
        <p key={i} className="field-wrong">
          {sayProblem(p, doc.units)}
        </p>
      ))}
      {lay.failed && <p className="field-wrong">{lay.failed}</p>}
      {!lay.done && <progress max={1} value={lay.progress} aria-label={`Laying ${job.colourName}`} />}
    </section>
  );
}

/** Ribbon, braid and tape to buy: like ones added up. */
function Ribbons(): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const ribbons = ribbonsToBuy(garmentOf(store.getState()).trims, doc.units);
  if (ribbons.length === 0) return null;
  return (
    <Part title="Trims">
      <ul className="ribbons">
        {ribbons.map((r, i) => (
          <li key={i}>
            <span className="chip" style={{ background: r.fill }} /> {sayRibbon(r, doc.units)}
            <em>
              {formatLength(r.need, doc.units)} to cut
              {r.shrinkage > 0 && `, ${r.shrinkage} % shrinkage counted in`}
              {r.joins > 0 && `, ${counted(r.joins, 'join')}`}
            </em>
          </li>
        ))}
      </ul>
    </Part>
  );
}

/** How much cloth to buy, from a real lay plan for each. */
export function ClothSheet(): ReactElement {
  const lays = useLays();
  return (
    <Sheet
      title="Cloth to buy"
      lead="Each cloth is laid with its pieces along the grain. The length to ask for is rounded up as it is sold."
    >
      {lays.length === 0 && <p className="note">Laying the pieces …</p>}
      {lays.map((lay) => (
        <Cloth key={lay.colour} lay={lay} />
      ))}
      <Ribbons />
      <Part title="Before you buy">
        <p className="care">
          Wash the cloth before you cut it. Dark cloth beside light may bleed: try a scrap of both in warm
          water first.
        </p>
      </Part>
    </Sheet>
  );
}
