import type { UnclaimedShape } from '../../files';
import type { Design } from '../../pattern';
import type { BenchState } from './benchStore';

/** Whether a design is on the table or among the steps that led to it: not once it is taken back. */
export const isInHand = ({ doc, past }: Pick<BenchState, 'doc' | 'past'>, design: Design): boolean =>
  doc === design || past.some((step) => step.doc === design);

/**
 * Shapes of the tracing on the table that nobody has named yet. Taking back the tracing takes its questions along; taking
 * back an answer asks again.
 */
export function openShapes(
  s: Pick<BenchState, 'doc' | 'past' | 'unclaimed' | 'unclaimedOf' | 'answered'>,
): UnclaimedShape[] {
  if (s.unclaimedOf === null || !isInHand(s, s.unclaimedOf)) return [];
  return s.unclaimed.filter((shape) => {
    const answer = s.answered.get(shape);
    return answer === undefined || (answer !== 'left out' && !isInHand(s, answer));
  });
}
