import { useEffect, useRef, type ReactElement } from 'react';
import { useBench, useBenchStore } from '../store/benchStore';
import { PLACE_NAMES } from './placeNames';

/** Where the sheet was folded away: brings it back. Takes over the focus when the folding left it nowhere. */
export function UnfoldButton(): ReactElement {
  const store = useBenchStore();
  const place = useBench((s) => s.place);
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (document.activeElement === document.body) button.current?.focus({ preventScroll: true });
  }, []);
  const unfold = (): void => {
    store.getState().set({ sheetOpen: true });
    requestAnimationFrame(() => document.querySelector<HTMLElement>('.fold-away')?.focus());
  };
  return (
    <button type="button" ref={button} className="unfold" aria-expanded={false} onClick={unfold}>
      Unfold “{PLACE_NAMES[place]}”
    </button>
  );
}
