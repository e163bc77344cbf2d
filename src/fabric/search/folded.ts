/**
 * Cloth folded lengthwise as a lay on one half of it: from the selvedge at y = 0 to the fold at half the width. Two mirrored
 * copies of a panel are one mover, cut together; a piece with a middle may lie with it on the fold; any other piece (and such a
 * one as well) may lie in the upper layer alone. Pure: job → movers → placements of all pieces on the cloth opened out.
 */
import type { Line, Polyline, Pt } from '../../geometry';
import { boxOfPoints, CUTS_TOUCH, distanceToSegment } from '../../geometry';
import type { ClothPiece, LayJob, Placement } from '../layPlan';
import { allowedRotations, normalAngle, turnedPoints } from '../placement';
import type { Mover, Stance } from './movers';

/** Directions closer than this (degrees) are the same; mm by which a middle along the grain may rise over its length. */
const TURN_ROUNDING = 1e-9;
const LEVEL = 1e-6;

/** A cutting line farther than this (mm) from its own mirror image is not laid on a fold. */
const MOST_ASKEW = 0.5;

/** The rotation of what lies mirrored over the fold (which runs along x): y ↦ −y is a mirroring in x, then half a turn. */
const mirroredRotation = (rotation: number): number => normalAngle(180 - rotation);

const isAmong = (rotation: number, allowed: readonly number[]): boolean =>
  allowed.some((r) => Math.abs(normalAngle(r - rotation)) <= TURN_ROUNDING);

const samePoint = (p: Pt, q: Pt): boolean => p[0] === q[0] && p[1] === q[1];

/** Whether b is a's mirrored copy, so that both can be cut at once from two layers, right sides together. */
const isPair = (a: ClothPiece, b: ClothPiece): boolean =>
  a.panel === b.panel &&
  a.flipped !== b.flipped &&
  a.grainAngle === b.grainAngle &&
  Math.ceil(a.copy / 2) === Math.ceil(b.copy / 2) &&
  a.cutting.length === b.cutting.length &&
  a.cutting.every((p, i) => samePoint(p, b.cutting[i]!));

/** Where a turned piece's middle is across the cloth, mm; null unless it has one that lies along the cloth. */
export function middleAcross(piece: ClothPiece, rotation: number): number | null {
  if (!piece.middle) return null;
  const [p, q] = turnedPoints(piece.middle, piece.flipped, rotation);
  return p && q && Math.abs(p[1] - q[1]) <= LEVEL ? (p[1] + q[1]) / 2 : null;
}

/** p mirrored over the line through a and b. */
function mirroredOver([ax, ay]: Pt, [bx, by]: Pt, [x, y]: Pt): Pt {
  const [ux, uy] = [bx - ax, by - ay];
  const along = ((x - ax) * ux + (y - ay) * uy) / (ux * ux + uy * uy);
  return [2 * (ax + along * ux) - x, 2 * (ay + along * uy) - y];
}

/**
 * How far a ring's corners, mirrored over a line, lie from the ring at most, mm; at least some figure above `MOST_ASKEW` where it is
 * more than that. Mirrored corners run backwards along the ring, so each is first looked for where the one before it lay.
 */
function askewOver(ring: Polyline, [a, b]: Line): number {
  const n = ring.length;
  let most = CUTS_TOUCH / 4;
  let at = 0;
  for (let c = 0; c < n && most <= MOST_ASKEW; c += 1) {
    const p = mirroredOver(a, b, ring[c]!);
    let least = Infinity;
    let nearest = at;
    for (let k = 0; k < n && least > most; k += 1) {
      const i = (at - k + n + 1) % n;
      const { distance } = distanceToSegment(p, ring[i]!, ring[(i + 1) % n]!);
      if (distance < least) [least, nearest] = [distance, i];
    }
    at = nearest;
    most = Math.max(most, least);
  }
  return most <= CUTS_TOUCH / 4 ? 0 : most;
}

/** Per cutting line: the middle it was last looked at over. */
const looked = new WeakMap<Polyline, { readonly middle: Line; readonly by: number }>();

/**
 * How far a turned piece's cutting line and its mirror image over its middle part, mm: 0 up to rounding. What lies beside it on
 * one half of the cloth lies mirrored on the other, so it keeps this much farther off.
 */
export function askew(piece: ClothPiece, rotation: number): number {
  const { cutting, middle } = piece;
  if (!middle || middleAcross(piece, rotation) === null) return Infinity;
  const known = looked.get(cutting);
  if (known && samePoint(known.middle[0], middle[0]) && samePoint(known.middle[1], middle[1]))
    return known.by;
  const by = askewOver(cutting, middle);
  looked.set(cutting, { middle, by });
  return by;
}

function stancesOf(job: LayJob, piece: ClothPiece): Stance[] {
  return allowedRotations(piece, job.nap).flatMap((rotation): Stance[] => [
    ...(askew(piece, rotation) <= MOST_ASKEW ? [{ rotation, onFold: true }] : []),
    { rotation, onFold: false },
  ]);
}

/** A pair's stances: turns whose mirror image is allowed for the second copy. */
function pairStances(job: LayJob, a: ClothPiece, b: ClothPiece): Stance[] {
  const mirrored = allowedRotations(b, job.nap);
  return allowedRotations(a, job.nap)
    .filter((rotation) => isAmong(mirroredRotation(rotation), mirrored))
    .map((rotation) => ({ rotation, onFold: false }));
}

/** The movers of folded cloth: each piece with the first later one that is its mirrored copy, or alone. */
export function foldedMovers(job: LayJob): Mover[] {
  const taken = new Set<number>();
  return job.pieces.flatMap((piece, i): Mover[] => {
    if (taken.has(i)) return [];
    const j = job.pieces.findIndex((other, k) => k > i && !taken.has(k) && isPair(piece, other));
    const together = j < 0 ? [] : pairStances(job, piece, job.pieces[j]!);
    if (together.length === 0) return [{ pieces: [i], stances: stancesOf(job, piece) }];
    taken.add(j);
    return [{ pieces: [i, j], stances: together }];
  });
}

/** The placement of a pair's second copy: the first mirrored over the fold. */
export const mirroredPlacement = (job: LayJob, second: ClothPiece, first: Placement): Placement => ({
  panel: second.panel,
  copy: second.copy,
  x: first.x,
  y: job.width - first.y,
  rotation: mirroredRotation(first.rotation),
  flipped: second.flipped,
});

/** Whether a piece whose middle lies on the fold keeps the margin at both selvedges. */
export function fitsOnFold(job: LayJob, piece: ClothPiece, rotation: number): boolean {
  const middle = middleAcross(piece, rotation);
  if (middle === null) return false;
  const box = boxOfPoints(turnedPoints(piece.cutting, piece.flipped, rotation));
  const reach = Math.max(middle - box.minY, box.maxY - middle);
  return reach <= job.width / 2 - job.margin + LEVEL / 1000;
}
