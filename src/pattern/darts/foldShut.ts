import {
  type Line,
  type Path,
  type Pt,
  type Ring,
  applyMatrix,
  crossStraight,
  isInRing,
  mix,
  pointOn,
  reversePath,
  subtract,
  transformPath,
  unit,
  turnAbout,
} from '../../geometry';
import type { DartShape } from '../design';
import { remember } from '../remember';
import type { PlacedDart, WholePiece } from '../wholePiece';
import { type DoubleDart, type SingleDart, legsOf, turnBetween } from './dartShape';
import { type Slit, foldSlit } from './foldSlit';
import type { Turn } from './swingDart';
import { type SwingMap, swingMapOf } from './swingMap';
import {
  type CutApart,
  type Outline,
  curvesOf,
  cornersOfOutline,
  cutApart,
  placeOn,
  stretch,
} from './turnPart';

/** A part of a piece as it lies with a dart folded shut. */
export interface ShutPart {
  /** Its stretch of the stitching outline, in ring order. */
  readonly along: Path;
  /** The part as a closed ring: that stretch, and straight back over the dart's point. */
  readonly ring: Ring;
  readonly turned: boolean;
}

/**
 * A piece as it lies with one dart folded shut. It cannot lie flat in one piece: it is slit from the dart's point to the outline, where it opens by
 * the dart's angle.
 */
export interface FoldedShut {
  readonly parts: readonly ShutPart[];
  /** The sewn line, mouth to point, as it lies on the part that stays. */
  readonly seam: Path;
  /** The slit as it lies: it opens from its first point to its second and third. */
  readonly slit: readonly [Pt, Pt, Pt];
  /** Where a place of the flat piece lies now, what lies in the wedge on the sewn line. */
  readonly toShut: (p: Pt) => Pt;
  /** Where a place of the shut piece is on the flat one, what lies in an open slit on the part that stays. */
  readonly toFlat: (p: Pt) => Pt;
  /** The same for paths: cut at legs and slits, in order; what lies in a wedge or slit is left out. */
  readonly pathToShut: SwingMap['path'];
  readonly pathToFlat: SwingMap['path'];
}

interface Shut {
  readonly parts: readonly ShutPart[];
  readonly turn: Turn;
  readonly slit: readonly [Pt, Pt, Pt];
}

/** One single dart of an outline shut over a slit. */
function shutOver<T>(
  outline: Outline<T>,
  dart: SingleDart,
  { at, turns }: Slit,
  borders: readonly Line[],
): Shut {
  const cut: CutApart<T> = cutApart(outline, dart, placeOn(outline, at));
  const { isFirst } = cut.mouth;
  const [entry, exit] = isFirst ? dart.mouth : [dart.mouth[1], dart.mouth[0]];
  const closes = turnBetween(entry, dart.point, exit);
  const angle = turns === 'before' ? closes : -closes;
  const matrix = turnAbout(dart.point, angle);
  const still = turns === 'before' ? 'after' : 'before';
  const [own, other] = turns === 'before' ? [entry, exit] : [exit, entry];
  const turn: Turn = {
    about: dart.point,
    angle,
    matrix,
    turned: cut[turns].corners,
    still: cut[still].corners,
    cut: [dart.point, at],
    legs: [
      [dart.point, own],
      [dart.point, other],
    ],
    borders,
    closed: 1,
  };
  const part = (which: 'before' | 'after'): ShutPart => {
    const turned = which === turns;
    const flat = curvesOf(cut[which].along);
    const along = turned ? transformPath(flat, matrix) : flat;
    const [first, last] = [along[0]![0], along.at(-1)!.at(-1)!];
    return { along, ring: [...along, [last, dart.point], [dart.point, first]], turned };
  };
  return { parts: [part(still), part(turns)], turn, slit: [dart.point, at, applyMatrix(matrix, at)] };
}

function shutFrom({ parts, turn, slit }: Shut, seam: Path): FoldedShut {
  const map = swingMapOf([turn]);
  return {
    parts,
    seam,
    slit,
    toShut: map.point,
    toFlat: map.back,
    pathToShut: map.path,
    pathToFlat: map.backPath,
  };
}

/** The leg that stays, from mouth to point. */
function stillLeg(dart: SingleDart, { turn }: Shut): Path {
  const [first, second] = legsOf(dart);
  const isSecond = turn.legs[1][1] === dart.mouth[1];
  return isSecond ? reversePath(second) : first;
}

/**
 * A whole piece with one of its darts folded shut.
 * @param dart one of whole.darts
 * @param end of a double-pointed dart, which is shown shut: 0 that of points[0], 1 that of points[2]. Only the half of the piece on that
 *   side of the dart's sides is shown: sewn shut at both ends a piece lies flat no more
 * @returns null where every way for a slit is barred (the dart cannot be shown shut)
 */
export const foldShut = remember((whole: WholePiece, dart: PlacedDart, end: 0 | 1 = 0): FoldedShut | null => {
  const outline: Outline<number> = whole.stitching.map((curve, i) => ({ curve, tag: whole.edgeOf[i]! }));
  const others = whole.darts.filter((d) => d !== dart);
  if (dart.kind === 'double') return shutEnd(outline, dart, others, end);
  const slit = foldSlit(outline, dart, others);
  if (!slit) return null;
  const shut = shutOver(outline, dart, slit, []);
  return shutFrom(shut, stillLeg(dart, shut));
});

/** The tag of a cut that is no outline. */
const CUT = -1;

/** One end of a double-pointed dart is a single dart of the half of the piece it lies in, cut across through the dart's sides. */
function shutEnd(
  outline: Outline<number>,
  dart: DoubleDart,
  others: readonly DartShape[],
  end: 0 | 1,
): FoldedShut | null {
  const halves = halvesOf(outline, dart);
  if (!halves) return null;
  const [p, a, q, b] = dart.points;
  const l = dart.legs;
  const single: SingleDart =
    end === 0
      ? { kind: 'single', mouth: [a, b], point: p, legs: l && [reversePath(l[0]), reversePath(l[3])] }
      : { kind: 'single', mouth: [a, b], point: q, legs: l && [l[1], l[2]] };
  const half = halves.outlines[end]!;
  const slit = foldSlit(half, single, others, (tag) => tag !== CUT);
  if (!slit) return null;
  const shut = shutOver(half, single, slit, [halves.across]);
  return shutFrom(shut, stillLeg(single, shut));
}

/** The outline's halves either side of the straight line through a dart's sides: first the one with points[0]. */
function halvesOf(
  outline: Outline<number>,
  { points: [p, a, q, b] }: DoubleDart,
): { outlines: readonly [Outline<number>, Outline<number>]; across: Line } | null {
  const direction = unit(subtract(b, a));
  const hits = crossStraight(curvesOf(outline), mix(a, b, 0.5), direction);
  const ahead = hits.find((h) => h.along > 0);
  const behind = hits.findLast((h) => h.along < 0);
  if (!ahead || !behind) return null;
  const [s, t] = [placeOn(outline, behind.point), placeOn(outline, ahead.point)];
  const [from, to] = [pointOn(curvesOf(outline), s), pointOn(curvesOf(outline), t)];
  const line = (...corners: Pt[]): Outline<number> =>
    corners.slice(1).map((end, i) => ({ curve: [corners[i]!, end], tag: CUT }));
  const first = [...stretch(outline, s, t), ...line(to, b, a, from)];
  const second = [...stretch(outline, t, s), ...line(from, a, b, to)];
  const [isP, isQ] = [p, q].map((point) => isInRing(point, cornersOfOutline(first)));
  if (isP === isQ) return null;
  return { outlines: isP ? [first, second] : [second, first], across: [from, to] };
}
