import type { Trim } from '../../pattern';
import type { Step } from '../../sewing';
import { attachingOf, sayAttaching } from '../../trim';
import type { Garment } from '../garment';
import { capital, lengthIn, numbersOf, panelWords, titleStart, shortened } from './names';
import type { StepTelling, TellingPart } from './stepTelling';

/** How it is stitched. Both edges in the same direction: sewing.org, "On the edge: trims" (n.d.). */
const ROWS: Readonly<Record<Trim['rows'], string>> = {
  1: 'Stitch along its middle.',
  2: 'Stitch one edge, then the other, both in the same direction so that it does not shift.',
};

/** A ribbon, braid or tape laid over a seam or along its own line. */
export function tellTrim(garment: Garment, step: Step): StepTelling {
  const trim = garment.design.trims.find((t) => t.id === step.trim);
  const panels = [...new Set(step.joins.flat())];
  const name = titleStart(garment, step.piece);
  const length = lengthIn(garment);
  const where =
    trim?.on.kind === 'line'
      ? `over the seam of ${panelWords(garment, panels)}, its middle on the stitching`
      : `on ${panelWords(garment, panels)}, its middle on the marked line`;
  const run = garment.trims.find((r) => r.key === step.key);
  const notes = run ? sayAttaching(attachingOf(run)) : [];
  const parts: TellingPart[] = [
    {
      topic: 'lay',
      text: `Lay ${trim ? shortened(trim.name) : 'the trim'}${trim ? `, ${length(trim.width)} wide,` : ''} right side up ${where}. Stretch neither the cloth nor the trim; pin or baste it.`,
    },
    { topic: 'sew', text: [ROWS[trim?.rows ?? 2], ...notes].join(' ') },
    {
      topic: 'press',
      text: 'Press from the wrong side with a cool iron, or through a cloth: synthetic ribbon melts. Test on a scrap first.',
    },
  ];
  return {
    title: capital(`${name}lay ${trim ? shortened(trim.name) : 'the trim'} on ${numbersOf(garment, panels)}`),
    parts,
  };
}
