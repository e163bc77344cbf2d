import { isCubic } from './curve';
import {
  alongDirection,
  bendTerms,
  cubicTerms,
  frameAt,
  newFrame,
  quadraticRoots,
  type CubicTerms,
} from './curveFrame';
import { stretchesFor } from './swallowedStretches';
import { OFFSET_FIT_AIM } from './tolerances';
import type { Cubic, Curve, Line, Pt } from './types';
import { distanceToSegment, subtract, unit } from './vector';

/** A curve moved sideways, in pieces that join end to start. */
export interface ParallelCurve {
  readonly pieces: readonly Curve[];
  /** Whether some stretch bends tighter than the width, so that pieces along the evolute stand in for it. */
  readonly swallows: boolean;
}

/**
 * The parallel of a curve at `width` mm outwards of a ring with positive signedArea (negative: inwards), that is on the
 * side of (dy, −dx) for direction of travel (dx, dy). Exact for a line; a cubic is re-fitted within OFFSET_FIT, with
 * exact ends and directions there (usually OFFSET_FIT_AIM is reached).
 *
 * Where the curve bends tighter than the width its parallel would run backwards. There the width is cut to the radius of
 * curvature, so the pieces follow the evolute (as chords): the area swept between curve and pieces is then covered
 * the right way round everywhere, and a clean-up by winding number removes them.
 */
export function parallelCurve(c: Curve, width: number): ParallelCurve {
  if (width === 0) return { pieces: [c], swallows: false };
  if (!isCubic(c)) return { pieces: [parallelLine(c, width)], swallows: false };
  const terms = cubicTerms(c);
  const pieces: Curve[] = [];
  let swallows = false;
  for (const { from, to, swallowed } of stretchesFor(terms, width)) {
    if (swallowed) alongEvolute(terms, width, from, to, pieces);
    else fitStretch(terms, width, from, to, 0, pieces);
    swallows ||= swallowed;
  }
  return { pieces: joined(pieces), swallows };
}

function parallelLine([a, b]: Line, width: number): Line {
  const [dx, dy] = unit(subtract(b, a));
  return [
    [a[0] + dy * width, a[1] - dx * width],
    [b[0] + dy * width, b[1] - dx * width],
  ];
}

/** Pieces of two neighbouring stretches meet at the same place up to rounding: make it the same point. */
function joined(pieces: Curve[]): Curve[] {
  for (let i = 1; i < pieces.length; i += 1) {
    const end = pieces[i - 1]!.at(-1)!;
    const [, ...rest] = pieces[i]!;
    pieces[i] = [end, ...rest] as unknown as Curve;
  }
  return pieces;
}

const EVOLUTE_CHORDS = 4;
const EVOLUTE_HALVINGS = 6;
const here = newFrame();

/** Point at min(width, radius of curvature) beside the curve, on the side of the width. */
function evolutePoint(c: CubicTerms, width: number, t: number): Pt {
  frameAt(c, t, here);
  const bend = Math.abs(here.turn);
  const radius = bend > 0 ? here.speed ** 3 / bend : here.speed > 0 ? Infinity : 0;
  const w = Math.sign(width) * Math.min(Math.abs(width), radius);
  return [here.x + here.ty * w, here.y - here.tx * w];
}

/** Chords along the evolute, each halved until the middle between lies within OFFSET_FIT_AIM of it. */
function alongEvolute(c: CubicTerms, width: number, from: number, to: number, out: Curve[]): void {
  let before = evolutePoint(c, width, from);
  const chordTo = (t0: number, t1: number, p: Pt, depth: number): void => {
    const middle = evolutePoint(c, width, (t0 + t1) / 2);
    if (depth < EVOLUTE_HALVINGS && distanceToSegment(middle, before, p).distance > OFFSET_FIT_AIM) {
      chordTo(t0, (t0 + t1) / 2, middle, depth + 1);
      chordTo((t0 + t1) / 2, t1, p, depth + 1);
      return;
    }
    if (before[0] !== p[0] || before[1] !== p[1]) out.push([before, p]);
    before = p;
  };
  for (let i = 0; i < EVOLUTE_CHORDS; i += 1) {
    const [t0, t1] = [
      from + ((to - from) * i) / EVOLUTE_CHORDS,
      from + ((to - from) * (i + 1)) / EVOLUTE_CHORDS,
    ];
    chordTo(t0, t1, evolutePoint(c, width, t1), 0);
  }
}

const WIDEST_TURN = (100 * Math.PI) / 180;
const DEEPEST = 14;
/** Shorter parallels than this are drawn straight, mm: their shape cannot show. */
const STRAIGHT_BELOW = 1e-3;

/** Fit the parallel between two parameters by one cubic, or split and fit both parts. */
function fitStretch(
  c: CubicTerms,
  width: number,
  from: number,
  to: number,
  depth: number,
  out: Curve[],
): void {
  frameAt(c, from, here);
  const [tx0, ty0] = [here.tx, here.ty];
  const start: Pt = [here.x + ty0 * width, here.y - tx0 * width];
  frameAt(c, to, here);
  const [tx1, ty1] = [here.tx, here.ty];
  const end: Pt = [here.x + ty1 * width, here.y - tx1 * width];
  const turn = Math.atan2(tx0 * ty1 - ty0 * tx1, tx0 * tx1 + ty0 * ty1);
  const last = depth >= DEEPEST;
  if (last || Math.abs(turn) <= WIDEST_TURN) {
    const fit = fitOnce(c, width, from, to, start, [tx0, ty0], end, [tx1, ty1], last);
    if (fit) {
      if (start[0] !== end[0] || start[1] !== end[1]) out.push(fit);
      return;
    }
  }
  const middle = splitAt(c, from, to, tx0 + tx1, ty0 + ty1, turn);
  fitStretch(c, width, from, middle, depth + 1, out);
  fitStretch(c, width, middle, to, depth + 1, out);
}

/** Split at an inflection if there is one, else where half the turn is made: both parts are then about as hard to fit. */
function splitAt(c: CubicTerms, from: number, to: number, dx: number, dy: number, turn: number): number {
  const span = to - from;
  const [low, high] = [from + 0.05 * span, to - 0.05 * span];
  const inflections = quadraticRoots(...bendTerms(c), low, high);
  if (inflections.length > 0) return inflections[0]!;
  const middle = (from + to) / 2;
  if (Math.abs(turn) < 0.02 || Math.abs(turn) > 3) return middle;
  return alongDirection(c, dx, dy, low, high)[0] ?? middle;
}

const SAMPLES = 8;
const WIDEST_GAP = 0.35;
const qx = new Float64Array(SAMPLES);
const qy = new Float64Array(SAMPLES);
const nx = new Float64Array(SAMPLES);
const ny = new Float64Array(SAMPLES);
const us = new Float64Array(SAMPLES);

/**
 * One cubic from start to end with the given directions, its two handle lengths fitted to the true parallel: first from
 * the speed of the parallel at its ends, (1 + curvature·width)·|c'|, then by least squares on the distances square to the
 * parallel (Gauss–Newton; two unknowns). Null if it stays outside OFFSET_FIT_AIM; with `whatever` the best is taken.
 */
function fitOnce(
  c: CubicTerms,
  width: number,
  from: number,
  to: number,
  p: Pt,
  t0: Pt,
  q: Pt,
  t1: Pt,
  whatever: boolean,
): Curve | null {
  const chord = Math.hypot(q[0] - p[0], q[1] - p[1]);
  sampleParallel(c, width, from, to);
  if (chord < STRAIGHT_BELOW && staysNear(p, STRAIGHT_BELOW)) return [p, q];
  if (!whatever && !isWellSampled(p, q)) return null;
  let alpha = handleLength(c, width, from, to, from, chord);
  let beta = handleLength(c, width, from, to, to, chord);
  let best: Cubic | null = null;
  for (let round = 0; round < 4; round += 1) {
    const candidate: Cubic = [
      p,
      [p[0] + alpha * t0[0], p[1] + alpha * t0[1]],
      [q[0] - beta * t1[0], q[1] - beta * t1[1]],
      q,
    ];
    const miss = farthestMiss(candidate);
    if (miss <= OFFSET_FIT_AIM) return candidate;
    best ??= candidate;
    if (round === 3 || miss > chord) break;
    [alpha, beta] = betterHandles(p, t0, q, t1, alpha, beta);
    if (!(alpha >= 0 && beta >= 0 && alpha < 4 * chord && beta < 4 * chord)) break;
    best = candidate;
  }
  return whatever ? (best ?? [p, q]) : null;
}

/** Points of the true parallel and its normals at even parameters between from and to, and a first guess where they fall. */
function sampleParallel(c: CubicTerms, width: number, from: number, to: number): void {
  for (let j = 0; j < SAMPLES; j += 1) {
    const u = (j + 1) / (SAMPLES + 1);
    frameAt(c, from + (to - from) * u, here);
    qx[j] = here.x + here.ty * width;
    qy[j] = here.y - here.tx * width;
    nx[j] = here.ty;
    ny[j] = -here.tx;
    us[j] = u;
  }
}

/** Whether no gap between neighbouring samples is a large part of the whole: near a hairpin most of the way lies in one gap. */
function isWellSampled(p: Pt, q: Pt): boolean {
  let [widest, whole, x, y] = [0, 0, p[0], p[1]];
  for (let j = 0; j <= SAMPLES; j += 1) {
    const [nextX, nextY] = j < SAMPLES ? [qx[j]!, qy[j]!] : q;
    const gap = Math.hypot(nextX - x, nextY - y);
    widest = Math.max(widest, gap);
    whole += gap;
    [x, y] = [nextX, nextY];
  }
  return widest < WIDEST_GAP * whole;
}

function staysNear(p: Pt, reach: number): boolean {
  for (let j = 0; j < SAMPLES; j += 1) if (Math.hypot(qx[j]! - p[0], qy[j]! - p[1]) > reach) return false;
  return true;
}

/** A third of the speed of the parallel at t; just inside where the curve has no handle and so no speed at its very end. */
function handleLength(
  c: CubicTerms,
  width: number,
  from: number,
  to: number,
  t: number,
  chord: number,
): number {
  frameAt(c, t, here);
  if (here.speed < 1e-6 * c.size) frameAt(c, t + ((from + to) / 2 - t) * 0.002, here);
  const l = ((to - from) / 3) * (here.speed + (width * here.turn) / (here.speed * here.speed));
  return l >= 0 && l < 2 * chord ? l : chord / 3;
}

/** Move each sample's parameter to its foot on the candidate (two Newton steps) and return the largest distance, mm. */
function farthestMiss([p0, p1, p2, p3]: Cubic): number {
  const cx = 3 * (p1[0] - p0[0]);
  const cy = 3 * (p1[1] - p0[1]);
  const bx = 3 * (p2[0] - 2 * p1[0] + p0[0]);
  const by = 3 * (p2[1] - 2 * p1[1] + p0[1]);
  const ax = p3[0] - p0[0] - cx - bx;
  const ay = p3[1] - p0[1] - cy - by;
  let most = 0;
  for (let j = 0; j < SAMPLES; j += 1) {
    let u = us[j]!;
    for (let step = 0; step < 2; step += 1) {
      const ex = ((ax * u + bx) * u + cx) * u + p0[0] - qx[j]!;
      const ey = ((ay * u + by) * u + cy) * u + p0[1] - qy[j]!;
      const vx = (3 * ax * u + 2 * bx) * u + cx;
      const vy = (3 * ay * u + 2 * by) * u + cy;
      const slope = vx * vx + vy * vy + ex * (6 * ax * u + 2 * bx) + ey * (6 * ay * u + 2 * by);
      if (slope <= 0) break;
      u = Math.min(1, Math.max(0, u - (ex * vx + ey * vy) / slope));
    }
    us[j] = u;
    const ex = ((ax * u + bx) * u + cx) * u + p0[0] - qx[j]!;
    const ey = ((ay * u + by) * u + cy) * u + p0[1] - qy[j]!;
    most = Math.max(most, ex * ex + ey * ey);
  }
  return Math.sqrt(most);
}

/** Gauss–Newton step for both handle lengths; lightly held to the old ones, which decide where the shape does not. */
function betterHandles(p: Pt, t0: Pt, q: Pt, t1: Pt, alpha: number, beta: number): [number, number] {
  const hold = 1e-7;
  let [aa, ab, bb, ar, br] = [hold, 0, hold, 0, 0];
  for (let j = 0; j < SAMPLES; j += 1) {
    const u = us[j]!;
    const v = 1 - u;
    const [b0, b1, b2, b3] = [v * v * v, 3 * v * v * u, 3 * v * u * u, u * u * u];
    const x = p[0] * (b0 + b1) + q[0] * (b2 + b3) + alpha * t0[0] * b1 - beta * t1[0] * b2 - qx[j]!;
    const y = p[1] * (b0 + b1) + q[1] * (b2 + b3) + alpha * t0[1] * b1 - beta * t1[1] * b2 - qy[j]!;
    const r = x * nx[j]! + y * ny[j]!;
    const ga = b1 * (t0[0] * nx[j]! + t0[1] * ny[j]!);
    const gb = -b2 * (t1[0] * nx[j]! + t1[1] * ny[j]!);
    aa += ga * ga;
    ab += ga * gb;
    bb += gb * gb;
    ar += ga * r;
    br += gb * r;
  }
  const det = aa * bb - ab * ab;
  return det > 0 ? [alpha - (bb * ar - ab * br) / det, beta - (aa * br - ab * ar) / det] : [alpha, beta];
}
