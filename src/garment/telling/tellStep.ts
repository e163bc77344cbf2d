import { remember } from '../../pattern';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { isPair, shortened } from './names';
import type { StepTelling, TellingPart } from './stepTelling';
import { tellDart } from './tellDart';
import { tellEdge, tellHem } from './tellEdges';
import { tellJoin } from './tellJoin';
import { tellSeam } from './tellSeam';
import { tellTrim } from './tellTrim';
import { tellZip } from './tellZip';
import { threadBefore, threadOf } from './threads';

type Teller = (garment: Garment, step: Step, open: TellingPart | null) => StepTelling;

const TELL: Readonly<Record<Step['kind'], Teller>> = {
  dart: tellDart,
  seam: tellSeam,
  'partial seam': tellSeam,
  trim: tellTrim,
  join: tellJoin,
  zip: tellZip,
  edge: tellEdge,
  hem: tellHem,
};

/** Which thread, where it is another one than before. */
function threadParts(garment: Garment, step: Step): TellingPart[] {
  const own = threadOf(garment, step);
  const before = threadBefore(garment).get(step.step) ?? null;
  if (!own || own.name === before?.name) return [];
  const name = step.kind === 'trim' ? `match ${shortened(own.name)}` : shortened(own.name);
  const start = before
    ? 'Change the thread to'
    : step.kind === 'trim'
      ? 'Thread the machine to'
      : 'Thread the machine with';
  const text = `${start} ${name}.`;
  return [{ topic: 'thread', text }];
}

/** What is done to one of two mirrored copies is done to the other. */
const againParts = (garment: Garment, step: Step): TellingPart[] =>
  isPair(garment, step.piece) && step.kind !== 'join' && !(step.kind === 'zip' && step.edges.length > 0)
    ? [{ topic: 'again', text: 'Do the same with the mirrored copy.' }]
    : [];

function tellingOf(garment: Garment, step: Step, open: TellingPart | null): StepTelling {
  const { title, parts } = TELL[step.kind](garment, step, open);
  return { title, parts: [...threadParts(garment, step), ...parts, ...againParts(garment, step)] };
}

const tellingsOf = remember(
  (garment: Garment): ReadonlyMap<Step, StepTelling> =>
    new Map(garment.plan.steps.map((step) => [step, tellingOf(garment, step, null)] as const)),
);

/**
 * One step of a garment's plan in words: what to prepare, what to lay on what, what meets, what to sew, clip and press. Lengths in the
 * user's unit, panels by number and cloth. Remembered.
 * @param open what a join leaves open for a zip of the garment that it lines
 * @throws RangeError for a step of another plan
 */
export function tellStep(garment: Garment, step: Step, open: TellingPart | null = null): StepTelling {
  const telling = tellingsOf(garment).get(step);
  if (!telling) throw new RangeError(`step ${step.step} is not in this plan`);
  return open ? tellingOf(garment, step, open) : telling;
}

/** All steps in words, in their order. Remembered. */
export const tellSteps = (garment: Garment): readonly StepTelling[] =>
  garment.plan.steps.map((step) => tellStep(garment, step));
