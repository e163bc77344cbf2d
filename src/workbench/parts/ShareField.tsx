import { useId, useState, type ReactElement } from 'react';

/** Read what a person types for a share: `33`, `33.3 %`, `1/3`. @returns 0..1, or null if it is not a share */
export function parseShare(text: string): number | null {
  const clean = text.trim().replace(',', '.').replace(/%$/, '').trim();
  const parts = /^(\d+)\s*\/\s*(\d+)$/.exec(clean);
  const share = parts
    ? Number(parts[1]) / Number(parts[2])
    : /^-?\d+(\.\d+)?$/.test(clean)
      ? Number(clean) / 100
      : NaN;
  return Number.isFinite(share) ? share : null;
}

const shown = (share: number): string => `${Math.round(share * 1000) / 10}`;

/** A share of the way in percent; fractions are understood. Enter or leaving takes it, Escape puts the old one back. */
export function ShareField({
  label,
  value,
  onChange,
}: {
  label: string;
  value: number;
  /** @returns false when it cannot be had */
  onChange: (share: number) => boolean | void;
}): ReactElement {
  const id = useId();
  const [text, setText] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const take = (): void => {
    if (text === null) return;
    const share = parseShare(text);
    if (share === null) return setWrong(`“${text}” is not a share. Write it like 33.3 or 1/3.`);
    if (Math.abs(share - value) > 1e-9 && onChange(share) === false)
      return setWrong('There is no such place on this piece.');
    setWrong(null);
    setText(null);
  };
  return (
    <span className="length-field">
      <label htmlFor={id} className="unseen">
        {label}
      </label>
      <span className="length-box">
        <input
          id={id}
          type="text"
          autoComplete="off"
          value={text ?? shown(value)}
          aria-invalid={wrong !== null}
          aria-describedby={wrong ? `${id}-wrong` : undefined}
          onChange={(e) => setText(e.target.value)}
          onFocus={(e) => e.target.select()}
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
        <span aria-hidden="true">%</span>
      </span>
      {wrong && (
        <span className="field-wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </span>
      )}
    </span>
  );
}
