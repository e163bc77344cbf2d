import type { Step } from '../../sewing';
import type { Garment } from '../garment';

/** The number of the first step that catches an end of what a step sews; null where none does. */
export function caughtIn({ plan }: Pick<Garment, 'plan'>, { key }: Pick<Step, 'key'>): number | null {
  const later = plan.steps.find((s) =>
    s.needs.some((n) => n.key === key && n.because.kind === 'end is caught'),
  );
  return later?.step ?? null;
}
