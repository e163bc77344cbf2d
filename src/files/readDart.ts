import {
  JOIN_GAP,
  SAME_POINT,
  directionAt,
  distance,
  distanceToSegment,
  endOf,
  flattenPath,
  isCubic,
  nearestOnPath,
  pathLength,
  pointAtLength,
  refAtLength,
  splitCurve,
  startOf,
  withEnds,
  type Curve,
  type Path,
  type Pt,
  type Ring,
} from '../geometry';
import type { DartShape } from '../pattern';
import type { DrawnPath } from './drawnShape';

/** A joint between two curves that turns by more than this is a tip or a mouth's corner, not a leg's own bend, radians (50°). */
const TIP_TURN = (50 * Math.PI) / 180;

const isStraight = (c: Curve): boolean =>
  !isCubic(c) || c.every((p) => distanceToSegment(p, c[0], c[3]).distance <= SAME_POINT);

/** The traced curves without those of no length; straight ones in one line are one, so that every joint left says something. */
function tidied(path: Path, closed: boolean): Curve[] {
  const out: Curve[] = [];
  for (const c of path) {
    const plain: Curve = isStraight(c) ? [c[0], c.at(-1)!] : c;
    if (plain.length === 2 && distance(plain[0], plain[1]) <= SAME_POINT) continue;
    const last = out.at(-1);
    if (last && goOnStraight(last, plain)) out[out.length - 1] = [last[0], plain[1]!];
    else out.push(last ? withEnds(plain, last.at(-1)!, plain.at(-1)!) : plain);
  }
  if (closed && out.length > 3 && goOnStraight(out.at(-1)!, out[0]!)) {
    out[0] = [out.at(-1)![0], out[0]![1]!];
    out.pop();
  }
  return out;
}

const goOnStraight = (a: Curve, b: Curve): boolean =>
  a.length === 2 && b.length === 2 && distanceToSegment(a[1], a[0], b[1]).distance <= SAME_POINT;

/** A leg whose every part lies on its chord is one straight line. */
function plainLeg(leg: Path): Path {
  const [a, b] = [startOf(leg), endOf(leg)];
  const { points } = flattenPath(leg);
  return points.every((p) => distanceToSegment(p, a, b).distance <= SAME_POINT) ? [[a, b]] : leg;
}

const isPlain = (leg: Path): boolean => leg.length === 1 && leg[0]!.length === 2;

function single(toPoint: Path, fromPoint: Path): DartShape {
  const legs = [plainLeg(toPoint), plainLeg(fromPoint)] as const;
  return {
    kind: 'single',
    mouth: [startOf(legs[0]), endOf(legs[1])],
    point: endOf(legs[0]),
    legs: legs.every(isPlain) ? null : legs,
  };
}

const away = (outline: Ring, p: Pt): number => (outline.length > 0 ? nearestOnPath(outline, p).distance : 0);

/** How sharply a closed dart turns at the start of curve i, radians. */
function turnAt(ring: readonly Curve[], i: number): number {
  const [ax, ay] = directionAt(ring.at(i - 1)!, 1);
  const [bx, by] = directionAt(ring[i]!, 0);
  return Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by));
}

/** The curves from joint i on to joint k, round the ring. */
const between = (ring: readonly Curve[], i: number, k: number): Path =>
  k > i ? ring.slice(i, k) : [...ring.slice(i), ...ring.slice(0, k)];

/** A closed single dart from three of its joints: the point is the one farthest from the outline. */
function fromJoints(ring: readonly Curve[], joints: readonly number[], outline: Ring): DartShape {
  const gaps = joints.map((j) => away(outline, ring[j]![0]));
  const p = gaps.indexOf(Math.max(...gaps));
  const [before, point, after] = [joints.at(p - 1)!, joints[p]!, joints[(p + 1) % 3]!];
  return single(between(ring, before, point), between(ring, point, after));
}

/**
 * A closed dart with its mouth side on the outline, which may follow it in any number of curves: the legs are what leads from the
 * joint farthest inside to the first joints on the outline. Null where the legs have corners of their own.
 */
function fromMouthSide(ring: readonly Curve[], outline: Ring): DartShape | null {
  const gaps = ring.map((c) => away(outline, c[0]));
  const n = ring.length;
  const p = gaps.indexOf(Math.max(...gaps));
  if (gaps[p]! <= JOIN_GAP) return null;
  const touches = (k: number): boolean => gaps[(k + n) % n]! <= JOIN_GAP;
  let [f, b] = [1, 1];
  while (f < n && !touches(p + f)) f += 1;
  while (b < n && !touches(p - b)) b += 1;
  if (f + b >= n) return null;
  const inner = ring.map((_, k) => k).filter((k) => k !== p && !touches(k));
  if (inner.some((k) => turnAt(ring, k) > TIP_TURN)) return null;
  return single(between(ring, (p - b + n) % n, p), between(ring, p, (p + f) % n));
}

/** Where one side of a double-pointed dart is widest: its joint farthest from the tips' chord, or a place on its one curve. */
function halves(side: Path): [Path, Path] {
  const [a, z] = [startOf(side), endOf(side)];
  const bow = (p: Pt): number => distanceToSegment(p, a, z).distance;
  if (side.length > 1) {
    const joints = side.slice(1).map((c) => bow(c[0]));
    const k = joints.indexOf(Math.max(...joints)) + 1;
    return [side.slice(0, k), side.slice(k)];
  }
  const whole = pathLength(side);
  const at = Array.from({ length: 199 }, (_, i) => (whole * (i + 1)) / 200);
  const widest = at.reduce((x, s) =>
    bow(pointAtLength(side, s).point) > bow(pointAtLength(side, x).point) ? s : x,
  );
  const [head, tail] = splitCurve(side[0]!, refAtLength(side, widest).t);
  return [[head], [tail]];
}

/** A double-pointed dart between two of its joints; null where a side lies on the chord between them. */
function fromTips(ring: readonly Curve[], p: number, q: number): DartShape | null {
  const sides = [between(ring, p, q), between(ring, q, p)] as const;
  if (sides.some((s) => isPlain(plainLeg(s)))) return null;
  const legs = sides.flatMap(halves).map(plainLeg) as unknown as readonly [Path, Path, Path, Path];
  const points = legs.map(startOf) as unknown as readonly [Pt, Pt, Pt, Pt];
  return { kind: 'double', points, legs: legs.every(isPlain) ? null : legs };
}

/** The two joints farthest apart; of four corners, the farther opposite ones. */
function tipsOf(ring: readonly Curve[]): [number, number] {
  const apart = (i: number, k: number): number => distance(ring[i]![0], ring[k]![0]);
  if (ring.length === 4) return apart(0, 2) >= apart(1, 3) ? [0, 2] : [1, 3];
  let best: [number, number] = [0, 1];
  ring.forEach((_, i) => {
    for (let k = i + 1; k < ring.length; k += 1) if (apart(i, k) > apart(...best)) best = [i, k];
  });
  return best;
}

/** A closed dart: three corners or a side along the outline make a single one, two tips or four corners a double-pointed one. */
function fromClosed(ring: readonly Curve[], outline: Ring): DartShape | null {
  const n = ring.length;
  if (n < 2) return null;
  if (n === 3 && ring.every((c) => !isCubic(c))) return fromJoints(ring, [0, 1, 2], outline);
  const onMouth = fromMouthSide(ring, outline);
  if (onMouth) return onMouth;
  const isAngular = ring.every((c) => !isCubic(c));
  if (isAngular && n === 4) return fromTips(ring, ...tipsOf(ring));
  const tips = ring.map((_, i) => i).filter((i) => turnAt(ring, i) > TIP_TURN);
  if (tips.length === 3) return fromJoints(ring, tips, outline);
  if (tips.length === 2) return fromTips(ring, tips[0]!, tips[1]!);
  return n === 4 && tips.length === 4 ? fromTips(ring, ...tipsOf(ring)) : null;
}

/**
 * Mouth, point, mouth. The point is the joint farthest from the mouth's chord; only where exactly two of the three corners touch the
 * outline and the middle one is among them was another order traced.
 */
function fromOpen(path: readonly Curve[], outline: Ring): DartShape | null {
  if (path.length < 2) return null;
  const [a, z] = [startOf(path), endOf(path)];
  const joints = path.slice(1).map((c) => distanceToSegment(c[0], a, z).distance);
  const k = joints.indexOf(Math.max(...joints)) + 1;
  const corners = [a, path[k]![0], z];
  const touching = corners.filter((p) => away(outline, p) <= JOIN_GAP);
  if (touching.length === 2 && touching.includes(corners[1]!)) {
    const closed = [...path, [z, a] as Curve];
    return fromJoints(closed, [0, k, path.length], outline);
  }
  return single(path.slice(0, k), path.slice(k));
}

/**
 * A dart from its traced path. Open: from one mouth end through the point to the other. Closed: a single dart with its mouth side drawn too,
 * straight or along the outline, or a double-pointed one. Legs may be curved, in any number of curves; straight ones may have extra nodes.
 * @param outline where the mouth is looked for; empty where it is not known yet
 * @returns null if it is none of these
 */
export function readDart({ path, closed }: DrawnPath, outline: Ring): DartShape | null {
  const gap = path.length > 1 ? distance(startOf(path), endOf(path)) : Infinity;
  const isClosed = closed || (path.length > 2 && gap < JOIN_GAP);
  if (!isClosed) return fromOpen(tidied(path, false), outline);
  if (path.length < 2) return null;
  const last = path.at(-1)!;
  const shut =
    gap < JOIN_GAP
      ? [...path.slice(0, -1), withEnds(last, last[0], startOf(path))]
      : [...path, [endOf(path), startOf(path)] as Curve];
  return fromClosed(tidied(shut, true), outline);
}
