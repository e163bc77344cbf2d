import { useEffect, useRef, type ReactElement } from 'react';

interface ColourFieldProps {
  readonly label: string;
  /** #rrggbb */
  readonly value: string;
  /** While the colour is being looked for. */
  readonly onLook: (fill: string) => void;
  /** When it is settled. */
  readonly onChoose: (fill: string) => void;
}

/** The system's colour window. Looking for a colour previews it; closing the window settles it in one step. */
export function ColourField({ label, value, onLook, onChoose }: ColourFieldProps): ReactElement {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    const input = field.current;
    const settled = (): void => onChoose(input!.value.toLowerCase());
    // React's onChange is the page's input event; only the page's change event says that the window was closed
    input?.addEventListener('change', settled);
    return () => input?.removeEventListener('change', settled);
  }, [onChoose]);
  return (
    <label className="swatch">
      <span className="unseen">{label}</span>
      <input ref={field} type="color" value={value} onChange={(e) => onLook(e.target.value.toLowerCase())} />
    </label>
  );
}
