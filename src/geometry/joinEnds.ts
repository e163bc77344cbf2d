import type { CurveIndex } from './curveIndex';
import type { ChordedPath, DrawnPath } from './drawnPath';
import {
  boxRound,
  CHORD_DOUBT,
  chordsIn,
  crossedByTail,
  lineEndsOf,
  nearestOf,
  straightOn,
  type LineEnd,
  type Target,
} from './lineEnds';
import { SAME_POINT } from './tolerances';
import type { Line, Pt } from './types';
import { cross, distance, distanceToSegment, subtract } from './vector';

/** What becomes of an end. */
interface Fate {
  readonly end: LineEnd;
  /** open: meets nothing yet; touching: already there; overshot: has crossed what it meets; drawn on: gets a stretch to `target`. */
  state: 'open' | 'touching' | 'overshot' | 'drawn on';
  target: Pt | null;
  nearest: Target | null;
  /** Lines that this one crosses where both are about to end: not to be joined a second time. */
  readonly crossedMates: readonly number[];
}

/** Closer than this, mm, the end itself counts as on the curve: half of what noding draws together. */
const TOUCHING = SAME_POINT / 2;

/**
 * Draw the ends of open lines on to what they nearly meet: straight on where that hits the outline, another line or
 * the line itself within the gap, else to the nearest point; ends near each other meet at one point.
 * An end that touches or overshoots something is left alone (overshoots are trimmed later).
 * @param chords the outline first, then the lines, with an index of the same
 * @returns the drawn paths, some with a straight stretch added at an end (those are new objects)
 */
export function joinEnds(
  chords: readonly ChordedPath[],
  index: CurveIndex,
  gap: number,
): readonly DrawnPath[] {
  const ends = chords.map((c, path) => (gap > 0 ? lineEndsOf(c, path, gap) : []));
  const endsOf = (path: number): readonly LineEnd[] => ends[path]!;
  const fates = ends.flat().map((end) => firstFate(chords, index, endsOf, end, gap));
  const near = neighboursOf(fates, gap);
  meetOvershot(fates, near, gap);
  meetAtBorder(fates, near, gap);
  for (const fate of fates) if (fate.state === 'open') drawOn(fate, near(fate), gap);
  const added = new Map<string, Line>();
  for (const { end, state, target } of fates) {
    if (state !== 'drawn on' || distance(target!, end.point) === 0) continue;
    added.set(`${end.path} ${end.end}`, end.end === 'start' ? [target!, end.point] : [end.point, target!]);
  }
  return chords.map(({ drawn }, path) =>
    withAdded(drawn, added.get(`${path} start`), added.get(`${path} end`)),
  );
}

/** Look round an end: has it met something, does something lie straight on, what lies nearest. */
function firstFate(
  chords: readonly ChordedPath[],
  index: CurveIndex,
  endsOf: EndsOf,
  end: LineEnd,
  gap: number,
): Fate {
  const near = chordsIn(boxRound(end, gap), chords, index, end, gap);
  const crossed = crossedByTail(end, near);
  // Where two lines cross just before both end, the later one ends on the earlier one, which may still reach farther.
  const crossedMates = crossed
    .filter((c) => c.path > end.path && isMutual(c, endsOf(c.path), end, gap))
    .map((c) => c.path);
  // Lines that end in the very same point do not hold each other: together they may still reach farther.
  const endMates = near.filter((c) => endsOf(c.path).some((e) => isSameEnd(e, end))).map((c) => c.path);
  const mates = [...crossedMates, ...endMates];
  const fate: Fate = { end, state: 'open', target: null, nearest: null, crossedMates };
  const overshoot = Math.min(...crossed.filter((c) => !mates.includes(c.path)).map((c) => c.gap));
  let hit: Target | null = null;
  for (const c of near) {
    if (mates.includes(c.path)) continue;
    const nearest = nearestOf(c, end, gap);
    const ahead = straightOn(c, end, gap);
    if ((nearest && nearest.gap <= TOUCHING) || (ahead && ahead.gap <= TOUCHING)) {
      return { ...fate, state: 'touching', target: end.point };
    }
    if (nearest && (!fate.nearest || nearest.gap < fate.nearest.gap)) fate.nearest = nearest;
    if (ahead && (!hit || ahead.gap < hit.gap)) hit = ahead;
  }
  // Between something just crossed and something just ahead, the end belongs to the nearer one.
  if (hit && hit.gap < overshoot) return { ...fate, state: 'drawn on', target: hit.point };
  return overshoot < Infinity ? { ...fate, state: 'overshot' } : fate;
}

type EndsOf = (path: number) => readonly LineEnd[];

const isMutual = (c: Target, ends: readonly LineEnd[], own: LineEnd, gap: number): boolean =>
  ends.some((e) => e !== own && distance(e.point, c.point) <= gap && isOnTail(c.point, e));

const isSameEnd = (e: LineEnd, own: LineEnd): boolean =>
  e !== own && distance(e.point, own.point) <= TOUCHING;

const isOnTail = (p: Pt, e: LineEnd): boolean =>
  e.tail.some((q, i) => i > 0 && distanceToSegment(p, e.tail[i - 1]!, q).distance <= CHORD_DOUBT);

/** Finds the fates of ends no farther than twice the gap from an end, in order. */
function neighboursOf(fates: readonly Fate[], gap: number): (fate: Fate) => readonly Fate[] {
  const cell = 2 * gap;
  const column = (v: number): number => Math.floor(v / cell);
  const cells = new Map<string, number[]>();
  fates.forEach(({ end: { point } }, i) => {
    const key = `${column(point[0])} ${column(point[1])}`;
    const list = cells.get(key);
    if (list) list.push(i);
    else cells.set(key, [i]);
  });
  return ({ end: { point } }) => {
    const [x, y] = [column(point[0]), column(point[1])];
    const found: number[] = [];
    for (let i = x - 1; i <= x + 1; i += 1) {
      for (let j = y - 1; j <= y + 1; j += 1) found.push(...(cells.get(`${i} ${j}`) ?? []));
    }
    return found.sort((a, b) => a - b).map((i) => fates[i]!);
  };
}

/** An end that another line will be drawn on to just behind has met that line: what lies beyond is an overshoot. */
function meetOvershot(fates: readonly Fate[], near: (fate: Fate) => readonly Fate[], gap: number): void {
  for (const fate of fates) {
    if (fate.state !== 'open') continue;
    const isOvershot = near(fate).some(
      (o) =>
        o !== fate &&
        o.state === 'drawn on' &&
        distance(o.target!, fate.end.point) <= gap &&
        isOnTail(o.target!, fate.end),
    );
    if (isOvershot) fate.state = 'overshot';
  }
}

/** Ends that come within the gap of each other and reach the same thing within the gap reach it at one point. */
function meetAtBorder(fates: readonly Fate[], near: (fate: Fate) => readonly Fate[], gap: number): void {
  const isDone = new Set<Fate>();
  for (const fate of fates) {
    if (fate.state !== 'drawn on') continue;
    const mate = near(fate).find(
      (o) =>
        o.end.path !== fate.end.path &&
        (o.state === 'touching' || isDone.has(o)) &&
        distance(o.target!, fate.end.point) <= gap &&
        distance(o.target!, fate.target!) <= gap,
    );
    if (mate) fate.target = mate.target;
    isDone.add(fate);
  }
}

/** Draw an end on to another end near it, or to the nearest point of anything. */
function drawOn(fate: Fate, fates: readonly Fate[], gap: number): void {
  const { end, nearest } = fate;
  let mate: Fate | null = null;
  let shortest = nearest ? nearest.gap + SAME_POINT : gap;
  for (const other of fates) {
    if (other === fate || other.state === 'overshot' || fate.crossedMates.includes(other.end.path)) continue;
    if (other.end.path === end.path && end.isShort) continue;
    const away = distance(other.target ?? other.end.point, end.point);
    if (away <= shortest) [mate, shortest] = [other, away];
  }
  if (mate) meet(fate, mate, gap);
  else if (nearest) [fate.state, fate.target] = ['drawn on', nearest.point];
}

/** Two ends meet where both, drawn straight on, would cross; else the later one goes to the earlier one. */
function meet(fate: Fate, mate: Fate, gap: number): void {
  const corner = mate.state === 'open' ? cornerOf(fate.end, mate.end, gap) : null;
  if (corner) {
    for (const f of [fate, mate]) [f.state, f.target] = ['drawn on', corner];
    return;
  }
  [fate.state, fate.target] = ['drawn on', mate.target ?? mate.end.point];
  if (mate.state === 'open') [mate.state, mate.target] = ['touching', mate.end.point];
}

function cornerOf(e: LineEnd, f: LineEnd, gap: number): Pt | null {
  const turn = cross(e.ahead, f.ahead);
  if (Math.abs(turn) < 1e-3) return null;
  const apart = subtract(f.point, e.point);
  const [s, u] = [cross(apart, f.ahead) / turn, cross(apart, e.ahead) / turn];
  if (s < 0 || u < 0 || s > gap || u > gap) return null;
  return [e.point[0] + e.ahead[0] * s, e.point[1] + e.ahead[1] * s];
}

function withAdded(d: DrawnPath, before: Line | undefined, after: Line | undefined): DrawnPath {
  if (!before && !after) return d;
  const path = [...(before ? [before] : []), ...d.path, ...(after ? [after] : [])];
  return { ...d, path, added: before ? 1 : 0 };
}
