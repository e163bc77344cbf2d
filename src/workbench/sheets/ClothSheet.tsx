import { lazy, Suspense, type ReactElement } from 'react';
import { LayCard } from '../cloth/LayCard';
import { OffGrainCard } from '../cloth/OffGrainCard';
import { shownLay } from '../cloth/strips';
import { useSpokenLays } from '../cloth/useSpokenLays';
import { useLays } from '../handOut/RoomsContext';
import { LengthField } from '../parts/LengthField';
import { useBench, useBenchStore } from '../store/benchStore';
import { changeGap } from '../store/clothEdits';
import { Part, Sheet } from './Sheet';

const RemnantsPart = lazy(() => import('./RemnantsPart'));
const ShoppingPart = lazy(() => import('./ShoppingPart'));
const WidthTablePart = lazy(() => import('./WidthTablePart'));

/** mm */
const MOST_GAP = 100;

/** Room for the blade between pieces, on every cloth. */
function Between(): ReactElement {
  const store = useBenchStore();
  const { units, cuttingOut } = useBench((s) => s.doc);
  return (
    <Part title="On every cloth">
      <LengthField
        label="Kept between pieces"
        value={cuttingOut.gap}
        units={units}
        most={MOST_GAP}
        onChange={(gap) => store.getState().commit('Change the room between pieces', changeGap(gap))}
      />
      <p className="note">Room for the blade.</p>
    </Part>
  );
}

/** How much cloth to buy, from a real lay plan for each. */
export function ClothSheet(): ReactElement {
  const lays = useLays();
  const shownCloth = useBench((s) => s.shownCloth);
  useSpokenLays(lays);
  const shown = shownLay(lays, shownCloth);
  // no more workers at once than there are cores: other widths are laid when all cloths are
  const isAtRest = lays.every(({ done }) => done);
  return (
    <Sheet
      title="Cloth to buy"
      lead="Each cloth is really laid, pieces along the grain. What to ask for is read from the plan on the table, rounded up as it is sold."
    >
      {lays.length === 0 && <p className="note">Laying the pieces …</p>}
      {lays.map((lay) => (
        <LayCard key={lay.colour} lay={lay} isShown={lay === shown} />
      ))}
      <OffGrainCard />
      <Suspense fallback={null}>
        <RemnantsPart lays={lays} />
        {lays.length > 0 && <ShoppingPart lays={lays} />}
        {shown && <WidthTablePart key={shown.colour} lay={isAtRest ? shown : { ...shown, done: false }} />}
      </Suspense>
      <Between />
      <Part title="Before you cut">
        <p className="care">
          Make a toile first. Wash the cloth, then measure its width yourself and look which way its print and
          nap run. Dark cloth beside light may bleed: try a scrap of both in warm water.
        </p>
      </Part>
    </Sheet>
  );
}
