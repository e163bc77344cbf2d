import type { LineId, Trim } from '../../pattern';
import type { Step } from '../../sewing';
import { type Hidden, type TrimRun, TURN_UNDER, attachingOf, sayAttaching } from '../../trim';
import type { Garment } from '../garment';
import { capital, lengthIn, listed, numbersOf, panelWords, shortened, titleStart } from './names';
import type { StepTelling, TellingPart } from './stepTelling';

/** How it is stitched. Both edges in the same direction: sewing.org, "On the edge: trims" (n.d.). */
const ROWS: Readonly<Record<Trim['rows'], string>> = {
  1: 'Stitch along its middle.',
  2: 'Stitch one edge, then the other, both in the same direction so that it does not shift.',
};

/** What becomes of an end: `is caught in the seam of step 7`. */
function endWords(garment: Garment, run: TrimRun, end: Hidden): string {
  const stepOf = (key: string): string => {
    const step = garment.plan.steps.find((s) => s.key === key)?.step;
    return step === undefined ? 'later' : `in step ${step}`;
  };
  switch (end.by) {
    case 'edge': {
      const edge = garment.pieceById.get(run.piece)?.whole.edges[end.edge];
      const name = edge && edge.naming !== 'numbered' ? `the ${edge.plainName}` : 'the edge';
      return `runs out to the cut edge and is caught at ${name}`;
    }
    case 'seam': {
      const step = garment.plan.stepOfSeam.get(end.seam);
      return `runs into the allowance and is caught in the seam${step === undefined ? '' : ` of step ${step}`}`;
    }
    case 'trim':
      return `is covered by the trim laid ${stepOf(end.over)}`;
    case 'tuck':
      return `is tucked under the trim laid ${stepOf(end.over)}`;
    case 'itself':
      return 'overlaps the beginning and is turned under';
    case 'nothing':
      return `is turned under by ${lengthIn(garment)(TURN_UNDER)}`;
  }
}

/** Lengths to cut, and what becomes of the ends. */
function runParts(garment: Garment, runs: readonly TrimRun[]): TellingPart[] {
  if (runs.length === 0) return [];
  const length = lengthIn(garment);
  const cut: TellingPart = {
    topic: 'prepare',
    text: `Cut ${listed(runs.map((r) => length(r.length)))}; the ends are counted in.`,
  };
  const ends = runs.map((run) => {
    const [one, other] = run.hidden.map((h) => endWords(garment, run, h)) as [string, string];
    if (run.isClosed) return `The end ${other}.`;
    return one === other ? `Each end ${one}.` : `One end ${one}, the other ${other}.`;
  });
  return [cut, { topic: 'lay', text: [...new Set(ends)].join(' ') }];
}

/** Which seam a trim lies on: `of step 7 `. */
function underWords({ plan, seams }: Garment, step: Step, line: LineId): string {
  const own = seams.filter((s) => s.piece === step.piece && s.line.line === line);
  const steps = [...new Set(own.flatMap((s) => plan.stepOfSeam.get(s.id) ?? []))].sort((a, b) => a - b);
  return steps.length > 0 ? `of step ${listed(steps.map(String))} ` : '';
}

/** A ribbon, braid or tape laid over a seam or along its own line. */
export function tellTrim(garment: Garment, step: Step): StepTelling {
  const trim = garment.design.trims.find((t) => t.id === step.trim);
  const runs = garment.trims.filter((r) => r.key === step.key && r.copy === 1);
  const panels = [...new Set(step.joins.flat())];
  const called = trim ? shortened(trim.name) : 'the trim';
  const where =
    trim?.on.kind === 'line'
      ? `over the seam ${underWords(garment, step, trim.on.line)}in ${panelWords(garment, panels)}, its middle on the stitching`
      : `on ${panelWords(garment, panels)}, its middle on the marked line`;
  const [cut, ends] = runParts(garment, runs);
  const said = [...new Set(runs.flatMap((r) => sayAttaching(attachingOf(r))))];
  const width = trim ? `, ${lengthIn(garment)(trim.width)} wide,` : '';
  return {
    title: capital(`${titleStart(garment, step.piece)}lay ${called} on ${numbersOf(garment, panels)}`),
    parts: [
      ...(cut ? [cut] : []),
      {
        topic: 'lay',
        text: `Lay ${called}${width} right side up ${where}. Stretch neither the cloth nor the trim; pin or baste it.`,
      },
      ...(ends ? [ends] : []),
      { topic: 'sew', text: [ROWS[trim?.rows ?? 2], ...said].join(' ') },
      {
        topic: 'press',
        text: 'Press from the wrong side with a cool iron, or through a cloth: synthetic ribbon melts. Test on a scrap first.',
      },
    ],
  };
}
