import { useId, useState, type ReactElement } from 'react';

/** A plain number; empty gives null. Taken on leaving or Enter. */
export function NumberField({
  label,
  value,
  most,
  onChange,
}: {
  label: string;
  value: number | null;
  most: number;
  onChange: (value: number | null) => void;
}): ReactElement {
  const id = useId();
  const [text, setText] = useState<string | null>(null);
  const take = (): void => {
    if (text === null) return;
    const value = Number(text.replace(',', '.'));
    if (text.trim() === '') onChange(null);
    else if (Number.isFinite(value) && value >= 0 && value <= most) onChange(value);
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
          value={text ?? value ?? ''}
          onChange={(e) => setText(e.target.value)}
          onBlur={take}
          onKeyDown={(e) => e.key === 'Enter' && take()}
        />
      </span>
    </span>
  );
}
