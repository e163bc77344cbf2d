import { remember } from '../../pattern';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';

/** A thread by its colour: that of a cloth or a trim. */
export interface Thread {
  readonly name: string;
  readonly fill: string;
}

/** The thread a step is sewn with: its cloth's, or the trim's own; null where the plan names none. */
export function threadOf({ design }: Pick<Garment, 'design'>, step: Step): Thread | null {
  const own = step.kind === 'trim' ? design.trims.find((t) => t.id === step.trim) : undefined;
  return own ?? design.colours.find((c) => c.id === step.thread) ?? null;
}

/** The thread in the machine before each step, by step number; null before the first. Remembered. */
export const threadBefore = remember((garment: Garment): ReadonlyMap<number, Thread | null> => {
  let last: Thread | null = null;
  return new Map(
    garment.plan.steps.map((step) => {
      const before = last;
      last = threadOf(garment, step) ?? last;
      return [step.step, before] as const;
    }),
  );
});
