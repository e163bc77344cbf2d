import type { ReactElement } from 'react';
import { PRICED_BY, priceAsSaid, pricePerMetre } from '../../fabric';
import { formatLength, type Colour, type Layering } from '../../pattern';
import { Choice, Tick } from '../parts/Choice';
import { LengthField } from '../parts/LengthField';
import { NumberField } from '../parts/NumberField';
import { useBench, useBenchStore } from '../store/benchStore';
import { changeColour } from '../store/colourEdits';

/** Cloth as it is sold or left over, mm. */
const [LEAST_WIDTH, MOST_WIDTH] = [100, 5000];
/** So much width has to be left between the margins, mm. */
const LEAST_BETWEEN = 50;
const MOST_MARGIN = 300;
/** A repeat finer than this cannot be matched by hand, mm; coarser ones are not made. */
const [LEAST_REPEAT, MOST_REPEAT] = [1, 2000];
const MOST_SHRINKAGE = 40;
const MOST_RESERVE = 5000;

type Change = (label: string, patch: Partial<Omit<Colour, 'id'>>) => void;

function WidthFields({ colour, change }: { colour: Colour; change: Change }): ReactElement {
  const units = useBench((s) => s.doc.units);
  return (
    <>
      <LengthField
        label="Width between the selvedges"
        value={colour.width}
        units={units}
        least={Math.max(LEAST_WIDTH, 2 * colour.margin + LEAST_BETWEEN)}
        most={MOST_WIDTH}
        onChange={(width) => change('Change a cloth’s width', { width })}
      />
      <p className="note">Measure it yourself: cloth is often narrower than its label.</p>
      <LengthField
        label="Kept free at each selvedge"
        value={colour.margin}
        units={units}
        most={Math.min(MOST_MARGIN, (colour.width - LEAST_BETWEEN) / 2)}
        onChange={(margin) => change('Change what is kept free at the selvedges', { margin })}
      />
      <p className="note">Where the edge is tight, printed or pricked by pins.</p>
    </>
  );
}

function WayFields({ colour, change }: { colour: Colour; change: Change }): ReactElement {
  return (
    <>
      <Tick
        label="One way only (nap or print)"
        note="All pieces lie the same way up; it takes more cloth. Stroke it, and look at the print upside down."
        on={colour.nap}
        onChange={(nap) => change('Change the nap', { nap })}
      />
      <Choice<Layering>
        label="Laid"
        options={[
          ['single', 'in one layer'],
          ['folded', 'folded lengthwise'],
        ]}
        value={colour.layering}
        onChoose={(layering) => change('Change how a cloth is laid', { layering })}
      />
      <p className="note">
        {colour.layering === 'folded'
          ? 'Right sides together: pairs are cut in one go, and middles may lie on the fold.'
          : 'Right side up: every piece is cut by itself.'}
      </p>
    </>
  );
}

/** A repeat is nothing, or long enough to be one. */
const asRepeat = (mm: number): number => (mm < LEAST_REPEAT ? 0 : mm);

function RepeatFields({ colour, change }: { colour: Colour; change: Change }): ReactElement {
  const units = useBench((s) => s.doc.units);
  const { along, across } = colour.repeat;
  return (
    <>
      <LengthField
        label="Repeat along the cloth"
        value={along}
        units={units}
        most={MOST_REPEAT}
        onChange={(mm) => change('Change a repeat', { repeat: { along: asRepeat(mm), across } })}
      />
      <LengthField
        label="Repeat across the cloth"
        value={across}
        units={units}
        most={MOST_REPEAT}
        onChange={(mm) => change('Change a repeat', { repeat: { along, across: asRepeat(mm) } })}
      />
      <p className="note">
        From the middle of one stripe or motif to the next like it; pieces are laid so that it meets. 0: there
        is nothing to match.
      </p>
    </>
  );
}

function BuyFields({ colour, change }: { colour: Colour; change: Change }): ReactElement {
  const units = useBench((s) => s.doc.units);
  const { along, across } = colour.shrinkage;
  return (
    <>
      <NumberField
        label="Shrinks along, %"
        value={along}
        most={MOST_SHRINKAGE}
        onChange={(value) => change('Change shrinkage', { shrinkage: { along: value ?? 0, across } })}
      />
      <NumberField
        label="Shrinks across, %"
        value={across}
        most={MOST_SHRINKAGE}
        onChange={(value) => change('Change shrinkage', { shrinkage: { along, across: value ?? 0 } })}
      />
      <p className="note">Wash a measured square of it, and measure it again.</p>
      <LengthField
        label="In reserve"
        value={colour.reserve}
        units={units}
        most={MOST_RESERVE}
        onChange={(reserve) => change('Change the reserve', { reserve })}
      />
      <p className="note">Bought beyond what the plan needs: for crooked ends and second thoughts.</p>
      <NumberField
        label={`Price a ${PRICED_BY[units]}`}
        value={colour.price === null ? null : priceAsSaid(colour.price, units)}
        most={100_000}
        onChange={(said) =>
          change('Change a price', { price: said === null ? null : pricePerMetre(said, units) })
        }
      />
    </>
  );
}

/** In a few words what is known of a cloth beside its name. */
function known({ margin, nap, layering, repeat, shrinkage, width }: Colour, units: 'cm' | 'in'): string {
  const words = [
    formatLength(width, units),
    margin > 0 && `${formatLength(margin, units)} kept free`,
    nap && 'one way',
    layering === 'folded' && 'folded',
    (repeat.along > 0 || repeat.across > 0) && 'matched',
    (shrinkage.along > 0 || shrinkage.across > 0) && 'shrinks',
  ];
  return words.filter((word) => word !== false).join(', ');
}

/** What is known of one cloth: how wide it is, which way it goes, how it is laid, what is bought beyond need. */
export function ClothSettings({ colour }: { colour: Colour }): ReactElement {
  const store = useBenchStore();
  const units = useBench((s) => s.doc.units);
  const change: Change = (label, patch) => store.getState().commit(label, changeColour(colour.id, patch));
  return (
    <details className="card about-cloth">
      <summary>About this cloth: {known(colour, units)}</summary>
      <div className="fields cloth-settings">
        <WidthFields colour={colour} change={change} />
        <WayFields colour={colour} change={change} />
        <RepeatFields colour={colour} change={change} />
        <BuyFields colour={colour} change={change} />
      </div>
    </details>
  );
}
