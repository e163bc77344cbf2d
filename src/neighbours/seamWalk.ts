import { type Pt, nearestOnPath } from '../geometry';
import { type PieceId, type WholePiece, placeAtSewn, sewnEdge, sewnLengthAt } from '../pattern';
import type { EdgeRef, SeamJoin, SeamSide } from './seamJoin';
import { sameEdge } from './seamJoin';
import { notchesOn } from './seamNotches';

/** Whole pieces by id. */
export type Wholes = ReadonlyMap<PieceId, WholePiece>;

/** A part of a seam between two match marks (or ends), walked from the agreed end: sewn lengths of both sides, mm. */
export interface SeamStretch {
  readonly fromA: number;
  readonly toA: number;
  readonly fromB: number;
  readonly toB: number;
}

/** Difference of length that is meant, mm: `least` to `most` of a over b (negative: b is the longer one). */
export interface EaseMeant {
  readonly least: number;
  readonly most: number;
}

/** Both stitching lines of a seam, walked together. Lengths are sewn ones: darts shut. */
export interface SeamWalk {
  readonly join: SeamJoin;
  readonly lengthA: number;
  readonly lengthB: number;
  /** lengthA − lengthB. */
  readonly difference: number;
  readonly ease: EaseMeant;
  readonly stretches: readonly SeamStretch[];
}

/**
 * Most ease in one half of a sleeve cap and in a back shoulder, mm: common practice, no source (a whole cap takes 0 to 38; the fuller half
 * somewhat more than half of it, which is our choice).
 */
const HALF_CAP_EASE = 24;
const SHOULDER_EASE = 10;

/** Sewn length of a side from the agreed end, given that from the edge's first end; its own inverse. */
const fromAgreed = ({ from, to }: SeamSide, beginsLast: boolean, s: number): number =>
  beginsLast ? to - s : s - from;
const toOwn = ({ from, to }: SeamSide, beginsLast: boolean, s: number): number =>
  beginsLast ? to - s : s + from;

const beginsLastOnB = ({ beginsLast, reversed }: SeamJoin): boolean => beginsLast !== reversed;

/** Match marks of a side as lengths from the agreed end. */
function marksOf(wholes: Wholes, side: SeamSide, beginsLast: boolean): number[] {
  return notchesOn(wholes.get(side.piece)!, side.edge)
    .filter((s) => s > side.from + 1 && s < side.to - 1)
    .map((s) => fromAgreed(side, beginsLast, s))
    .sort((x, y) => x - y);
}

/** The difference that is meant: a cap is eased into its armhole, a back shoulder into the front's. */
function easeMeant(wholes: Wholes, { a, b, role }: SeamJoin): EaseMeant {
  if (role === 'armhole') return { least: -HALF_CAP_EASE, most: 0 };
  if (role !== 'shoulder') return { least: 0, most: 0 };
  const isBack = ({ piece }: SeamSide): boolean => /\bback\b/i.test(wholes.get(piece)!.name);
  if (isBack(a) && !isBack(b)) return { least: 0, most: SHOULDER_EASE };
  return { least: isBack(b) && !isBack(a) ? -SHOULDER_EASE : 0, most: 0 };
}

/**
 * Walk a seam along both stitching lines, darts shut, from the agreed end: notch to notch where both carry as many traced match
 * marks, else over the whole. Ease is spread evenly within each stretch.
 */
export function walkSeam(wholes: Wholes, join: SeamJoin): SeamWalk {
  const [lengthA, lengthB] = [join.a.to - join.a.from, join.b.to - join.b.from];
  const marksA = marksOf(wholes, join.a, join.beginsLast);
  const marksB = marksOf(wholes, join.b, beginsLastOnB(join));
  const isMarked = marksA.length === marksB.length;
  const stopsA = [0, ...(isMarked ? marksA : []), lengthA];
  const stopsB = [0, ...(isMarked ? marksB : []), lengthB];
  const stretches = stopsA.slice(1).map((toA, i): SeamStretch => ({
    fromA: stopsA[i]!,
    toA,
    fromB: stopsB[i]!,
    toB: stopsB[i + 1]!,
  }));
  return {
    join,
    lengthA,
    lengthB,
    difference: lengthA - lengthB,
    ease: easeMeant(wholes, join),
    stretches,
  };
}

const share = (s: number, from: number, to: number): number => (to > from ? (s - from) / (to - from) : 0);

/** Length from the agreed end on b that meets a length on a, mm; beyond the ends it goes on as it is. */
export function acrossToB({ stretches }: Pick<SeamWalk, 'stretches'>, s: number): number {
  const k = stretches.find((t) => s <= t.toA) ?? stretches.at(-1)!;
  return k.fromB + share(s, k.fromA, k.toA) * (k.toB - k.fromB);
}

/** Length from the agreed end on a that meets a length on b, mm. */
export const acrossToA = ({ stretches }: Pick<SeamWalk, 'stretches'>, s: number): number =>
  acrossToB(
    { stretches: stretches.map((t) => ({ fromA: t.fromB, toA: t.toB, fromB: t.fromA, toB: t.toA })) },
    s,
  );

/** A place on a joined edge is on the seam when it is no farther beyond its ends than this, mm: a cap is shared by two seams. */
const ON_SEAM = 0.01;

/** Length from the agreed end at which a point of a seam's side lies, mm; null where it lies on the edge but not on this seam. */
export function lengthOnSide(wholes: Wholes, join: SeamJoin, which: 'a' | 'b', p: Pt): number | null {
  const side = join[which];
  const edge = sewnEdge(wholes.get(side.piece)!, side.edge);
  return lengthFromAgreed(join, which, sewnLengthAt(edge, nearestOnPath(edge.path, p)));
}

/** The same for a sewn length from the edge's own first end. */
export function lengthFromAgreed(join: SeamJoin, which: 'a' | 'b', s: number): number | null {
  const side = join[which];
  if (s < side.from - ON_SEAM || s > side.to + ON_SEAM) return null;
  return fromAgreed(side, which === 'a' ? join.beginsLast : beginsLastOnB(join), s);
}

/** The point of a seam's side at a length from the agreed end. */
export function pointOnSide(wholes: Wholes, join: SeamJoin, which: 'a' | 'b', s: number): Pt {
  const side = join[which];
  const own = toOwn(side, which === 'a' ? join.beginsLast : beginsLastOnB(join), s);
  return placeAtSewn(sewnEdge(wholes.get(side.piece)!, side.edge), own).point;
}

/** A place where a point of one edge arrives on another. */
export interface Arrival extends EdgeRef {
  readonly at: Pt;
}

/**
 * Where a point of an edge comes to lie on the edges joined to it once the seams are closed. More than one where the piece beyond is
 * joined twice; none on an edge that joins nothing. The centre seam of a pair arrives at itself.
 */
export function crossSeam(
  wholes: Wholes,
  joins: readonly SeamJoin[],
  from: EdgeRef,
  p: Pt,
): readonly Arrival[] {
  return joins.flatMap((join): Arrival[] => {
    const isSame = sameEdge(join.a, join.b);
    return (['a', 'b'] as const).flatMap((which): Arrival[] => {
      if (!sameEdge(join[which], from) || (isSame && which === 'b')) return [];
      const s = lengthOnSide(wholes, join, which, p);
      if (s === null) return [];
      const walk = walkSeam(wholes, join);
      const other = which === 'a' ? 'b' : 'a';
      const t = which === 'a' ? acrossToB(walk, s) : acrossToA(walk, s);
      const { piece, edge } = join[other];
      return [{ piece, edge, at: pointOnSide(wholes, join, other, t) }];
    });
  });
}
