import { useId, type ReactElement, type ReactNode } from 'react';

/** One of a few plain words. */
export function Choice<T extends string>({
  label,
  options,
  value,
  onChoose,
  quiet = false,
}: {
  label: string;
  options: readonly (readonly [T, string])[];
  value: T;
  onChoose: (value: T) => void;
  quiet?: boolean;
}): ReactElement {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend className={quiet ? 'unseen' : undefined}>{label}</legend>
      <div className="choice-row">
        {options.map(([option, words]) => (
          <label key={option} className={option === value ? 'chosen' : undefined}>
            <input type="radio" name={name} checked={option === value} onChange={() => onChoose(option)} />
            <span>{words}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** Yes or no, with a word of why below. */
export function Tick({
  label,
  note,
  on,
  onChange,
}: {
  label: string;
  note?: ReactNode;
  on: boolean;
  onChange: (on: boolean) => void;
}): ReactElement {
  const id = useId();
  return (
    <div className="tick">
      <input
        id={id}
        type="checkbox"
        checked={on}
        onChange={(e) => onChange(e.target.checked)}
        aria-describedby={note ? `${id}-note` : undefined}
      />
      <label htmlFor={id}>{label}</label>
      {note && (
        <p className="note" id={`${id}-note`}>
          {note}
        </p>
      )}
    </div>
  );
}
