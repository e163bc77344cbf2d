import { type Path, type Pt, lengthAt, nearestOnPath, subPath } from '../../geometry';
import { findLevel, levelHeight } from '../../lines';
import {
  type Neighbours,
  type Wholes,
  type Zip,
  ZIP_LENGTH_STEP,
  allowanceOfZip,
  zipsOf,
} from '../../neighbours';
import type { PanelledPiece } from '../../panels';
import {
  type Allowances,
  type Design,
  type PieceId,
  type Units,
  type WholePiece,
  heightOf,
  remember,
} from '../../pattern';
import { type ZipSide, placeOnSide, startsAtWaist, zipSides } from './zipSide';

/** One side of a placed zip, on the flat piece. */
export interface PlacedSide extends ZipSide {
  /** From the upper end to the stop: what is not sewn shut. */
  readonly opening: Path;
  readonly stop: Pt;
}

/** A zip in its seam. */
export interface PlacedClosing {
  readonly zip: Zip;
  /** From the seam's upper end to the stop, mm: the same on both sides. */
  readonly length: number;
  /** The length that is proposed, mm. */
  readonly proposed: number;
  /** Sewn length of the seam's shorter side, mm. */
  readonly seam: number;
  readonly allowance: number;
  /** Width of the slot of a shown zip, 0 for a hidden one, mm. */
  readonly slot: number;
  /** Its own side first. One where both sides are the same: a panel line, the edge of a pair. */
  readonly sides: readonly PlacedSide[];
}

/** How far below the waist a zip reaches so that the garment passes over the hips, mm. Common practice, no source. */
const BELOW_WAIST = 200;
/** Where no waist tells how far it should go, a zip takes this share of its seam. Our choice. */
const MOST_OF_SEAM = 0.85;

/** Sewn length along a side at which it has come down to a height; null where it never does. */
function lengthAtHeight(side: ZipSide, whole: WholePiece, height: number): number | null {
  const isBelow = (s: number): boolean => heightOf(whole, placeOnSide(side, whole, s)) >= height;
  if (!isBelow(side.length)) return null;
  let [low, high] = [0, side.length];
  for (let i = 0; i < 30; i += 1) {
    const middle = (low + high) / 2;
    if (isBelow(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * The zip length that is proposed, mm: from the seam's upper end to about 20 cm below the waist, else most of the seam; to the nearest
 * length that is sold and not longer than the seam.
 */
function proposedLength(side: ZipSide, whole: WholePiece, seam: number, units: Units): number {
  const waist = findLevel(whole.levels, 'waist');
  const at = waist
    ? levelHeight(whole, waist)
    : startsAtWaist(side, whole)
      ? heightOf(whole, placeOnSide(side, whole, 0))
      : null;
  const wanted = at === null ? null : lengthAtHeight(side, whole, at + BELOW_WAIST);
  const step = ZIP_LENGTH_STEP[units];
  const most = Math.floor((seam + 1e-6) / step) * step;
  if (most === 0) return seam;
  return Math.min(most, Math.max(step, Math.round((wanted ?? seam * MOST_OF_SEAM) / step) * step));
}

/** What a cut tracing includes along a side; null on a net one and for a panel line. */
const includedAt = ({ edge }: ZipSide, { edges }: WholePiece, { tracing }: Allowances): number | null =>
  edge === null || tracing.kind === 'net' ? null : (edges[edge]!.included ?? tracing.included);

function placedSide(side: ZipSide, whole: WholePiece, length: number): PlacedSide {
  const stop = placeOnSide(side, whole, length);
  return { ...side, stop, opening: subPath(side.path, { index: 0, t: 0 }, nearestOnPath(side.path, stop)) };
}

function place(
  zip: Zip,
  wholes: Wholes,
  pieces: readonly PanelledPiece[],
  units: Units,
  allowances: Allowances,
): PlacedClosing[] {
  const sides = zipSides(zip, wholes, pieces).filter((s) => s.path.length > 0);
  const [own] = sides;
  if (!own) return [];
  const whole = (piece: PieceId): WholePiece => wholes.get(piece)!;
  const seam = Math.min(...sides.map((s) => s.length));
  const proposed = proposedLength(own, whole(own.piece), seam, units);
  const length = Math.min(zip.length ?? proposed, seam);
  return [
    {
      zip,
      length,
      proposed,
      seam,
      allowance: allowanceOfZip(zip, allowances, includedAt(own, whole(own.piece), allowances)),
      slot: zip.kind === 'shown' ? zip.slot : 0,
      sides: sides.map((s) => placedSide(s, whole(s.piece), length)),
    },
  ];
}

const NONE: readonly PlacedClosing[] = [];

const placeOnce = remember(
  (
    zips: readonly Zip[],
    wholes: Wholes,
    units: Units,
    allowances: Allowances,
    pieces: readonly PanelledPiece[],
  ): readonly PlacedClosing[] => zips.flatMap((zip) => place(zip, wholes, pieces, units, allowances)),
);

/**
 * Every zip of a garment in its seam: those of the design, and the usual one for edges that are closed by a zip and have none. The same empty
 * list where there are none.
 * @param pieces all of them, sliced: zips in panel lines run along the lines as they are laid
 */
export function placedClosings(
  { closings, units, allowances }: Pick<Design, 'closings' | 'units' | 'allowances'>,
  neighbours: Neighbours,
  pieces: readonly PanelledPiece[],
): readonly PlacedClosing[] {
  const zips = zipsOf(closings, neighbours.jobs, neighbours.wholes);
  if (zips.length === 0) return NONE;
  return placeOnce(zips, neighbours.wholes, units, allowances, pieces);
}

/** Arc length along a side's flat path at which its opening ends, mm. */
export const openingEnd = ({ path, stop }: PlacedSide): number => lengthAt(path, nearestOnPath(path, stop));
