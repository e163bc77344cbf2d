import { useId, useState, type ReactElement } from 'react';

/** A plain number; empty gives null. Taken on leaving or Enter; what is no number within the bounds stays, with a word on it. */
export function NumberField({
  label,
  value,
  least = 0,
  most,
  onChange,
}: {
  label: string;
  value: number | null;
  least?: number;
  most: number;
  onChange: (value: number | null) => void;
}): ReactElement {
  const id = useId();
  const [text, setText] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const take = (): void => {
    if (text === null) return;
    const number = text.trim() === '' ? null : Number(text.replace(',', '.'));
    if (number !== null && !(Number.isFinite(number) && number >= least && number <= most))
      return setWrong(`Give a number from ${least} to ${most}.`);
    onChange(number);
    setWrong(null);
    setText(null);
  };
  return (
    <span className="length-field">
      <label htmlFor={id}>{label}</label>
      <span className="length-box">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={text ?? value ?? ''}
          aria-invalid={wrong !== null}
          aria-describedby={wrong ? `${id}-wrong` : undefined}
          onChange={(e) => setText(e.target.value)}
          onBlur={take}
          onKeyDown={(e) => {
            if (e.key === 'Enter') take();
            if (e.key === 'Escape') {
              setText(null);
              setWrong(null);
              e.currentTarget.blur();
            }
          }}
        />
      </span>
      {wrong && (
        <span className="field-wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </span>
      )}
    </span>
  );
}
