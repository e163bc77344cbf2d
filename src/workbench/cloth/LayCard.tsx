import { useContext, useMemo, type ReactElement } from 'react';
import { costOf, sayAtCounter, sayMoney } from '../../fabric';
import { formatLength, type Colour, type Units } from '../../pattern';
import { counted } from '../drawing/words';
import type { LayState } from '../handOut/layRoom';
import { LayContext } from '../handOut/RoomsContext';

import { useBench, useBenchStore } from '../store/benchStore';
import { ClothSettings } from './ClothSettings';
import { LayeringProposal } from './LayeringProposal';
import { LayProblems } from './LayProblems';
import { asLongAs } from './asLongAs';
import { LengthLine } from './LengthLine';

/** How much longer one may search, nominal seconds, and in words. */
const LONGER: readonly (readonly [number, string])[] = [
  [10, '10 seconds'],
  [60, '1 minute'],
];

/** What to ask for, and what it costs. */
function Amount({
  lay,
  colour,
  units,
}: {
  lay: LayState;
  colour: Colour;
  units: Units;
}): ReactElement | null {
  const { plan } = lay;
  if (!plan) return null;
  const { own, bought } = plan;
  const cloths = [...own, bought];
  const area = cloths.reduce((sum, one) => sum + one.length * one.width, 0);
  const used = cloths.reduce((sum, one) => sum + one.density * one.length * one.width, 0) / (area || 1);
  const onOwn = own.reduce((sum, one) => sum + one.placed.length, 0);
  const onIt = bought.placed.length;
  const laid = [
    onIt > 0 && `${counted(onIt, 'piece')} on ${formatLength(bought.length, units)}`,
    onOwn > 0 && `${onIt > 0 ? onOwn : counted(onOwn, 'piece')} on cloth you have`,
  ].filter((words) => words !== false);
  if (bought.placed.length === 0 && own.length === 0) return null;
  return (
    <>
      <p className="buy">
        {bought.placed.length > 0 ? (
          <>
            <strong>{sayAtCounter(bought.buy, units)}</strong> of {formatLength(colour.width, units)} wide
            {colour.price !== null && ` · ${sayMoney(costOf(bought.buy, colour.price))} in all`}
          </>
        ) : (
          <strong>nothing to buy</strong>
        )}
      </p>
      <p className="note">
        {laid.join(', ')}, {Math.round(used * 100)} % of the cloth used
        {lay.job.layering === 'folded' && ', folded'}
        {lay.job.nap && ', all one way'}
      </p>
    </>
  );
}

/** How the search stands, with what can be done about it. */
function Search({ lay, units }: { lay: LayState; units: Units }): ReactElement {
  const room = useContext(LayContext);
  const { colour, job, plan, done, progress } = lay;
  // one's own cloth might take the panel that is so long
  const hasOwn = useBench((b) => b.doc.remnants.some((r) => r.colour === colour));
  const longest = useMemo(
    () => (plan && done && !hasOwn ? asLongAs(job, plan.bought) : null),
    [job, plan, done, hasOwn],
  );
  const isPlan = plan !== null && plan.own.length + plan.bought.placed.length > 0;
  return (
    <>
      {isPlan && <LengthLine lay={lay} units={units} />}
      {!done && (
        <div className="searching">
          <progress max={1} value={progress} aria-label={`Searching a shorter plan for ${job.colourName}`} />
          {plan && (
            <button type="button" onClick={() => room.stopAndKeep(colour)}>
              Stop and keep
            </button>
          )}
        </div>
      )}
      {done && longest !== null && (
        <p className="note">It cannot be shorter: panel {longest} alone is that long.</p>
      )}
      {done && isPlan && longest === null && (
        <div className="search-on" role="group" aria-label={`Search longer for ${job.colourName}`}>
          <span>Search longer:</span>
          {LONGER.map(([seconds, words]) => (
            <button key={seconds} type="button" onClick={() => room.searchOn(colour, seconds)}>
              {words}
            </button>
          ))}
        </div>
      )}
    </>
  );
}

/** One cloth: what to buy of it, how its plan comes on, and what is known of it. */
export function LayCard({ lay, isShown }: { lay: LayState; isShown: boolean }): ReactElement | null {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const colour = doc.colours.find(({ id }) => id === lay.colour);
  if (!colour) return null;
  const { plan, job, failed } = lay;
  const problems = plan ? [...plan.own, plan.bought].flatMap((one) => one.problems) : [];
  return (
    <section className={isShown ? 'cloth shown' : 'cloth'} aria-label={job.colourName} aria-busy={!lay.done}>
      <h3>
        <button
          type="button"
          className="row-button cloth-name"
          aria-pressed={isShown}
          onClick={() => store.getState().set({ shownCloth: colour.id })}
        >
          <span className="chip" style={{ background: colour.fill }} />
          <span>
            {job.colourName}
            {!isShown && <em>show it on the table</em>}
          </span>
        </button>
      </h3>
      {!plan && !failed && <p className="note">Laying {counted(job.pieces.length, 'piece')} …</p>}
      <Amount lay={lay} colour={colour} units={doc.units} />
      <Search lay={lay} units={doc.units} />
      <LayeringProposal lay={lay} colour={colour} units={doc.units} />
      <LayProblems problems={problems} colour={colour} />
      {failed && <p className="field-wrong">{failed}</p>}
      <ClothSettings colour={colour} />
    </section>
  );
}
