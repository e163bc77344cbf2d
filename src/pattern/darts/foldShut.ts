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
} from '../../geometry';
import type { DartShape } from '../design';
import { remember } from '../remember';
import type { PlacedDart, WholePiece } from '../wholePiece';
import { type DoubleDart, type SingleDart, legsOf, turnBetween } from './dartShape';
import { type Slit, foldSlit } from './foldSlit';
import type { Turn } from './swingDart';
import { type SwingMap, mapOfStages } from './swingMap';
import {
  type CutApart,
  type Outline,
  curvesOf,
  cornersOfOutline,
  cutApart,
  placeOn,
  stretch,
  turnAbout,
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
 * A whole piece as it lies with one dart folded shut. It cannot lie flat in one piece: it is slit from the dart's point to the outline, where
 * it opens by the dart's angle; a double-pointed dart needs a slit at either end and one across through its sides.
 */
export interface FoldedShut {
  readonly parts: readonly ShutPart[];
  /** The sewn line, mouth to point (or point to point), as it lies on the part that stays. */
  readonly seam: Path;
  /** The slits as they lie: each opens from its first point to its second and third. */
  readonly slits: readonly (readonly [Pt, Pt, Pt])[];
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

function shutFrom(shuts: readonly Shut[], seam: Path): FoldedShut {
  const map = mapOfStages([shuts.map((s) => s.turn)]);
  return {
    parts: shuts.flatMap((s) => s.parts),
    seam,
    slits: shuts.map((s) => s.slit),
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
 * @returns null where every way for a slit is barred (the dart cannot be shown shut)
 */
export const foldShut = remember((whole: WholePiece, dart: PlacedDart): FoldedShut | null => {
  const outline: Outline<number> = whole.stitching.map((curve, i) => ({ curve, tag: whole.edgeOf[i]! }));
  const others = whole.darts.filter((d) => d !== dart);
  if (dart.kind === 'double') return shutDouble(outline, dart, others);
  const slit = foldSlit(outline, dart, others);
  if (!slit) return null;
  const shut = shutOver(outline, dart, slit, []);
  return shutFrom([shut], stillLeg(dart, shut));
});

const CUT = -1;

/** Both ends of a double-pointed dart, each a single dart of the half of the piece it lies in, cut across through the dart's sides. */
function shutDouble(
  outline: Outline<number>,
  dart: DoubleDart,
  others: readonly DartShape[],
): FoldedShut | null {
  const halves = halvesOf(outline, dart);
  if (!halves) return null;
  const [p, a, q, b] = dart.points;
  const single = (point: Pt, legs: SingleDart['legs']): SingleDart => ({
    kind: 'single',
    mouth: [a, b],
    point,
    legs,
  });
  const l = dart.legs;
  const ends = [
    single(p, l && [reversePath(l[0]), reversePath(l[3])]),
    single(q, l && [l[1], l[2]]),
  ] as const;
  // `before` the mouth of one half is `after` that of the other: the same side of the dart turns in both.
  const ways = [
    ['before', 'after'],
    ['after', 'before'],
  ] as const;
  const found = ways.flatMap((sides) => {
    const slits = ends.map((end, i) =>
      foldSlit(halves.outlines[i]!, end, others, (tag) => tag !== CUT, [sides[i]!]),
    );
    return slits.every((s) => s !== null) ? [slits as Slit[]] : [];
  });
  const best = found.sort((x, y) => areaOf(x) - areaOf(y))[0];
  if (!best) return null;
  const shuts = ends.map((end, i) => shutOver(halves.outlines[i]!, end, best[i]!, [halves.across]));
  const [upper, lower] = [stillLeg(ends[0], shuts[0]!), stillLeg(ends[1], shuts[1]!)];
  return shutFrom(shuts, [...reversePath(upper), ...lower]);
}

const areaOf = (slits: readonly Slit[]): number => slits.reduce((sum, s) => sum + s.area, 0);

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
