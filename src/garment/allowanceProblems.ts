import { MOST_HEM_EASE, deepestHem, mixedWidths } from '../allowance';
import type { EdgeWork, Neighbours } from '../neighbours';
import {
  type Design,
  type Problem,
  type WholePiece,
  edgePath,
  middleOfEdge,
  problem,
  remember,
} from '../pattern';
import { widthOfEdge } from './edgeWidths';

/** The deepest hem that an edge takes without a raw edge too long, mm. */
const deepest = remember((whole: WholePiece, edge: number): number => deepestHem(edgePath(whole, edge)));

/** Hems that are too deep for their curve; each name of an edge once. */
function hemProblems(
  whole: WholePiece,
  works: readonly EdgeWork[],
  widthOf: (work: EdgeWork) => number,
): Problem[] {
  const hems = works.filter((w) => w.job.kind === 'hem');
  const named = hems.filter((w, i) => hems.findIndex((h) => h.plainName === w.plainName) === i);
  return named.flatMap((work): Problem[] => {
    const [depth, most] = [widthOf(work), deepest(whole, work.edge)];
    if (depth <= most) return [];
    const facts = { edge: work.plainName, piece: whole.name, depth, most, share: MOST_HEM_EASE };
    return [problem('hem-too-deep', facts, whole.name, middleOfEdge(whole, work.edge))];
  });
}

/** What a sewist should know of the widths chosen: metric and inch widths mixed, hems too deep for their flare. */
export function allowanceProblems(design: Design, neighbours: Neighbours): readonly Problem[] {
  const mixed = mixedWidths(design.allowances);
  return [
    ...(mixed ? [problem('widths-mixed', { metric: mixed[0], inch: mixed[1] })] : []),
    ...[...neighbours.jobs.edges].flatMap(([piece, works]) =>
      hemProblems(neighbours.wholes.get(piece)!, works, (work) => widthOfEdge(work, design, neighbours)),
    ),
  ];
}
