import { useEffect, useId, useState, type ReactElement } from 'react';
import { dartChoices, dartOutcome, type DartChoice, type DartOutcome } from '../../panels';
import { formatLength, type Design, type PieceId } from '../../pattern';
import { sayAngle, sayFit, saySmall, titleOf } from '../drawing/dartWords';
import { useBench, useBenchStore } from '../store/benchStore';

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

/** What can be done with a dart: choosing shows it on the table at once, and only the button does it. */
export function DartCard({ piece, dart }: { piece: PieceId; dart: number }): ReactElement {
  const store = useBenchStore();
  const doc = useBench((s) => s.doc);
  const name = useId();
  const choices = dartChoices(doc, piece, dart);
  const done = choices.find((c) => isDone(c, doc)) ?? null;
  const [wanted, want] = useState<string | null>(null);
  const shown = choices.find((c) => c.key === wanted) ?? done;
  useEffect(() => () => store.getState().cancel(), [store]);
  const choose = (choice: DartChoice): void => {
    want(choice.key);
    if (isDone(choice, doc)) store.getState().cancel();
    else store.getState().preview(choice.apply);
  };
  const take = (choice: DartChoice): void => {
    store.getState().commit(`Dart: ${titleOf(choice, doc).toLowerCase()}`, choice.apply);
    store.getState().set({ spoken: `Done. ${titleOf(choice, doc)}.` });
    want(null);
  };
  const outcome = dartOutcome(shown ? shown.apply(doc) : doc, piece, dart);
  return (
    <div className="card">
      <fieldset className="dart-choices">
        <legend className="unseen">What to do with this dart</legend>
        {choices.map((choice) => (
          <label key={choice.key} className={choice === shown ? 'chosen' : undefined}>
            <input type="radio" name={name} checked={choice === shown} onChange={() => choose(choice)} />
            <span>
              {titleOf(choice, doc)}
              {choice === done && <em> as it is now</em>}
            </span>
          </label>
        ))}
      </fieldset>
      {shown && outcome && <p className="note">{sayFit(shown, outcome, doc.units)}</p>}
      {outcome && <Numbers outcome={outcome} />}
      <div className="actions">
        <button
          type="button"
          className="strong"
          disabled={!shown || shown === done}
          onClick={() => shown && take(shown)}
        >
          Do this
        </button>
        {shown !== done && (
          <button
            type="button"
            onClick={() => {
              store.getState().cancel();
              want(null);
            }}
          >
            Leave it
          </button>
        )}
      </div>
    </div>
  );
}
