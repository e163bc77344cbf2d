import { ON_GRAIN, type Line, type Matrix, type Polyline, type Pt } from '../geometry';
import { CUTS_TOUCH, SAME_POINT, applyMatrix, cross, dot, labelSpot, multiply, subtract } from '../geometry';
import { remember } from '../pattern';
import type { ClothPiece, LayPlan, Placement } from './layPlan';
import { normalAngle, turnOf } from './placement';

/**
 * From which layers a piece is cut. single: the cloth lies in one layer. both: with its mirrored copy, through both layers of folded
 * cloth. fold: with its middle on the fold. upper, lower: from one layer of folded cloth alone.
 */
export type CutFrom = 'single' | 'both' | 'fold' | 'upper' | 'lower';

/** The shape of a piece as it is seen on the table, mm: an outline, where its number stands, an arrow along its grain. */
export interface SeenPiece {
  /** Corners of the cutting line; of the half above the fold where the piece lies on it. */
  readonly outline: Polyline;
  /** The piece's own frame to this one. */
  readonly from: Matrix;
  /** Inside, farthest from the outline; `radius` is how far. */
  readonly label: { readonly at: Pt; readonly radius: number };
  /** Through the label along the grain, inside the outline, from its tail to its head as the grain was traced. */
  readonly grain: Line;
}

/** A piece of a lay plan, ready to be drawn. */
export interface LaidPiece extends SeenPiece {
  readonly piece: ClothPiece;
  readonly number: number;
  readonly copy: number;
  /** It is a mirrored copy: the printed piece lies on the right side of the cloth face down. */
  readonly flipped: boolean;
  readonly cutFrom: CutFrom;
  /** Degrees between its grain and the cloth's length, 0 ≤ a ≤ 90; 0 within rounding. */
  readonly offGrain: number;
  /**
   * As it is seen on cloth that lies folded: the fold along y = 0, the selvedges together at half the width, length along +x. Null
   * for the copy that is cut with another one, and on cloth that lies in one layer. `faceDown`: the printed piece is laid so on the
   * upper layer, whose wrong side is up; of a piece on the fold only the printed half can tell, so it is false.
   */
  readonly folded: (SeenPiece & { readonly faceDown: boolean }) | null;
}

/** What a placement does, as a matrix: mirror in x when flipped, turn, move. Exact at quarter turns. */
export function placementMatrix({ x, y, rotation, flipped }: Placement): Matrix {
  const { cos, sin } = turnOf(rotation);
  const turned: Matrix = [cos, sin, -sin, cos, x, y];
  return flipped ? multiply(turned, [-1, 0, 0, 1, 0, 0]) : turned;
}

const moved = (points: Polyline, m: Matrix): Pt[] => points.map((p) => applyMatrix(m, p));

/** The roomiest place of a cutting line, found once however often it is laid. */
const spotOf = remember((cutting: Polyline) => labelSpot(cutting));

/** What of a ring lies left of the line from a to b (cross product positive), its cut straight along the line. */
function halfOf(ring: Polyline, [a, b]: Line): Pt[] {
  const side = (p: Pt): number => cross(subtract(b, a), subtract(p, a));
  return ring.flatMap((p, i): Pt[] => {
    const q = ring[(i + 1) % ring.length]!;
    const [s, t] = [side(p), side(q)];
    const kept: Pt[] = s >= 0 ? [p] : [];
    if (s * t >= 0) return kept;
    const k = s / (s - t);
    return [...kept, [p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k]];
  });
}

/** The half of a cutting line on the left of its middle, and where its label stands. */
const leftHalf = remember((cutting: Polyline, ...middle: readonly [Pt, Pt]) => {
  const outline = halfOf(cutting, middle);
  return { outline, spot: labelSpot(outline) };
});

/** The longest arrow through p along a direction of length 1 that stays inside the ring. */
function arrowThrough(ring: Polyline, p: Pt, along: Pt): Line {
  let [back, on] = [-Infinity, Infinity];
  ring.forEach((a, i) => {
    const [v, w] = [subtract(a, p), subtract(ring[(i + 1) % ring.length]!, p)];
    const [s, t] = [cross(along, v), cross(along, w)];
    if (s > 0 === t > 0) return;
    const at = dot(v, along) + ((dot(w, along) - dot(v, along)) * s) / (s - t);
    if (at >= 0) on = Math.min(on, at);
    else back = Math.max(back, at);
  });
  const point = (t: number): Pt => [p[0] + along[0] * t, p[1] + along[1] * t];
  return Number.isFinite(back) && Number.isFinite(on) ? [point(back), point(on)] : [p, p];
}

/** A shape of the piece's own frame brought to another one. */
function seen(
  piece: ClothPiece,
  from: Matrix,
  shape: Polyline,
  spot: { readonly at: Pt; readonly radius: number },
): SeenPiece {
  const outline = moved(shape, from);
  const at = applyMatrix(from, spot.at);
  const { cos, sin } = turnOf(piece.grainAngle);
  const along: Pt = [from[0] * cos + from[2] * sin, from[1] * cos + from[3] * sin];
  return { outline, from, label: { at, radius: spot.radius }, grain: arrowThrough(outline, at, along) };
}

/** Whether two placed copies are each other's mirror image across the fold. */
function isMirrored(a: Matrix, b: Matrix, width: number): boolean {
  const image = multiply([1, 0, 0, -1, 0, width], a);
  return image.every((v, i) => Math.abs(v - b[i]!) < SAME_POINT);
}

/** Opened-out cloth to folded cloth: the half beyond the fold stays where it is, the other one is turned over on to it. */
function toFolded(isNearHalf: boolean, width: number): Matrix {
  return isNearHalf ? [1, 0, 0, -1, 0, width / 2] : [1, 0, 0, 1, 0, -width / 2];
}

interface Laid {
  readonly piece: ClothPiece;
  readonly placement: Placement;
  readonly from: Matrix;
}

/** How a piece lies on folded cloth: from which layers it is cut, and what is seen of it. */
function onFolded(
  { piece, placement, from }: Laid,
  opened: SeenPiece,
  all: readonly Laid[],
  width: number,
): Pick<LaidPiece, 'cutFrom' | 'folded'> {
  const ys = opened.outline.map((p) => p[1]);
  const [least, most] = [Math.min(...ys), Math.max(...ys)];
  if (piece.middle && least < width / 2 - CUTS_TOUCH && most > width / 2 + CUTS_TOUCH) {
    const own = toFolded(false, width);
    const m = multiply(own, from);
    const { outline, spot } = leftHalf(piece.cutting, ...piece.middle);
    // The half that was worked out may be the one turned under: its mirror image is then the one seen.
    const isSeen = applyMatrix(m, spot.at)[1] > 0;
    const half = isSeen ? m : multiply([1, 0, 0, -1, 0, 0], m);
    return { cutFrom: 'fold', folded: { ...seen(piece, half, outline, spot), faceDown: false } };
  }
  const mate = all.find(
    (o) => o.piece !== piece && o.piece.panel === piece.panel && isMirrored(from, o.from, width),
  );
  if (mate && mate.piece.copy < piece.copy) return { cutFrom: 'both', folded: null };
  const isNear = least + most < width;
  const m = multiply(toFolded(isNear, width), from);
  const shape = seen(piece, m, piece.cutting, spotOf(piece.cutting));
  // The nearer half is the one turned over: seen from its wrong side.
  const faceDown = placement.flipped !== isNear;
  return { cutFrom: mate ? 'both' : isNear ? 'upper' : 'lower', folded: { ...shape, faceDown } };
}

/**
 * The pieces of a lay plan as they are drawn, on paper as on the bench, in the plan's order. Opened out: cloth right side up, its length
 * along +x, its width along +y. A placement of a piece that is not among `pieces` is left out.
 */
export function laidPieces(pieces: readonly ClothPiece[], plan: LayPlan): LaidPiece[] {
  const byKey = new Map(pieces.map((p) => [`${p.panel} ${p.copy}`, p]));
  const all = plan.placed.flatMap((placement): Laid[] => {
    const piece = byKey.get(`${placement.panel} ${placement.copy}`);
    return piece ? [{ piece, placement, from: placementMatrix(placement) }] : [];
  });
  return all.map((laid): LaidPiece => {
    const { piece, placement, from } = laid;
    const opened = seen(piece, from, piece.cutting, spotOf(piece.cutting));
    const grain = piece.flipped ? 180 - piece.grainAngle : piece.grainAngle;
    const turn = Math.abs(normalAngle(placement.rotation + grain));
    const offGrain = Math.min(turn, 180 - turn);
    return {
      ...opened,
      piece,
      number: piece.number,
      copy: piece.copy,
      flipped: placement.flipped,
      offGrain: offGrain < ON_GRAIN ? 0 : offGrain,
      ...(plan.layering === 'folded'
        ? onFolded(laid, opened, all, plan.width)
        : { cutFrom: 'single' as const, folded: null }),
    };
  });
}
