import { edgesOfZip, sameEdge } from '../../neighbours';
import { middleOfEdge } from '../../pattern';
import type { Step } from '../../sewing';
import type { PlacedClosing } from '../closings';
import type { Garment } from '../garment';
import { capital, lengthIn, wearersSide } from './names';
import type { StepTelling, TellingPart, Topic } from './stepTelling';
import { allPanels, edgeWords } from './tellEdges';

const part = (topic: Topic, text: string): TellingPart => ({ topic, text });

/** Below a hidden zip's stop the seam is left open so far, mm, until the zip is in. Common practice, no source. */
const OPEN_BELOW = 30;

/** The zip in the edges, or in a panel line, of a step. */
export function zipIn(garment: Garment, step: Step): PlacedClosing | null {
  const lines = new Set(
    step.seams.flatMap((id) => {
      const seam = garment.seamById.get(id);
      return seam && !seam.line.mirrored ? [seam.line.line] : [];
    }),
  );
  const found = garment.closings.find(({ zip }) => {
    if (step.closing !== null && zip.id === step.closing) return true;
    if (zip.on.kind === 'line') return step.kind !== 'zip' && lines.has(zip.on.line);
    return edgesOfZip(zip).some((e) => step.edges.some((s) => sameEdge(s, e)));
  });
  return found ?? null;
}

/** The body side of a zip in one of two like seams; null for one in the middle. */
function bodySide({ neighbours }: Garment, { zip }: PlacedClosing): string | null {
  for (const { piece, edge } of edgesOfZip(zip)) {
    const whole = neighbours.wholes.get(piece)!;
    const side = wearersSide(whole, middleOfEdge(whole, edge));
    if (side) return side;
  }
  return null;
}

/** Whether the zip of a seam is sewn in before it. */
export function isZipIn(garment: Garment, step: Step): boolean {
  const closing = zipIn(garment, step);
  return (
    closing !== null &&
    garment.plan.steps.some((s) => s.kind === 'zip' && s.step < step.step && zipIn(garment, s) === closing)
  );
}

/**
 * What a seam with a zip in it leaves open; null where there is none.
 * @param runsOn the step goes on beyond the zip’s upper end: down the sleeve
 */
export function openForZip(garment: Garment, step: Step, runsOn = false): TellingPart | null {
  const closing = zipIn(garment, step);
  const later = closing && garment.plan.steps.find((s) => s.kind === 'zip' && zipIn(garment, s) === closing);
  if (!closing || !later) return null;
  const side = bodySide(garment, closing);
  if (later.step < step.step)
    return part(
      'sew',
      `${side ? `On the wearer’s ${side} the` : 'The'} zip is in: close it and sew only below it, beginning as near to its stop as the zip foot can go, down to the hem${runsOn ? '; then from the underarm down the sleeve' : ''}.`,
    );
  const open = Math.min(closing.seam, closing.length + (closing.zip.kind === 'hidden' ? OPEN_BELOW : 0));
  const below =
    closing.zip.kind === 'hidden'
      ? `, ${lengthIn(garment)(OPEN_BELOW)} below the stop mark`
      : ', to the stop mark';
  return part(
    'sew',
    `${side ? `On the wearer’s ${side} leave` : 'Leave'} the upper ${lengthIn(garment)(open)} open${below}: the zip goes in there in step ${later.step}. Baste it shut where that helps to match.`,
  );
}

function shownParts(closing: PlacedClosing, length: (mm: number) => string): TellingPart[] {
  return [
    part(
      'prepare',
      `The zip is ${length(closing.length)} long. Sew across the seam’s end at the stop mark, clip the allowances to the corners of the slot and press them back, so that a slot of ${length(closing.slot)} is left.`,
    ),
    part(
      'lay',
      'Lay the closed zip under the slot, its teeth in the middle, its stop at the mark; baste it.',
    ),
    part(
      'sew',
      'With the zip foot sew from the right side down one side, across below the stop and up the other. Do not sew over the stop.',
    ),
    part('press', 'Press through a cloth; do not iron the teeth.'),
  ];
}

function hiddenParts(
  closing: PlacedClosing,
  length: (mm: number) => string,
  seam: number | null,
): TellingPart[] {
  const below =
    seam === null
      ? 'Close the zip, then sew what is still open of the seam below it, as near to the zip as the foot can go.'
      : `The seam below it is sewn in step ${seam}.`;
  return [
    part(
      'prepare',
      `The zip is ${length(closing.length)} long to its stop mark; a longer one may hang free below. Open it and press its coils flat with a cool iron.`,
    ),
    part(
      'lay',
      'Lay one tape face down on the right side of the cloth, its coil along the stitching line, its teeth beginning at the upper stitching line; baste it. Then the other tape to the other edge, not twisted.',
    ),
    part(
      'sew',
      `With the zip foot sew close along the coil down to the stop mark, one side, then the other, both from the top. ${below}`,
    ),
    part('press', 'Press the cloth away from the zip, through a cloth; do not iron the coils.'),
  ];
}

/** A zip set into its seam. Both are usual ways; no source. */
export function tellZip(garment: Garment, step: Step): StepTelling {
  const closing = zipIn(garment, step);
  const panels = allPanels(garment, step);
  const where =
    step.edges.length > 0 ? `the ${edgeWords(garment, step.edges)} (${panels})` : `the seam of ${panels}`;
  if (!closing)
    return {
      title: capital(`set the zip into ${where}`),
      parts: [
        part('sew', 'Set the zip in as its packet says, between the stop marks.'),
        part('press', 'Press through a cloth; do not iron the teeth.'),
      ],
    };
  const length = lengthIn(garment);
  const seam = garment.plan.steps.find((s) =>
    s.needs.some((n) => n.key === step.key && n.because.kind === 'begun there'),
  );
  const [first, lay, sew, press] = (
    closing.zip.kind === 'shown'
      ? shownParts(closing, length)
      : hiddenParts(closing, length, seam?.step ?? null)
  ) as [TellingPart, TellingPart, TellingPart, TellingPart];
  const closed = closing.zip.kind === 'shown' ? 'Look' : 'Close the basted zip and look';
  const matched = part('match', `${closed}: panel seams and ends must meet across it.`);
  return {
    title: capital(`set the ${closing.zip.kind} zip into ${where}`),
    parts: [first, lay, matched, sew, press],
  };
}
