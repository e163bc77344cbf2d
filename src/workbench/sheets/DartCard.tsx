import { useEffect, useId, useRef, useState, type ReactElement } from 'react';
import {
  dartChoices,
  dartOutcome,
  swingChoices,
  swingWorks,
  type DartChoice,
  type DartOutcome,
  type SwingChoice,
} from '../../panels';
import { formatLength, type Design, type PieceId } from '../../pattern';
import { sayAngle, sayFit, saySmall, titleOf } from '../drawing/dartWords';
import { shutOf } from '../drawing/shutPiece';
import { Choice, Tick } from '../parts/Choice';
import { garmentOf, useBench, useBenchStore } from '../store/benchStore';

/** Whether the design has this choice already. */
const isDone = (choice: DartChoice, doc: Design): boolean => choice.apply(doc) === doc;

function Numbers({ outcome }: { outcome: DartOutcome }): ReactElement {
  const units = useBench((s) => s.doc.units);
  const sewn = outcome.sewn.map((d) => formatLength(d.intake, units)).join(' + ') || 'none';
  return (
    <dl className="dart-numbers">
      <div>
        <dt>Angle</dt>
        <dd>{sayAngle(outcome.angle)}</dd>
      </div>
      <div>
        <dt>Width, traced</dt>
        <dd>{formatLength(outcome.intake, units)}</dd>
      </div>
      <div>
        <dt>Still sewn</dt>
        <dd>{sewn}</dd>
      </div>
      <div>
        <dt>Eased in</dt>
        <dd>{outcome.eased > 0 ? saySmall(outcome.eased, units) : 'none'}</dd>
      </div>
    </dl>
  );
}

/** Where to swing the dart, and how much of it. */
function SwingFields({
  choices,
  shown,
  onChoose,
}: {
  choices: readonly SwingChoice[];
  shown: SwingChoice;
  onChoose: (choice: SwingChoice) => void;
}): ReactElement {
  const places = [...new Set(choices.map((c) => c.place))];
  const pick = (place: string, share: number): void => {
    const found = choices.find((c) => c.place === place && c.share === share);
    if (found) onChoose(found);
  };
  return (
    <div className="fields swing-fields">
      <label className="select-field">
        To the
        <select value={shown.place} onChange={(e) => pick(e.target.value, shown.share)}>
          {places.map((place) => (
            <option key={place}>{place}</option>
          ))}
        </select>
      </label>
      <Choice
        label="How much of the dart"
        quiet
        options={[
          ['all', 'All of it'],
          ['half', 'Half of it'],
        ]}
        value={shown.share < 1 ? 'half' : 'all'}
        onChoose={(v) => pick(shown.place, v === 'half' ? 0.5 : 1)}
      />
    </div>
  );
}

/** Folding the dart shut on the table, to see and draw over it as it will be sewn. */
function ShutTick({ piece, dart }: { piece: PieceId; dart: number }): ReactElement | null {
  const store = useBenchStore();
  useBench((s) => s.doc);
  const on = useBench((s) => s.shutDart?.piece === piece && s.shutDart.dart === dart);
  const whole = garmentOf(store.getState()).pieceById.get(piece)?.whole;
  if (!whole || !shutOf(whole, { piece, dart })) return null;
  return (
    <Tick
      label="Show it folded shut"
      note="The piece lies flat by a slit that opens elsewhere. Lines drawn now run straight once the dart is sewn."
      on={on}
      onChange={(shut) => store.getState().set({ shutDart: shut ? { piece, dart } : null, tip: null })}
    />
  );
}

/** The choices in the list: one stands for all places a dart can be swung to. */
function useChoices(piece: PieceId, dart: number) {
  const doc = useBench((s) => s.doc);
  const [wanted, want] = useState<string | null>(null);
  const plain = dartChoices(doc, piece, dart);
  const swings = swingChoices(doc, piece, dart);
  const all: readonly DartChoice[] = [...plain, ...swings];
  const done = all.find((c) => isDone(c, doc)) ?? null;
  const shown = all.find((c) => c.key === wanted) ?? done;
  const swing = shown?.kind === 'swing' ? shown : (swings[0] ?? null);
  return { doc, listed: swing ? [...plain, swing] : plain, swings, done, shown, want };
}

/** What can be done with a dart: choosing shows it on the table at once, and only the button does it. */
export function DartCard({ piece, dart }: { piece: PieceId; dart: number }): ReactElement {
  const store = useBenchStore();
  const name = useId();
  const { doc, listed, swings, done, shown, want } = useChoices(piece, dart);
  useEffect(
    () => () => {
      store.getState().cancel();
      store.getState().set({ shutDart: null });
    },
    [store],
  );
  const actions = useRef<HTMLDivElement>(null);
  const tries = shown !== done;
  const key = shown?.key;
  useEffect(() => {
    // what was chosen says more than what it takes the place of: the button that does it stays in view
    if (tries) actions.current?.scrollIntoView?.({ block: 'nearest' });
  }, [tries, key]);
  const choose = (choice: DartChoice): void => {
    want(choice.key);
    // a choice is judged on the flat piece: folded shut, what it changes cannot be told from the slit
    store.getState().set({ shutDart: null });
    if (isDone(choice, doc)) store.getState().cancel();
    else store.getState().preview(choice.apply);
  };
  const take = (choice: DartChoice): void => {
    store.getState().commit(`Dart: ${titleOf(choice, doc).toLowerCase()}`, choice.apply);
    store.getState().set({ spoken: `Done. ${titleOf(choice, doc)}.` });
    want(null);
  };
  const leave = (): void => {
    store.getState().cancel();
    want(null);
  };
  const tried = shown ? shown.apply(doc) : doc;
  const works = swingWorks(tried, piece);
  const outcome = dartOutcome(tried, piece, dart);
  return (
    <div className="card">
      <fieldset className="dart-choices">
        <legend className="unseen">What to do with this dart</legend>
        {listed.map((choice) => (
          <label
            key={choice.kind === 'swing' ? 'swing' : choice.key}
            className={choice === shown ? 'chosen' : undefined}
          >
            <input type="radio" name={name} checked={choice === shown} onChange={() => choose(choice)} />
            <span>
              {choice.kind === 'swing' && choice !== shown ? 'Swing it elsewhere' : titleOf(choice, doc)}
              {choice === done && <em> as it is now</em>}
            </span>
          </label>
        ))}
      </fieldset>
      {shown?.kind === 'swing' && <SwingFields choices={swings} shown={shown} onChoose={choose} />}
      {shown && outcome && (
        <p className="note">
          {works
            ? sayFit(shown, outcome, doc.units)
            : 'The point of the dart does not see this place straight across the piece: choose another.'}
        </p>
      )}
      {outcome && <Numbers outcome={outcome} />}
      {shown === done && <ShutTick piece={piece} dart={dart} />}
      <div className="actions" ref={actions}>
        <button
          type="button"
          className="strong"
          disabled={!shown || shown === done || !works}
          onClick={() => shown && take(shown)}
        >
          Do this
        </button>
        {shown !== done && (
          <button type="button" onClick={leave}>
            Leave it
          </button>
        )}
      </div>
    </div>
  );
}
