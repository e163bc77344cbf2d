import { useId, useState, type ReactElement } from 'react';
import { sayLeftOver, type LayJob, type OwnClothUse } from '../../fabric';
import { formatLength, type Colour, type Remnant, type Units } from '../../pattern';
import { counted } from '../drawing/words';
import { LengthField } from '../parts/LengthField';
import { NumberField } from '../parts/NumberField';
import { TextField } from '../parts/TextField';
import { useBenchStore } from '../store/benchStore';
import { asRectangle, changeRemnant, rectangleOf, removeRemnant } from '../store/remnantEdits';
import { RemnantsBoard } from './RemnantsBoard';
import { RemnantsDrawing } from './RemnantsDrawing';

/** mm: the smallest and largest sides of cloth, and how many alike there may be. */
const [LEAST_SIDE, MOST_SIDE] = [10, 20_000];
const MOST_ALIKE = 100;

/** More corners than this are not put on the board: they were traced, and each would be a row. */
const MOST_CORNERS = 60;

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** `Panel 4`, `Panels 2, 7 twice and 12`. */
function sayPanels(panels: readonly number[]): string {
  const numbers = [...new Set(panels)];
  const times = (n: number): number => panels.filter((other) => other === n).length;
  const words = numbers.map((n) =>
    times(n) === 1 ? `${n}` : times(n) === 2 ? `${n} twice` : `${n} ${times(n)} times`,
  );
  return `Panel${numbers.length === 1 ? '' : 's'} ${listed(words)}`;
}

/** What is cut from one piece and what it leaves. */
function sayUse({ panels, left, of, cloth }: OwnClothUse, units: Units): string {
  const which = of > 1 ? ` (number ${cloth.copy} of ${of})` : '';
  return `${sayPanels(panels)}${which}. Left over: ${sayLeftOver(left, units)}.`;
}

/** Why nothing is cut from a piece. */
function sayUnused(use: OwnClothUse | undefined, job: LayJob | null, colour: Colour | undefined): string {
  if (!job) return `No panel is ${colour?.name ?? 'of its colour'}.`;
  if (!use) return 'Laying the pieces …';
  const { fitting } = use;
  if (fitting.length === 0) return 'No panel fits it.';
  const fits = `${sayPanels(fitting)} would fit it`;
  if (colour && (colour.repeat.along > 0 || colour.repeat.across > 0))
    return `${fits}, but where the print lies on it is not known.`;
  return `${fits}, but no less would be bought: it is left whole.`;
}

function Uses({
  remnant,
  uses,
  job,
  colour,
  units,
}: {
  remnant: Remnant;
  uses: readonly OwnClothUse[];
  job: LayJob | null;
  colour: Colour | undefined;
  units: Units;
}): ReactElement {
  const used = uses.filter(({ plan }) => plan !== null);
  const fill = colour?.fill ?? '#e9dfce';
  if (used.length === 0)
    return (
      <>
        <RemnantsDrawing outline={remnant.outline} fill={fill} words={remnant.name} laid={null} left={null} />
        <p className="note">{sayUnused(uses[0], job, colour)}</p>
      </>
    );
  return (
    <>
      {used.map((use) => (
        <div key={use.cloth.copy}>
          <RemnantsDrawing
            outline={use.cloth.outline}
            fill={fill}
            words={`${remnant.name}: ${sayUse(use, units)}`}
            laid={job && use.plan ? { job, plan: use.plan } : null}
            left={use.left.rectangle}
          />
          <p className="note">{sayUse(use, units)}</p>
        </div>
      ))}
      {used.length < uses.length && (
        <p className="note">
          {counted(uses.length - used.length, 'more of them is', 'more of them are')} left whole.
        </p>
      )}
    </>
  );
}

/** Length and width of a rectangle; of any other outline how large its box is, with its corners to change. */
function Shape({ remnant, units }: { remnant: Remnant; units: Units }): ReactElement {
  const store = useBenchStore();
  const [isDrawing, setDrawing] = useState(false);
  const { commit, set } = store.getState();
  const sides = asRectangle(remnant.outline);
  const change = (outline: Remnant['outline']): void =>
    commit('Change a piece of own cloth', changeRemnant(remnant.id, { outline }));
  if (isDrawing)
    return (
      <RemnantsBoard
        start={remnant.outline}
        units={units}
        done="Take these corners"
        onDone={(corners) => {
          change(corners);
          setDrawing(false);
        }}
        onLeave={() => setDrawing(false)}
        onSpoken={(spoken) => set({ spoken })}
      />
    );
  return (
    <>
      {sides && (
        <>
          <LengthField
            label="Length, along the grain"
            value={sides.length}
            units={units}
            least={LEAST_SIDE}
            most={MOST_SIDE}
            onChange={(length) => change(rectangleOf(length, sides.width))}
          />
          <LengthField
            label="Width"
            value={sides.width}
            units={units}
            least={LEAST_SIDE}
            most={MOST_SIDE}
            onChange={(width) => change(rectangleOf(sides.length, width))}
          />
        </>
      )}
      {!sides && remnant.outline.length <= MOST_CORNERS && (
        <div className="actions">
          <button type="button" onClick={() => setDrawing(true)}>
            Change its corners
          </button>
        </div>
      )}
    </>
  );
}

/** One piece of one's own cloth: what it is, what lies on it, what is left. */
export function RemnantsRow({
  remnant,
  uses,
  job,
  colours,
  units,
}: {
  remnant: Remnant;
  /** One for each of those alike; none while nothing is laid. */
  uses: readonly OwnClothUse[];
  job: LayJob | null;
  colours: readonly Colour[];
  units: Units;
}): ReactElement {
  const store = useBenchStore();
  const id = useId();
  const { commit, set } = store.getState();
  const sides = asRectangle(remnant.outline);
  return (
    <li className="remnant" aria-label={remnant.name}>
      <Uses
        remnant={remnant}
        uses={uses}
        job={job}
        colour={colours.find((c) => c.id === remnant.colour)}
        units={units}
      />
      <details>
        <summary>
          {remnant.name}
          {sides && `, ${formatLength(sides.length, units)} × ${formatLength(sides.width, units)}`}
          {remnant.count > 1 && `, ${remnant.count} alike`}
        </summary>
        <div className="fields">
          <TextField
            label="Called"
            value={remnant.name}
            onChange={(name) => commit('Rename a piece of own cloth', changeRemnant(remnant.id, { name }))}
          />
          <Shape remnant={remnant} units={units} />
          <NumberField
            label="How many alike"
            value={remnant.count}
            least={1}
            most={MOST_ALIKE}
            onChange={(count) =>
              commit('Change how many', changeRemnant(remnant.id, { count: Math.round(count ?? 1) }))
            }
          />
          {colours.length > 1 && (
            <span className="select-field">
              <label htmlFor={id}>It is</label>
              <select
                id={id}
                value={remnant.colour}
                onChange={(e) =>
                  commit(
                    'Change what own cloth is',
                    changeRemnant(remnant.id, { colour: e.target.value as Colour['id'] }),
                  )
                }
              >
                {colours.map((c) => (
                  <option key={c.id} value={c.id}>
                    {c.name}
                  </option>
                ))}
              </select>
            </span>
          )}
          <button
            type="button"
            className="warn"
            onClick={() => {
              commit(`Take ${remnant.name} off the list`, removeRemnant(remnant.id));
              set({ spoken: `${remnant.name} is off the list.` });
            }}
          >
            Take it off the list
          </button>
        </div>
      </details>
    </li>
  );
}
