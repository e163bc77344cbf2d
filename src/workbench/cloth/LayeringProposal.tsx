import type { ReactElement } from 'react';
import { compareLayerings } from '../../fabric';
import { formatLength, type Colour, type Units } from '../../pattern';
import { counted } from '../drawing/words';
import type { LayState } from '../handOut/layRoom';
import { useBenchStore } from '../store/benchStore';
import { changeColour } from '../store/colourEdits';

/** `10 cm more`, `10 cm less`, `the same length`: of the other way against this one. */
function sayMore(more: number, units: Units): string {
  if (Math.abs(more) < 1) return 'the same length to buy';
  return `${formatLength(Math.abs(more), units)} ${more > 0 ? 'more' : 'less'} to buy`;
}

/** The other way to lay the cloth, with what it costs or saves. Null where there is nothing to choose. */
export function LayeringProposal({
  lay,
  colour,
  units,
}: {
  lay: LayState;
  colour: Colour;
  units: Units;
}): ReactElement | null {
  const { commit } = useBenchStore().getState();
  const [own, other] = [lay.plan?.bought, lay.other?.bought];
  if (!own || !other || other.placed.length === 0 || own.layering === other.layering) return null;
  const isFolded = own.layering === 'folded';
  const choice = isFolded ? compareLayerings(other, own) : compareLayerings(own, other);
  const { single, folded } = choice.cuts;
  const [cutsNow, cutsThen] = isFolded ? [folded, single] : [single, folded];
  const more = other.buy - own.buy;
  if (cutsNow === cutsThen && Math.abs(more) < 1 && own.placed.length > 0) return null;
  const cuts =
    cutsThen === null || cutsNow === null || cutsThen === cutsNow
      ? ''
      : `, ${counted(cutsThen, 'outline')} to cut instead of ${cutsNow}`;
  const name = isFolded ? 'In one layer' : 'Folded lengthwise';
  const words = own.placed.length === 0 ? 'it fits' : `${sayMore(more, units)}${cuts}`;
  const isProposed = choice.proposed === other.layering;
  return (
    <div className={isProposed ? 'proposal better' : 'proposal'}>
      <p>
        {name}: {words}.
      </p>
      <button
        type="button"
        className={isProposed ? 'strong' : undefined}
        onClick={() =>
          commit(
            isFolded ? 'Lay a cloth in one layer' : 'Lay a cloth folded',
            changeColour(colour.id, { layering: other.layering }),
          )
        }
      >
        {isFolded ? 'Lay it in one layer' : 'Lay it folded'}
      </button>
    </div>
  );
}
