import type { Because, Need, SewingPlan, Step, StepKey } from './plan';
import { sayNumbers } from './sayStep';

/** A step that has to wait for another, and why. */
export interface Waits {
  readonly of: StepKey;
  readonly need: Need;
}

const BECAUSE: Record<Because['kind'], (later: string) => string> = {
  'ends on it': (later) => `its seam ends on that of ${later}`,
  'is crossed': (later) => `its seam is in parts, which ${later} runs across`,
  'end is caught': (later) => `an end of it is caught in ${later}`,
  'begun there': (later) => `${later} finishes the seam that it begins`,
  'lies on it': (later) => `what is laid on in ${later} lies on it`,
  'is set into it': (later) => `the zip of ${later} is set into it`,
  'goes round it': (later) => `${later} goes round it, so it has to be closed by then`,
};

/** `4 is sewn to 5`, `the dart in 3 is sewn shut`: what a step does, as a fact. */
function saysWhat({ kind, joins, text }: Step, { numbers }: Pick<SewingPlan, 'numbers'>): string {
  const [left, right] = joins.map((side) => sayNumbers(side.map((p) => numbers.get(p)!))) as [string, string];
  const verb = joins[0].length > 1 ? 'are' : 'is';
  if (kind === 'seam' || kind === 'partial seam') return `${left} ${verb} sewn to ${right}`;
  if (kind === 'dart') return `the dart in ${left} is sewn shut`;
  if (kind === 'trim') return `the trim on ${left} is laid`;
  if (kind === 'zip') return `the zip between ${left} and ${right} is set in`;
  if (kind === 'hem') return `the hem of ${left} is sewn`;
  if (kind === 'edge') return `the edge of ${left} is finished`;
  const [what] = text.replace(/^Sew /, '').split(':');
  return `${what ?? 'the seam'} ${what?.startsWith('both ') ? 'are' : 'is'} sewn`;
}

/** Why a step waits for another, in one sentence: `1 is sewn to 2 first (step 1): its seam ends on that of step 4.` */
export function sayNeed({ of, need }: Waits, plan: Pick<SewingPlan, 'steps' | 'numbers'>): string {
  const byKey = (key: StepKey): Step | undefined => plan.steps.find((s) => s.key === key);
  const [first, later] = [byKey(need.key), byKey(of)];
  if (!first || !later) return '';
  const says = saysWhat(first, plan);
  return `${says.charAt(0).toUpperCase()}${says.slice(1)} first (step ${first.step}): ${BECAUSE[need.because.kind](`step ${later.step}`)}.`;
}
