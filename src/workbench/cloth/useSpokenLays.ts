import { sayAtCounter } from '../../fabric';
import { useEffect, useRef } from 'react';
import type { LayState } from '../handOut/layRoom';

import { useBenchStore } from '../store/benchStore';

const amounts = (lays: readonly LayState[], units: 'cm' | 'in'): string =>
  lays
    .flatMap(({ plan, job }) =>
      plan && plan.bought.placed.length > 0
        ? [`${job.colourName} ${sayAtCounter(plan.bought.buy, units)}`]
        : [],
    )
    .join(', ');

/** Read out, without chatting: when every cloth has its first plan, and when all have come to rest. */
export function useSpokenLays(lays: readonly LayState[]): void {
  const store = useBenchStore();
  const stage =
    lays.length === 0 || lays.some(({ plan }) => !plan)
      ? 'laying'
      : lays.every(({ done }) => done)
        ? 'rests'
        : 'planned';
  const said = useRef('rests');
  const latest = useRef(lays);
  useEffect(() => {
    latest.current = lays;
  });
  useEffect(() => {
    if (stage === said.current) return;
    said.current = stage;
    if (stage === 'laying') return;
    const { doc, set } = store.getState();
    const words = amounts(latest.current, doc.units);
    if (words)
      set({ spoken: stage === 'planned' ? `First plans: ${words}. Searching on.` : `To buy: ${words}.` });
  }, [stage, store]);
}
