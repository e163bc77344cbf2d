import { derivativeAt, endOfCurve, isCubic, subCurve, withEnds } from './curve';
import { crossingNear, onlyCrossing, type RunCrossing } from './curveCrossing';
import { cubicTerms, nearestParameter } from './curveFrame';
import { joinStretches, type Break, type CornerShapes } from './joinStretches';
import { canShorten, joinAt, type Corner, type Join } from './offsetJoins';
import { cornerBetween, sidesOf, type Side } from './offsetSides';
import { parallelCurve } from './parallelCurve';
import type { CornerShape } from './shapedCorners';
import { OFFSET_FIT_AIM } from './tolerances';
import type { Curve, CurveRef, Pt, Ring } from './types';
import { distance, distanceToSegment, dot, subtract } from './vector';

/** One curve of a ring's neighbour, with the number of the source curve it runs along. */
export interface OffsetCurve {
  readonly curve: Curve;
  readonly origin: number;
}

/** The parallel of a side while its ends are being settled. */
interface Run {
  readonly pieces: Curve[];
  readonly swallows: boolean;
  start: CurveRef;
  end: CurveRef;
  /** Parameters of the source between which the strip is not taken up by shortenings. */
  freeFrom: number;
  freeTo: number;
  /** Where a straight run starts and ends, lengthened or shortened. */
  straightStart: Pt;
  straightEnd: Pt;
}

/**
 * All parallels of a ring joined into one closed curve, which may cross itself. Its winding number is positive exactly in
 * the wanted region: source area, plus strips of positive width, less strips of negative width, mitres included.
 * @param ring signedArea > 0
 * @param shapes corners that are not mitred
 */
export function rawOffset(
  ring: Ring,
  widths: readonly number[],
  mitreLimit: number,
  shapes: CornerShapes = NO_SHAPES,
): OffsetCurve[] {
  const sides = ring.flatMap((c, i) => sidesOf(c, i, widths[i]!));
  const n = sides.length;
  if (n < 2) return [];
  const corners = sides.map((s, i) => cornerBetween(s, sides[(i + 1) % n]!));
  const runs = sides.map(runOf);
  const shaped = shapesAfter(sides, corners, shapes);
  const joins = settle(sides, corners, runs, mitreLimit, shaped);
  const { out, breaks } = assemble(sides, runs, joins);
  return closed(breaks.length === 0 ? out : joinStretches(out, breaks, corners, shaped, mitreLimit));
}

const NO_SHAPES: CornerShapes = new Map();

/** The shapes wanted, by the side that ends there; only strips that open outwards at a convex corner can have one. */
function shapesAfter(
  sides: readonly Side[],
  corners: readonly Corner[],
  shapes: CornerShapes,
): ReadonlyMap<number, CornerShape> {
  const shaped = new Map<number, CornerShape>();
  if (shapes.size === 0) return shaped;
  sides.forEach((side, i) => {
    const next = sides[(i + 1) % sides.length]!;
    const { turn, before, after } = corners[i]!;
    const shape = next.origin === side.origin ? undefined : shapes.get(next.origin);
    if (shape && turn > 0 && before.width >= 0 && after.width >= 0) shaped.set(i, shape);
  });
  return shaped;
}

function runOf(side: Side): Run {
  const { pieces, swallows } = parallelCurve(side.curve, side.width);
  const all = swallows ? withNominalEnds(side, pieces) : [...pieces];
  const last = all.length - 1;
  return {
    pieces: all,
    swallows,
    start: { index: 0, t: 0 },
    end: { index: last, t: 1 },
    freeFrom: 0,
    freeTo: 1,
    straightStart: all[0]![0],
    straightEnd: endOfCurve(all[last]!),
  };
}

/** Where a side bends too tightly at its very end its parallel ends early: go on to the full width, along the same normal. */
function withNominalEnds(
  { curve, width, startDirection: d, endDirection: e }: Side,
  pieces: readonly Curve[],
): Curve[] {
  const [a, b] = [curve[0], endOfCurve(curve)];
  const start: Pt = [a[0] + d[1] * width, a[1] - d[0] * width];
  const end: Pt = [b[0] + e[1] * width, b[1] - e[0] * width];
  const all: Curve[] = [...pieces];
  const first = pieces[0]?.[0] ?? start;
  const last = pieces.length > 0 ? endOfCurve(pieces.at(-1)!) : first;
  if (distance(start, first) > 1e-9) all.unshift([start, first]);
  if (distance(end, last) > 1e-9 || all.length === 0) all.push([last, end]);
  return all;
}

/** Decide the join at each corner. joins[i] leads from run i to the next. */
function settle(
  sides: readonly Side[],
  corners: readonly Corner[],
  runs: Run[],
  mitreLimit: number,
  shaped: ReadonlyMap<number, CornerShape>,
): Join[] {
  const n = sides.length;
  const joins = corners.map((corner, i): Join => {
    if (shaped.has(i)) return SHAPED;
    const [before, after] = [sides[i]!, sides[(i + 1) % n]!];
    const isStraight = !isCubic(before.curve) && !isCubic(after.curve);
    const join = joinAt(corner, mitreLimit, isStraight);
    const [runBefore, runAfter] = [runs[i]!, runs[(i + 1) % n]!];
    if (join.kind !== 'by way of the corner' || isStraight) {
      if (isClosing(corner, join)) takeUp(before, after, runBefore, runAfter, join.points[0]!);
      return join;
    }
    return shortenedCurves(join, corner, before, after, runBefore, runAfter);
  });
  const place = (i: number): void => {
    const join = joins[i]!;
    const [before, after] = [runs[i]!, runs[(i + 1) % n]!];
    before.straightEnd = join.meetsBefore ? join.points[0]! : endOfCurve(before.pieces.at(-1)!);
    after.straightStart = join.meetsAfter ? join.points.at(-1)! : after.pieces[0]![0];
  };
  const undo = (i: number): void => {
    const [before, after] = [runs[i]!, runs[(i + 1) % n]!];
    if (isClosing(corners[i]!, joins[i]!)) joins[i] = joinAt(corners[i]!, mitreLimit, false);
    before.end = { index: before.pieces.length - 1, t: 1 };
    after.start = { index: 0, t: 0 };
    place(i);
  };
  joins.forEach((_, i) => place(i));
  const overtaken = runs.flatMap((run, i) => (run.freeFrom < run.freeTo ? [] : [i]));
  for (const i of overtaken) {
    undo(i);
    undo((i + n - 1) % n);
  }
  return joins;
}

const SHAPED: Join = { kind: 'shaped', points: [], meetsBefore: false, meetsAfter: false };

/** Whether a join cuts strips short that overlap. */
const isClosing = ({ turn, before, after }: Corner, join: Join): boolean =>
  join.kind === 'shortened' || (join.kind === 'step' && (before.width + after.width) * turn < 0);

/**
 * Note which stretch of each source the loop that a shortening cuts off (crossing, end, corner, start) lies beside. That loop
 * must lie in both strips, and in no other such loop: only then every point of it stays covered.
 */
function takeUp(before: Side, after: Side, runBefore: Run, runAfter: Run, crossing: Pt): boolean {
  const start = runAfter.pieces[0]![0];
  const end = endOfCurve(runBefore.pieces.at(-1)!);
  const feet = [footOn(before.curve, crossing), footOn(before.curve, start)];
  const feetAfter = [footOn(after.curve, crossing), footOn(after.curve, end)];
  runBefore.freeTo = Math.min(runBefore.freeTo, ...feet.map((f) => f.t));
  runAfter.freeFrom = Math.max(runAfter.freeFrom, ...feetAfter.map((f) => f.t));
  const isIn = (side: Side, away: number): boolean => away <= Math.abs(side.width) + OFFSET_FIT_AIM;
  return feet.every((f) => isIn(before, f.distance)) && feetAfter.every((f) => isIn(after, f.distance));
}

const footOn = (c: Curve, p: Pt): { t: number; distance: number } => {
  if (isCubic(c)) return nearestParameter(cubicTerms(c), p[0], p[1]);
  const along = subtract(c[1], c[0]);
  return {
    t: dot(subtract(p, c[0]), along) / dot(along, along),
    distance: distanceToSegment(p, c[0], c[1]).distance,
  };
};

/** Shorten two runs, of which at least one is curved, to their crossing, if there is exactly one and the loop cut off is simple. */
function shortenedCurves(
  byWay: Join,
  corner: Corner,
  before: Side,
  after: Side,
  runBefore: Run,
  runAfter: Run,
): Join {
  if (runBefore.swallows || runAfter.swallows || runBefore === runAfter) return byWay;
  if (!canShorten(dot(corner.before.direction, corner.after.direction))) return byWay;
  const gates = [endOfCurve(runBefore.pieces.at(-1)!), corner.at, runAfter.pieces[0]![0]] as const;
  if (distance(gates[0], gates[1]) < 1e-9 || distance(gates[1], gates[2]) < 1e-9) return byWay;
  const crossing =
    crossingAtBluntCorner(corner, runBefore, runAfter) ??
    onlyCrossing(runBefore.pieces, runAfter.pieces, gates);
  if (!crossing) return byWay;
  const [wasTo, wasFrom] = [runBefore.freeTo, runAfter.freeFrom];
  if (!takeUp(before, after, runBefore, runAfter, crossing.at)) {
    runBefore.freeTo = wasTo;
    runAfter.freeFrom = wasFrom;
    return byWay;
  }
  runBefore.end = crossing.before;
  runAfter.start = crossing.after;
  return { kind: 'shortened', points: [crossing.at], meetsBefore: true, meetsAfter: true };
}

/** Cosine of the turn up to which a corner counts as blunt (about 30°), and the share of a piece that may be cut off there. */
const BLUNT = 0.866;
const MOST_CUT_OFF = 0.3;

/**
 * At a blunt corner the parallels cross close to where their end tangents do: found from there by Newton. Chords would be too
 * coarse for the smallest turns.
 */
function crossingAtBluntCorner(corner: Corner, runBefore: Run, runAfter: Run): RunCrossing | null {
  if (dot(corner.before.direction, corner.after.direction) < BLUNT) return null;
  const tangents = joinAt(corner, 1, true);
  if (tangents.kind !== 'shortened') return null;
  const [before, after] = [runBefore.pieces.at(-1)!, runAfter.pieces[0]!];
  const near = tangents.points[0]!;
  const cutOff = Math.max(distance(near, endOfCurve(before)), distance(near, after[0]));
  const speedBefore = Math.hypot(...derivativeAt(before, 1));
  const speedAfter = Math.hypot(...derivativeAt(after, 0));
  if (cutOff > MOST_CUT_OFF * Math.min(speedBefore, speedAfter)) return null;
  const found = crossingNear(before, after, 1 - cutOff / speedBefore, cutOff / speedAfter);
  if (!found || distance(found.at, near) > MOST_CUT_OFF * cutOff) return null;
  return {
    before: { index: runBefore.pieces.length - 1, t: found.t },
    after: { index: 0, t: found.u },
    at: found.at,
  };
}

/** All borders with their joins; `breaks` are where shaped joins are still open, each with the side that ends there. */
function assemble(
  sides: readonly Side[],
  runs: readonly Run[],
  joins: readonly Join[],
): { out: OffsetCurve[]; breaks: Break[] } {
  const out: OffsetCurve[] = [];
  const breaks: Break[] = [];
  const line = (a: Pt, b: Pt, origin: number): void => {
    if (distance(a, b) > 1e-9) out.push({ curve: [a, b], origin });
  };
  const n = sides.length;
  sides.forEach((side, i) => {
    const [run, join, next] = [runs[i]!, joins[i]!, runs[(i + 1) % n]!];
    const { origin } = side;
    if (!isCubic(side.curve)) line(run.straightStart, run.straightEnd, origin);
    else out.push(...curvedRun(run, joins[(i + n - 1) % n]!, join).map((curve) => ({ curve, origin })));
    if (join.kind === 'shaped') {
      breaks.push({ at: out.length, side: i });
      return;
    }
    const nextSide = sides[(i + 1) % n]!;
    let at = out.length > 0 ? endOfCurve(out.at(-1)!.curve) : run.straightEnd;
    for (const p of join.points) {
      line(at, p, origin);
      at = p;
    }
    const from = isCubic(nextSide.curve) ? startOfRun(next, join) : next.straightStart;
    line(at, from, join.meetsAfter ? nextSide.origin : origin);
  });
  return { out, breaks };
}

const takesOver = (join: Join): boolean => join.kind === 'smooth' || join.kind === 'shortened';

/** Where a curved run starts after the join that leads to it. */
const startOfRun = (run: Run, join: Join): Pt => (takesOver(join) ? join.points.at(-1)! : run.pieces[0]![0]);

/** The pieces left of a curved run; where it simply meets its neighbour its end is put on the common point. */
function curvedRun(run: Run, before: Join, after: Join): Curve[] {
  const pieces = run.pieces.slice(run.start.index, run.end.index + 1);
  const last = pieces.length - 1;
  const [t0, t1] = [run.start.t, run.end.t];
  if (last === 0) pieces[0] = subCurve(pieces[0]!, t0, t1);
  else {
    pieces[0] = subCurve(pieces[0]!, t0, 1);
    pieces[last] = subCurve(pieces[last]!, 0, t1);
  }
  if (takesOver(before)) pieces[0] = withEnds(pieces[0]!, before.points.at(-1)!, endOfCurve(pieces[0]!));
  if (takesOver(after)) pieces[last] = withEnds(pieces[last]!, pieces[last]![0], after.points[0]!);
  return pieces;
}

/** Make each curve start on the very point where the one before ends. */
function closed(curves: readonly OffsetCurve[]): OffsetCurve[] {
  return curves.map((c, i) => {
    const from = endOfCurve(curves[(i + curves.length - 1) % curves.length]!.curve);
    const rest = c.curve.slice(1);
    return { curve: [from, ...rest] as unknown as Curve, origin: c.origin };
  });
}
