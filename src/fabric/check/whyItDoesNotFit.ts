import { CUTS_TOUCH, type Polyline, type Pt, boxOfPoints } from '../../geometry';
import { type Problem, problem } from '../../pattern';
import { FIRST_OF_INTERFACING } from '../layJobs';
import type { ClothPiece, LayJob } from '../layPlan';
import { allowedRotations, turnedPoints } from '../placement';
import { USUAL_WIDTHS } from '../usualWidths';

/** A turned piece across the cloth, mm: its lower and upper bound, its anchor where it is laid on a repeat, its middle where that lies along. */
interface Across {
  readonly low: number;
  readonly high: number;
  readonly anchor: number | null;
  readonly middle: number | null;
}

function acrossOf(piece: ClothPiece, rotation: number, { repeat }: LayJob): Across {
  const turned = (points: Polyline): Pt[] => turnedPoints(points, piece.flipped, rotation);
  const { minY, maxY } = boxOfPoints(turned(piece.cutting));
  const [a, b] = piece.middle ? turned(piece.middle) : [];
  return {
    low: minY,
    high: maxY,
    anchor: piece.anchor && repeat.across > 0 ? turned([piece.anchor])[0]![1] : null,
    middle: a && b && Math.abs(a[1] - b[1]) <= CUTS_TOUCH ? (a[1] + b[1]) / 2 : null,
  };
}

/** How far a place is from the nearest of those `step` apart. */
const offStep = (place: number, step: number): number => Math.abs(place - step * Math.round(place / step));

/** In one layer: the piece, and twice what its anchor, some whole repeats from the middle of the cloth, holds it off that. */
function inOneLayer({ low, high, anchor }: Across, { repeat }: LayJob): number {
  const off = anchor === null ? 0 : offStep((high + low) / 2 - anchor, repeat.across);
  return high - low + 2 * off;
}

/** In the upper layer of folded cloth, half the gap from the fold at least, the anchor whole repeats from it. Both layers. */
function besideTheFold({ low, high, anchor }: Across, { gap, repeat }: LayJob): number {
  if (anchor === null) return 2 * (high - low) + gap;
  const repeats = Math.ceil((high - anchor + gap / 2) / repeat.across - 1e-9);
  return 2 * (repeats * repeat.across + anchor - low);
}

/** With its middle on the fold: twice the wider half; Infinity where it has none or its anchor keeps it off. */
function onTheFold({ low, high, anchor, middle }: Across, { repeat }: LayJob): number {
  if (middle === null) return Infinity;
  if (anchor !== null && offStep(middle - anchor, repeat.across) > CUTS_TOUCH) return Infinity;
  return 2 * Math.max(middle - low, high - middle);
}

/** Usable width of cloth, margins left out, that a piece needs when turned by `rotation` (degrees, as in Placement), mm. */
export function widthNeeded(piece: ClothPiece, rotation: number, job: LayJob): number {
  const across = acrossOf(piece, rotation, job);
  if (job.layering === 'single') return inOneLayer(across, job);
  return Math.min(besideTheFold(across, job), onTheFold(across, job));
}

const leastNeeded = (piece: ClothPiece, job: LayJob, off = 0): number =>
  Math.min(
    ...allowedRotations(piece, job.nap).flatMap((r) =>
      [r + off, r - off].map((turned) => widthNeeded(piece, turned, job)),
    ),
  );

/** The narrowest usual width, as it is sold, on which so much is left after washing and between the margins; null: none is wide enough. */
function narrowestUsual(needs: number, { units, margin, shrinksAcross = 0 }: LayJob): number | null {
  const left = (sold: number): number => sold * (1 - shrinksAcross / 100) - 2 * margin;
  return USUAL_WIDTHS[units].find((sold) => left(sold) >= needs) ?? null;
}

/** The least angle off its grain, whole degrees, at which a piece fits; null: there is none. */
function turnToFit(piece: ClothPiece, job: LayJob, usable: number): number | null {
  for (let off = 1; off <= 90; off += 1) if (leastNeeded(piece, job, off) <= usable) return off;
  return null;
}

/**
 * Why a piece fits the cloth of a job in none of its turns, with the ways out worked out: wider cloth, unfolded, its print not matched,
 * turned, or narrower by how much. Asked only of pieces that do not fit.
 */
export function whyItDoesNotFit(piece: ClothPiece, job: LayJob): Problem {
  // margins may take all of it
  const usable = Math.max(0, job.width - 2 * job.margin);
  const noRepeat: LayJob = { ...job, repeat: { ...job.repeat, across: 0 } };
  const isFolded = job.layering === 'folded';
  const needs = leastNeeded(piece, job);
  const across = leastNeeded(piece, { ...noRepeat, layering: 'single' });
  const inOneLayer = isFolded ? leastNeeded(piece, { ...job, layering: 'single' }) : Infinity;
  const isInterfacing = piece.copy >= FIRST_OF_INTERFACING;
  const isBesideFold = isFolded && needs > across;
  return problem('panel-wider-than-cloth', {
    panel: piece.number,
    colour: job.colourName,
    width: usable,
    across,
    needs,
    over: (needs - usable) / (isBesideFold ? 2 : 1),
    fitsAt: narrowestUsual(needs, job),
    turned: piece.keepsGrain ? null : turnToFit(piece, job, usable),
    unfolded: inOneLayer <= usable,
    unfoldedAt: isFolded && inOneLayer > usable ? narrowestUsual(inOneLayer, job) : null,
    unmatched: leastNeeded(piece, noRepeat) <= usable,
    interfacing: isInterfacing,
  });
}
