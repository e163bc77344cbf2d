import { remember } from '../../pattern';
import { type EdgeRef, edgesOfZip } from '../../neighbours';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { lengthIn, numbersOf } from './names';
import type { StepTelling, TellingPart } from './stepTelling';
import { plainName } from './tellEdges';
import { tellStep } from './tellStep';

/** A step of the lining or of facings, sewn among themselves. `mark` tells it from the garment's own steps: A, B … Z, AA … */
export interface ExtraStep {
  readonly mark: string;
  /** The garment it belongs to, for its picture. */
  readonly garment: Garment;
  readonly step: Step;
  readonly telling: StepTelling;
}

const LETTERS = 26;

function markOf(n: number): string {
  const letter = String.fromCharCode(65 + (n % LETTERS));
  return n < LETTERS ? letter : `${markOf(Math.floor(n / LETTERS) - 1)}${letter}`;
}

/** A lining's seam is left open a little farther than the zip under it, mm. Common practice, no source. */
const CLEAR_OF_ZIP = 10;

/** What a seam of the lining leaves open for a zip of the garment; null for any other step. */
function openIn(garment: Garment, extras: Garment, step: Step): TellingPart | null {
  if (step.kind !== 'join') return null;
  const isOver = ({ piece, edge }: EdgeRef): boolean =>
    step.edges.some(
      (e) => e.piece === `${piece} lining` && plainName(extras, e) === plainName(garment, { piece, edge }),
    );
  const closing = garment.closings.find(({ zip }) => edgesOfZip(zip).some(isOver));
  if (!closing) return null;
  const open = lengthIn(garment)(closing.length + CLEAR_OF_ZIP);
  return {
    topic: 'sew',
    text: `Leave the upper ${open} open for the zip${step.edges.length > 2 ? ', on its side only' : ''}; sew the rest down to the hem.`,
  };
}

/** Edges of lining and facings are not taped: those of the garment they are sewn to are. */
const heldByTheGarment = ({ title, parts }: StepTelling): StepTelling => ({
  title,
  parts: parts.filter((p) => p.topic !== 'grain'),
});

/** How lining and facings are sewn among themselves, in order. Empty where there are none. Remembered. */
export const extraTellings = remember((garment: Garment): readonly ExtraStep[] => {
  const { extras } = garment;
  if (!extras) return [];
  return extras.plan.steps.map((step, i) => ({
    mark: markOf(i),
    garment: extras,
    step,
    telling: heldByTheGarment(tellStep(extras, step, openIn(garment, extras, step))),
  }));
});

/** How the lining comes into the garment: after all its steps, under the next letter; null where there is none. A usual way; no source. */
export function settingIn(garment: Garment): Pick<ExtraStep, 'mark' | 'telling'> | null {
  const { design, extras } = garment;
  if (!design.lining || !extras) return null;
  const own = extras.panels.filter((p) => p.piece.endsWith(' lining')).map((p) => p.id);
  if (own.length === 0) return null;
  const hasFacing = design.facings.some((f) => design.lining!.pieces.includes(f.piece));
  const edge = hasFacing
    ? 'just inside the neckline seam, over the facing'
    : 'just inside the edge of the neckline';
  const parts: TellingPart[] = [
    {
      topic: 'lay',
      text: `Put the lining (${numbersOf(garment, own)}) into the garment, wrong sides together, seams on seams. Turn its neckline in along the stitching line and pin it ${edge}.`,
    },
    {
      topic: 'sew',
      text: `Sew it down by hand${garment.closings.length > 0 ? ', along the zip tapes too, clear of the teeth' : ''}. At the armholes catch it to the seam’s allowances.`,
    },
    {
      topic: 'press',
      text: `Press lightly. Its hem hangs free, ${lengthIn(garment)(design.lining.shorter)} shorter than the garment’s.`,
    },
  ];
  return {
    mark: markOf(extras.plan.steps.length),
    telling: { title: 'Last of all, set the lining in', parts },
  };
}
