import { type CutPiece, type CutPieces, cutAllPieces, unmarkedProblems, unsoundProblems } from '../allowance';
import { type Neighbours, neighbourProblems, neighboursOf } from '../neighbours';
import { tieProblems } from '../lines';
import { type Panel, type PanelId, type PanelledPiece, panelledPiece, slicedPiece } from '../panels';
import { type Design, type Problem, openedPiece, problem, remember } from '../pattern';
import { planSewing, type SewingPlan } from '../sewing';
import { layTrims } from '../trim';
import type { Garment } from './garment';
import { closingProblems, placedClosings } from './closings';
import { extraDesign, extraSteps, withExtras } from './extras';
import { allowanceProblems } from './allowanceProblems';
import { allowancesAt, widthOfEdge } from './edgeWidths';
import { lineEndsOf } from './lineEnds';
import { lineProblems } from './lineProblems';
import { sewnAs } from './sewnAs';

/**
 * The cut pieces of a design's pieces, in the order of its pieces. They depend on shapes, allowances and the order of
 * seams that meet, so they are kept by those.
 */
const cutAll = (
  design: Design,
  sliced: readonly PanelledPiece[],
  neighbours: Neighbours,
  plan: SewingPlan,
): readonly CutPieces[] => {
  const widened = sliced.map((piece) => ({
    sliced: piece,
    allowances: allowancesAt(piece.whole, design, neighbours),
  }));
  const sewn = sewnAs(widened, plan, neighbours);
  return cutAllPieces(widened.map((piece, i) => ({ ...piece, sewn: sewn[i]! })));
};

function inNumberOrder(pieces: readonly PanelledPiece[], { numbers }: SewingPlan): readonly Panel[] {
  return pieces.flatMap((p) => p.panels).sort((a, b) => numbers.get(a.id)! - numbers.get(b.id)!);
}

function tracingProblems(design: Design): readonly Problem[] {
  const { tracing } = design.allowances;
  return tracing.kind === 'net' ? [problem('tracing-taken-as-net', { outer: tracing.outer })] : [];
}

/** Everything a design implies but its lining and facings. @param firstNumber the lowest panel number */
function deriveAlone(design: Design, firstNumber: number): Garment {
  const pieces = design.pieces.map((piece) => panelledPiece(piece, design));
  const sliced = design.pieces.map((piece) => slicedPiece(piece, design));
  const neighbours = neighboursOf(
    pieces.map((p) => p.whole),
    design.edgeJobs,
    sliced.flatMap((p) => lineEndsOf(p, design)),
  );
  const { plan, problems: planProblems } = planSewing({ design, pieces, neighbours, firstNumber });
  const panels = inNumberOrder(pieces, plan);
  const cut = cutAll(design, sliced, neighbours, plan);
  const cutById = new Map<PanelId, CutPiece>(
    cut.flatMap((c) => c.cutPieces.map((p) => [p.panel, p] as const)),
  );
  const seams = pieces.flatMap((p) => p.seams);
  const closings = placedClosings(design, neighbours, sliced);
  const { trims, problems: trimProblems } = layTrims(design, pieces, plan);
  const numberOf = (p: Pick<Panel, 'id'>): number => plan.numbers.get(p.id)!;
  return {
    design,
    pieces,
    panels,
    panelById: new Map(panels.map((p) => [p.id, p] as const)),
    pieceById: new Map(pieces.map((p) => [p.whole.piece.id, p] as const)),
    seams,
    seamById: new Map(seams.map((s) => [s.id, s] as const)),
    cutPieces: panels.map((p) => cutById.get(p.id)!),
    plan,
    trims,
    closings,
    extras: null,
    neighbours,
    problems: [
      ...tracingProblems(design),
      ...design.pieces.flatMap((piece) => openedPiece(piece, design).problems),
      ...tieProblems(design),
      ...pieces.flatMap((p) => lineProblems(p, numberOf, design.allowances)),
      ...neighbourProblems(neighbours, design.meantOff, (side) => widthOfEdge(side, design, neighbours)),
      ...allowanceProblems(design, neighbours),
      ...closingProblems(closings, neighbours, sliced, design.meantOff),
      ...planProblems,
      ...trimProblems,
      ...cut.flatMap((c, i) => unsoundProblems(c, pieces[i]!.whole, numberOf)),
      ...cut.flatMap((c, i) => unmarkedProblems(c, pieces[i]!.whole, numberOf)),
    ],
  };
}

/** Lining and facings, derived as a garment of their own whose panels are numbered after all others. */
const deriveExtras = remember((design: Design, firstNumber: number): Garment => {
  // numbered in the order they are listed in, not as they come to hand
  const numbers = design.marks.map(({ piece, at }, i) => ({ piece, at, number: firstNumber + i }));
  const garment = deriveAlone({ ...design, numbers }, firstNumber);
  return { ...garment, plan: extraSteps(garment.plan) };
});

/**
 * Everything a design implies, except lay plans and paper. Pure; pieces that did not change are remembered, so moving a line
 * works out its own piece and the sewing plan again, nothing else. Never throws on a valid design.
 */
export const deriveGarment = remember((design: Design): Garment => {
  const garment = deriveAlone(design, 1);
  const extra = extraDesign(design);
  if (!extra) return garment;
  const extras = deriveExtras(extra.design, garment.panels.length + 1);
  return withExtras({ ...garment, problems: [...garment.problems, ...extra.problems] }, extras);
});
