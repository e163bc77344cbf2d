import { JOIN_GAP, type Pt, distance, endOf, pathLength, startOf } from '../../geometry';
import type { EdgeRef } from '../../neighbours';
import type { PanelId } from '../../panels';
import { edgePath } from '../../pattern';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { caughtIn } from './caughtIn';
import { curveCuts } from './curves';
import { capital, fineIn, lengthIn, listed, numbersOf, panelWords, pieceName } from './names';
import { outerEdgesOf } from './outerEdges';
import type { StepTelling, TellingPart, Topic } from './stepTelling';
import { cutsAlong } from './tellCurves';
import { widthAlong } from './widths';

const part = (topic: Topic, text: string): TellingPart => ({ topic, text });

/** Panels of facings for some edges, or of the lining of their pieces. */
function extraPanels(
  garment: Garment,
  edges: readonly EdgeRef[],
  idOf: (e: EdgeRef) => string,
): readonly PanelId[] {
  const ids = edges.map(idOf);
  return (garment.extras?.panels ?? [])
    .filter((p) => ids.some((id) => p.piece === id || p.piece.startsWith(`${id} `)))
    .map((p) => p.id);
}

export const plainName = ({ neighbours }: Garment, { piece, edge }: EdgeRef): string => {
  const own = neighbours.wholes.get(piece)!.edges[edge]!;
  return own.naming === 'numbered' ? 'outer edge' : own.plainName;
};

/** `neckline of front and back`. */
export function edgeWords(garment: Garment, edges: readonly EdgeRef[]): string {
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
export const allPanels = (garment: Garment, step: Step): string =>
  numbersOf(garment, [...new Set([...step.joins.flat(), ...panelsAlong(garment, step.edges)])]);

export const widthsOf = (garment: Garment, edges: readonly EdgeRef[]): string =>
  [...new Set(edges.map((e) => lengthIn(garment)(widthAlong(garment, e))))].join(' and ');

const cutsOf = (garment: Garment, edges: readonly EdgeRef[]) =>
  edges.flatMap((e) =>
    outerEdgesOf(garment, e).map(({ panel, edge }) => ({
      panel: panel.id,
      cuts: curveCuts(edge.path, widthAlong(garment, e)),
    })),
  );

/** What a bias strip has beyond the allowance it is sewn with, across and along, mm. Common practice, no source. */
const STRIP_OVER = 25;
const STRIP_ENDS = 30;
/** What is left of allowances that lie in a faced edge, mm. Common practice (1/4 in), no source. */
const TRIMMED = 6;

/** How often an edge is sewn: on each copy of its piece. */
const sewnTimes = ({ neighbours }: Garment, { piece }: EdgeRef): number =>
  neighbours.wholes.get(piece)!.piece.cutting === 'pair' ? 2 : 1;

/**
 * Whether the edges are there once on either body side, like armholes: a mirrored one does not meet its like at the fold. A neckline or a
 * waist with a corner at the fold runs on all round.
 */
function isOnEachSide({ neighbours }: Garment, edges: readonly EdgeRef[]): boolean {
  const endsOf = ({ piece, edge }: EdgeRef): Pt[] => {
    const path = edgePath(neighbours.wholes.get(piece)!, edge);
    return path.length > 0 ? [startOf(path), endOf(path)] : [];
  };
  const isMirrored = ({ piece, edge }: EdgeRef): boolean =>
    neighbours.wholes.get(piece)!.edges[edge]!.mirrored;
  return edges.some(
    (e) =>
      isMirrored(e) &&
      !edges
        .filter((o) => o.piece === e.piece && !isMirrored(o))
        .some((o) => endsOf(o).some((p) => endsOf(e).some((q) => distance(p, q) < JOIN_GAP))),
  );
}

/** An edge that nobody has spoken of: a strip on the bias serves any. A usual way; no source. */
function stripParts(garment: Garment, step: Step): TellingPart[] {
  const [length, fine] = [lengthIn(garment), fineIn(garment)];
  const width = Math.max(...step.edges.map((e) => widthAlong(garment, e)));
  const along = step.edges.reduce(
    (sum, e) =>
      sum +
      sewnTimes(garment, e) * outerEdgesOf(garment, e).reduce((s, { edge }) => s + pathLength(edge.path), 0),
    0,
  );
  const isTwice = isOnEachSide(garment, step.edges);
  const strips = isTwice
    ? `two strips ${length(width + STRIP_OVER)} wide at 45° to the grain, each ${length(along / 2 + STRIP_ENDS)} long`
    : `a strip ${length(width + STRIP_OVER)} wide at 45° to the grain, ${length(along + STRIP_ENDS)} long in all`;
  const later = caughtIn(garment, step);
  const ends = later
    ? `Let its ends run out to the cut edges: they are caught in step ${later}.`
    : 'Turn its ends in at an opening; else let them overlap.';
  return [
    part('prepare', `No finish is chosen for this edge. Unless your pattern has one, cut ${strips}.`),
    part(
      'lay',
      `Lay ${isTwice ? 'one along each edge' : 'it along the edge'}, right sides together, cut edges level. ${ends}`,
    ),
    part('sew', `Allowance ${widthsOf(garment, step.edges)}. Trim both allowances to ${fine(TRIMMED)}.`),
    ...clipTrimmed(garment, step),
    part(
      'press',
      'Turn the strip in, the seam rolled a little to the inside, and press. Turn its free edge under and sew it down by hand.',
    ),
  ];
}

/** Snips into what is left of a hollow edge. */
const clipTrimmed = (garment: Garment, step: Step): TellingPart[] =>
  cutsOf(garment, step.edges).some(({ cuts }) => cuts.length > 0)
    ? [part('clip', `Where it curves snip into them every ${lengthIn(garment)(10)}, not into the stitching.`)]
    : [];

/** An edge under a lining: turned in, and covered by it. */
function underLining(garment: Garment, step: Step): TellingPart[] {
  return [
    part('sew', `Turn in the allowance of ${widthsOf(garment, step.edges)}. The lining covers it later.`),
    ...cutsAlong(garment, cutsOf(garment, step.edges)),
    part('press', 'Press it in without pulling it along, and catch it down by hand.'),
  ];
}

/** A neckline or another outer edge: bound, faced, or turned in. */
export function tellEdge(garment: Garment, step: Step): StepTelling {
  const title = capital(`finish the ${edgeWords(garment, step.edges)} (${allPanels(garment, step)})`);
  const jobs = step.edges.map((e) => garment.neighbours.jobs.edges.get(e.piece)![e.edge]!.job.kind);
  const facing = garment.design.facings.find((f) =>
    step.edges.some((e) => e.piece === f.piece && plainName(garment, e) === f.edge),
  );
  const width = widthsOf(garment, step.edges);
  if (facing) {
    const own = extraPanels(garment, step.edges, (e) => `${e.piece} ${plainName(garment, e)} facing`);
    const called = own.length > 0 ? `the facing (${numbersOf(garment, own)})` : 'the facing';
    return {
      title,
      parts: [
        part(
          'prepare',
          `Have ${called} sewn together${garment.closings.length > 0 ? ', open at the zip' : ''}, its inner edge neatened.`,
        ),
        part('lay', `Lay ${called} on the edge, right sides together, seams on seams.`),
        part('sew', `Allowance ${width}. Sew all the way along.`),
        ...cutsAlong(garment, cutsOf(garment, step.edges)),
        part(
          'press',
          `Trim the allowances to ${fineIn(garment)(TRIMMED)}. Press them towards the facing and sew it to them close to the seam, then turn it in and press, the seam rolled a little to the inside. Catch it down at the seams${garment.closings.length > 0 ? ' and to the zip tapes' : ''}.`,
        ),
      ],
    };
  }
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
  const { lining } = garment.design;
  const isLined = lining !== null && step.edges.every((e) => lining.pieces.includes(e.piece));
  return { title, parts: isLined ? underLining(garment, step) : stripParts(garment, step) };
}

/** A hem turned up and sewn. */
export function tellHem(garment: Garment, step: Step): StepTelling {
  const panels = panelsAlong(garment, step.edges);
  const depth = widthsOf(garment, step.edges);
  const isLining = step.edges.every((e) => e.piece.endsWith(' lining'));
  const isCurved = cutsOf(garment, step.edges).some((s) => s.cuts.length > 0);
  const full = isCurved
    ? ' The raw edge is longer than where it comes to lie: gather it slightly, or take up the fullness in small even pleats, and press it flat.'
    : '';
  return {
    title: capital(`turn up the ${edgeWords(garment, step.edges)} (${allPanels(garment, step)})`),
    parts: [
      part(
        'prepare',
        `${isLining ? '' : 'Try the garment on and check the length first. '}Neaten the raw edge along ${panelWords(garment, panels)}. Where seams run into the hem, press their allowances open inside it and trim them to half.`,
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
