import { useId, useState, type ReactElement } from 'react';

/** A name: taken on Enter or on leaving, put back by Escape; an empty one is not taken. */
export function TextField({
  label,
  value,
  onChange,
  quiet = false,
  className,
}: {
  label: string;
  value: string;
  onChange: (text: string) => void;
  quiet?: boolean;
  className?: string;
}): ReactElement {
  const id = useId();
  const [text, setText] = useState<string | null>(null);
  const take = (): void => {
    if (text !== null && text.trim() !== '' && text.trim() !== value) onChange(text.trim());
    setText(null);
  };
  return (
    <span className={`text-field ${className ?? ''}`}>
      <label htmlFor={id} className={quiet ? 'unseen' : undefined}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        maxLength={80}
        value={text ?? value}
        onChange={(e) => setText(e.target.value)}
        onBlur={take}
        onKeyDown={(e) => {
          if (e.key === 'Enter') e.currentTarget.blur();
          if (e.key === 'Escape') setText(null);
        }}
      />
    </span>
  );
}
