import { type EdgeRef, type Zip, edgesOfZip, sameEdge, zipsOf } from '../../neighbours';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { curveCuts } from './curves';
import { capital, lengthIn, listed, numbersOf, panelWords, pieceName } from './names';
import { outerEdgesOf } from './outerEdges';
import type { StepTelling, TellingPart, Topic } from './stepTelling';
import { cutsAlong } from './tellCurves';
import { widthAlong } from './widths';

const part = (topic: Topic, text: string): TellingPart => ({ topic, text });

const plainName = ({ neighbours }: Garment, { piece, edge }: EdgeRef): string => {
  const own = neighbours.wholes.get(piece)!.edges[edge]!;
  return own.naming === 'numbered' ? 'outer edge' : own.plainName;
};

/** `neckline of front and back`. */
function edgeWords(garment: Garment, edges: readonly EdgeRef[]): string {
  const names = [...new Set(edges.map((e) => plainName(garment, e)))];
  return names
    .map((name) => {
      const pieces = edges
        .filter((e) => plainName(garment, e) === name)
        .map((e) => pieceName(garment, e.piece));
      return `${name} of ${listed([...new Set(pieces)])}`;
    })
    .join(', ');
}

const panelsAlong = (garment: Garment, edges: readonly EdgeRef[]) => [
  ...new Set(edges.flatMap((e) => outerEdgesOf(garment, e).map(({ panel }) => panel.id))),
];

/** Panels of the step by number: those along its edges, with the rest of what is in hand. */
const allPanels = (garment: Garment, step: Step): string =>
  numbersOf(garment, [...new Set([...step.joins.flat(), ...panelsAlong(garment, step.edges)])]);

const widthsOf = (garment: Garment, edges: readonly EdgeRef[]): string =>
  [...new Set(edges.map((e) => lengthIn(garment)(widthAlong(garment, e))))].join(' and ');

const cutsOf = (garment: Garment, edges: readonly EdgeRef[]) =>
  edges.flatMap((e) =>
    outerEdgesOf(garment, e).map(({ panel, edge }) => ({
      panel: panel.id,
      cuts: curveCuts(edge.path, widthAlong(garment, e)),
    })),
  );

/** A neckline or another outer edge: bound, faced, or turned in. */
export function tellEdge(garment: Garment, step: Step): StepTelling {
  const title = capital(`finish the ${edgeWords(garment, step.edges)} (${allPanels(garment, step)})`);
  const jobs = step.edges.map((e) => garment.neighbours.jobs.edges.get(e.piece)![e.edge]!.job.kind);
  const facing = garment.design.facings.find((f) =>
    step.edges.some((e) => e.piece === f.piece && plainName(garment, e) === f.edge),
  );
  const width = widthsOf(garment, step.edges);
  if (facing)
    return {
      title,
      parts: [
        part('prepare', 'Join the facing’s parts, press those seams open and neaten its outer edge.'),
        part('lay', `Lay the facing on the edge, right sides together, seams on seams; allowance ${width}.`),
        part('sew', 'Sew all the way along.'),
        ...cutsAlong(garment, cutsOf(garment, step.edges)),
        part(
          'press',
          'Press the allowances towards the facing and sew it to them close to the seam, then turn it in and press, the seam rolled a little to the inside. Catch it down at the seams.',
        ),
      ],
    };
  if (jobs.includes('bound'))
    return {
      title,
      parts: [
        part(
          'lay',
          'The edge is cut on its stitching line. Lay the binding on it, right sides together, without stretching either.',
        ),
        part('sew', 'Sew, fold the binding over the edge and sew its other edge down.'),
        part('press', 'Press from the wrong side.'),
      ],
    };
  return {
    title,
    parts: [
      part(
        'sew',
        `Finish it as your pattern says: with a facing, a lining or a binding, or neatened and turned in. Its allowance is ${width}.`,
      ),
      ...cutsAlong(garment, cutsOf(garment, step.edges)),
      part('press', 'Press the edge flat, without pulling it along.'),
    ],
  };
}

/** A hem turned up and sewn. */
export function tellHem(garment: Garment, step: Step): StepTelling {
  const panels = panelsAlong(garment, step.edges);
  const depth = widthsOf(garment, step.edges);
  const isCurved = cutsOf(garment, step.edges).some((s) => s.cuts.length > 0);
  const full = isCurved
    ? ' The raw edge is longer than where it comes to lie: gather it slightly, or take up the fullness in small even pleats, and press it flat.'
    : '';
  return {
    title: capital(`hem: ${edgeWords(garment, step.edges)} (${allPanels(garment, step)})`),
    parts: [
      part(
        'prepare',
        `Try the garment on and check the length first. Neaten the raw edge along ${panelWords(garment, panels)}. Where seams run into the hem, press their allowances open inside it and trim them to half.`,
      ),
      part(
        'lay',
        `Turn up ${depth} along the hem’s stitching line, seams on seams; pin upright to the edge.${full}`,
      ),
      part(
        'sew',
        'Sew by hand with small loose stitches that do not show outside, or by machine close to the inner edge.',
      ),
      part('press', 'Press the fold, not the inner edge, so that it does not show through.'),
    ],
  };
}

function zipOf(garment: Garment, step: Step): Zip | null {
  const { design, neighbours } = garment;
  const zips = zipsOf(design.closings, neighbours.jobs, neighbours.wholes);
  const own = zips.find((z) => z.id === step.closing);
  return own ?? zips.find((z) => edgesOfZip(z).some((e) => step.edges.some((s) => sameEdge(s, e)))) ?? null;
}

/** A zip set into a seam. Both are usual ways; no source. */
export function tellZip(garment: Garment, step: Step): StepTelling {
  const zip = zipOf(garment, step);
  const length = lengthIn(garment);
  const where =
    step.edges.length > 0
      ? `the ${edgeWords(garment, step.edges)}`
      : `the seam of ${allPanels(garment, step)}`;
  const long =
    zip?.length == null
      ? 'The stop mark is where the seam begins'
      : `The stop mark is ${length(zip.length)} from the upper end`;
  const matched = part(
    'match',
    'Close the zip half sewn and look: panel lines, neckline and waist must meet across it.',
  );
  if (zip?.kind === 'shown')
    return {
      title: capital(`set the shown zip into ${where} (${allPanels(garment, step)})`),
      parts: [
        part(
          'prepare',
          `${long}. Below it the seam is closed. Press the allowances above it back so that a slot of ${length(zip.slot)} is left.`,
        ),
        part(
          'lay',
          'Lay the closed zip under the slot, its teeth in the middle, its stop at the mark; baste it.',
        ),
        matched,
        part(
          'sew',
          'With the zip foot sew down one side, across below the stop and up the other, from the right side. Do not sew over the stop.',
        ),
        part('press', 'Press through a cloth; do not iron the teeth.'),
      ],
    };
  return {
    title: capital(`set the hidden zip into ${where} (${allPanels(garment, step)})`),
    parts: [
      part('prepare', `${long}. Press the coils of the open zip flat with a cool iron.`),
      part(
        'lay',
        'Lay one tape face down on the right side of the allowance, its coil along the stitching line, its upper stop just below the neckline’s stitching line; baste it. Then the other tape to the other side.',
      ),
      matched,
      part(
        'sew',
        'With the zip foot sew close along the coil down to the stop mark, one side, then the other in the same direction. Close the zip and sew the seam below it from the mark on, as near to the zip as the foot can go.',
      ),
      part('press', 'Press the allowances open through a cloth; do not iron the coils.'),
    ],
  };
}
