import { useEffect, useId, useRef, useState, type ReactElement } from 'react';
import { formatLength, parseLength, type Units } from '../../pattern';

interface LengthFieldProps {
  readonly label: string;
  /** mm */
  readonly value: number;
  readonly units: Units;
  /** mm; only called for a length within the bounds that differs. @returns false when it cannot be had */
  readonly onChange: (mm: number) => boolean | void;
  readonly least?: number;
  readonly most?: number;
  /** Only for screen readers, when the words around the field say it already. */
  readonly quiet?: boolean;
  readonly fieldRef?: (field: HTMLInputElement | null) => void;
}

const withoutUnit = (mm: number, units: Units): string =>
  formatLength(mm, units)
    .replace(/ (cm|in)$/, '')
    .replace('−', '-');

/** A length in the user's unit: `4,5`, `4 1/2`, `45 mm` are understood; Enter or leaving takes it, Escape puts the old one back. */
export function LengthField({
  label,
  value,
  units,
  onChange,
  least = 0,
  most = 20000,
  quiet = false,
  fieldRef,
}: LengthFieldProps): ReactElement {
  const id = useId();
  const [text, setText] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    fieldRef?.(field.current);
    return () => fieldRef?.(null);
  }, [fieldRef]);

  const take = (): void => {
    if (text === null) return;
    const mm = parseLength(text, units);
    if (mm === null)
      return setWrong(`“${text}” is not a length. Write it like ${units === 'cm' ? '4.5' : '1 3/4'}.`);
    if (mm < least || mm > most)
      return setWrong(`Give a length from ${formatLength(least, units)} to ${formatLength(most, units)}.`);
    if (Math.abs(mm - value) > 1e-6 && onChange(mm) === false)
      return setWrong('There is no such place on this piece.');
    setWrong(null);
    setText(null);
  };

  return (
    <span className="length-field">
      <label htmlFor={id} className={quiet ? 'unseen' : undefined}>
        {label}
      </label>
      <span className="length-box">
        <input
          ref={field}
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={text ?? withoutUnit(value, units)}
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
        <span aria-hidden="true">{units}</span>
      </span>
      {wrong && (
        <span className="field-wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </span>
      )}
    </span>
  );
}
