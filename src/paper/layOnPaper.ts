import {
  type ClothRectangle,
  type LayJob,
  type LayPlan,
  type LaidPiece,
  type SeenPiece,
  laidPieces,
  layJobs,
  leftOver,
} from '../fabric';
import { howToCut, printedPiece } from '../garment';
import type { Garment } from '../garment';
import { applyMatrix, boxOfPoints, pathThrough, transformPath } from '../geometry';
import type { Box, Path, Polyline, Pt } from '../geometry';
import type { Panel } from '../panels';
import type { Colour, Remnant } from '../pattern';

/** A piece as it is seen on the table: in the frame of the drawn cloth, mm at full size. */
export interface PieceOnCloth extends SeenPiece {
  readonly laid: LaidPiece;
  /** The printed piece is laid with its lettering down: its number gets a bar. */
  readonly faceDown: boolean;
  /** Cutting line, then holes. */
  readonly rings: readonly Path[];
  /** Where it lies on the repeat of a stripe or print; null where it need not. */
  readonly anchor: Pt | null;
}

/** A lay plan as it is drawn: cloth as it lies on the table, its length along +x from 0, mm at full size. */
export interface LayOnPaper {
  readonly colour: Colour;
  readonly plan: LayPlan;
  readonly job: LayJob;
  readonly isFolded: boolean;
  /** Extent of what is drawn: up to the end of what is bought, or of one's own piece of cloth. */
  readonly length: number;
  /** Bought cloth goes on a good way beyond what is drawn. */
  readonly goesOn: boolean;
  /** Across: of one layer, or from fold to selvedges. */
  readonly across: number;
  /** One's own piece of cloth; null where it is bought. */
  readonly remnant: Remnant | null;
  /** Corners of one's own piece of cloth; null where it is bought. */
  readonly outline: Polyline | null;
  /** The largest rectangle that is left of one's own piece of cloth; null where nothing is, and of bought cloth. */
  readonly leftOver: ClothRectangle | null;
  readonly pieces: readonly PieceOnCloth[];
}

/** Cloth bought beyond the last piece is drawn only so far, mm, where there is more than MUCH of it. */
const SOME = 120;
const MUCH = 300;

/** What is bought, once it is washed, mm. */
export const washedLength = ({ plan, job }: Pick<LayOnPaper, 'plan' | 'job'>): number =>
  plan.buy * (1 - job.shrinkage / 100);

const panelOf = (garment: Garment, { piece }: LaidPiece): Panel | undefined =>
  garment.panels.find((p) => p.id === piece.panel);

/** Whether the printed half of a piece on the fold must be turned over to lie as the half that is seen. */
function isHalfFaceDown(garment: Garment, laid: LaidPiece): boolean {
  const panel = panelOf(garment, laid);
  const { folded } = laid;
  if (!panel || !folded || !howToCut(garment, panel).onFold) return false;
  const half = printedPiece(garment, panel);
  if (!half) return false;
  const [a, b, c, d] = folded.from;
  const isMirrored = a * d - b * c < 0;
  // The printed half may be the one that lies beyond the fold: the other one is its mirror image.
  const isSeen = applyMatrix(folded.from, half.label.at)[1] > 0;
  return isMirrored === isSeen;
}

function onCloth(garment: Garment, laid: LaidPiece): PieceOnCloth | null {
  const { piece, cutFrom, folded } = laid;
  const seen = cutFrom === 'single' ? laid : folded;
  if (!seen) return null;
  const cut = garment.cutPieces.find((c) => c.panel === piece.panel);
  // The half on the fold has corners where it is cut from the whole; any other is drawn with its true curves.
  const isCurved = cut?.cuttingPoints === piece.cutting && cutFrom !== 'fold';
  const rings = isCurved
    ? [cut.cutting, ...cut.holes].map((ring) => transformPath(ring, seen.from))
    : [pathThrough([...seen.outline], true)];
  return {
    outline: seen.outline,
    from: seen.from,
    label: seen.label,
    grain: seen.grain,
    laid,
    faceDown: cutFrom === 'fold' ? isHalfFaceDown(garment, laid) : (folded?.faceDown ?? laid.flipped),
    rings,
    anchor: piece.anchor ? applyMatrix(seen.from, piece.anchor) : null,
  };
}

/** Cloths with what lies on them, in the order of the plans; those on which nothing lies are left out. */
export function laysOnPaper(garment: Garment, plans: readonly LayPlan[]): LayOnPaper[] {
  const jobs = new Map(layJobs(garment).map((job) => [job.colour, job]));
  return plans.flatMap((plan): LayOnPaper[] => {
    const colour = garment.design.colours.find((c) => c.id === plan.colour);
    const job = jobs.get(plan.colour);
    if (!colour || !job || plan.placed.length === 0) return [];
    const isFolded = plan.layering === 'folded' && plan.within === null;
    const box: Box | null = plan.within && boxOfPoints(plan.within.outline);
    const bought = Math.max(plan.length, washedLength({ plan, job }));
    const goesOn = box === null && bought - plan.length > MUCH;
    const pieces = laidPieces(job.pieces, plan).flatMap((laid) => onCloth(garment, laid) ?? []);
    const laid = pieces.map((p) => p.outline);
    return [
      {
        colour,
        plan,
        job,
        isFolded,
        length: box ? box.maxX : goesOn ? plan.length + SOME : bought,
        goesOn,
        across: box ? box.maxY : isFolded ? plan.width / 2 : plan.width,
        remnant: garment.design.remnants.find((r) => r.id === plan.within?.remnant) ?? null,
        outline: plan.within?.outline ?? null,
        leftOver: plan.within && leftOver(plan.within, laid).rectangle,
        pieces,
      },
    ];
  });
}

/** Whether what is printed of the piece is its half on the fold. */
export function isPrintedHalf(garment: Garment, { laid }: PieceOnCloth): boolean {
  const panel = panelOf(garment, laid);
  return panel !== undefined && howToCut(garment, panel).onFold;
}
