import { useLayoutEffect, useRef, useState } from 'react';
import { deriveGarment, type Garment } from '../../garment';
import { moveStep, sayNeed, type StepKey } from '../../sewing';
import { useBenchStore } from '../store/benchStore';
import { wishOrder } from '../store/orderEdits';

/** Why a step was not moved, and the row it was dropped before (null: the end). */
export interface Refusal {
  readonly before: StepKey | null;
  readonly text: string;
}

/** Which control of a row had the focus. */
type Held = 'handle' | 'row' | 'card';

const heldBy = (active: Element | null): Held =>
  active?.classList.contains('step-handle') ? 'handle' : active?.closest('.step-card') ? 'card' : 'row';

/** The control that had the focus, in the row where it is now. */
function focusAgain(key: StepKey, held: Held, label: string | null): void {
  const row = [...document.querySelectorAll<HTMLElement>('[data-step-key]')].find(
    (r) => r.dataset['stepKey'] === key,
  );
  const wanted =
    held === 'handle'
      ? row?.querySelector<HTMLElement>('.step-handle')
      : held === 'card'
        ? [...(row?.querySelectorAll<HTMLButtonElement>('.step-card button') ?? [])].find(
            (b) => b.textContent === label && !b.disabled,
          )
        : null;
  const target = wanted ?? row?.querySelector<HTMLElement>('.row-button');
  target?.focus({ preventScroll: true });
  row?.scrollIntoView?.({ block: 'nearest' });
}

/** Moving steps: what is said when one cannot be moved, and the focus kept when one is. */
export function useMoves(garment: Garment): {
  readonly refusal: Refusal | null;
  readonly forgive: () => void;
  readonly move: (key: StepKey, before: StepKey | null) => void;
  readonly moveBy: (key: StepKey, by: -1 | 1) => void;
} {
  const store = useBenchStore();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const focus = useRef<{ key: StepKey; held: Held; label: string | null } | null>(null);
  useLayoutEffect(() => {
    if (!focus.current) return;
    focusAgain(focus.current.key, focus.current.held, focus.current.label);
    focus.current = null;
  });
  const { steps } = garment.plan;
  const move = (key: StepKey, before: StepKey | null): void => {
    const from = steps.findIndex((s) => s.key === key);
    const to = before === null ? steps.length : steps.findIndex((s) => s.key === before);
    if (from < 0 || to < 0 || to === from || to === from + 1) return setRefusal(null);
    const moved = moveStep(garment, key, before);
    if (!moved.ok) {
      const text = [
        `Step ${from + 1} cannot go there.`,
        ...moved.why.map((w) => sayNeed(w, garment.plan)).filter((t) => t !== ''),
      ].join(' ');
      setRefusal({ before, text });
      store.getState().set({ spoken: text });
      return;
    }
    setRefusal(null);
    const active = document.activeElement;
    focus.current = { key, held: heldBy(active), label: active?.textContent ?? null };
    store.getState().commit('Move a step', wishOrder(moved.wishes));
    const now = deriveGarment(store.getState().doc).plan.steps.find((s) => s.key === key)?.step;
    const said =
      now === from + 1 || now === undefined
        ? `Step ${from + 1} stays where it is: what it needs comes with it.`
        : `Step ${from + 1} is step ${now} now.`;
    store.getState().set({ spoken: said });
  };
  const moveBy = (key: StepKey, by: -1 | 1): void => {
    const from = steps.findIndex((s) => s.key === key);
    if (from < 0 || from + by < 0 || from + by >= steps.length) return;
    move(key, by < 0 ? steps[from - 1]!.key : (steps[from + 2]?.key ?? null));
  };
  return { refusal, forgive: () => setRefusal(null), move, moveBy };
}
