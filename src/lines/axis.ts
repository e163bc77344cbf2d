import {
  type Line,
  type Pt,
  distance,
  dot,
  endOf,
  nearestOnPath,
  startOf,
  subtract,
  unit,
} from '../geometry';
import {
  type Base,
  type WholePiece,
  placeAtSewn,
  sewnEdge,
  sewnLengthAt,
  grainFrame,
  heightOf,
  placeAcross,
  pointInGrain,
} from '../pattern';
import { edgeAsSewn, findEdge, meetsOf, nearestPlace, runsAlong } from './edgeOnPiece';
import { type Lost, gone, isLost, missed, sayBase, sayEdge } from './lost';
import { findLevel, levelHeight } from './levelOf';

/**
 * What a reach is measured on: heights along the grain, places across it, or the sewn length of an edge (index). `at` is
 * where it is measured: edges that are not straight are met there.
 */
export type Axis =
  | { readonly kind: 'down'; readonly at: Pt }
  | { readonly kind: 'over'; readonly at: Pt }
  | { readonly kind: 'edge'; readonly edge: number; readonly at: Pt };

/** Where a base lies on an axis, mm, and which way is positive from there. */
export interface BasePlace {
  readonly place: number;
  readonly sign: 1 | -1;
}

const CENTRE_EDGE = /^(cent(re|er) (front|back)|c\.?f\.?|c\.?b\.?)$/i;

/** Where the centre runs: the fold, or an edge named centre front or centre back; null when the piece has none. */
export function centreOf(whole: WholePiece): Line | { readonly edge: number } | null {
  if (whole.foldLine) return whole.foldLine;
  const edge = whole.edges.findIndex((e) => CENTRE_EDGE.test(e.plainName));
  return edge < 0 ? null : { edge };
}

/** Place of a point on an axis, mm. */
export function axisValue(whole: WholePiece, axis: Axis, p: Pt): number {
  if (axis.kind === 'down') return heightOf(whole, p);
  if (axis.kind === 'over') return placeAcross(whole, p);
  const sewn = sewnEdge(whole, axis.edge);
  return sewnLengthAt(sewn, nearestOnPath(sewn.path, p));
}

/** An end of an edge; lost when the edge is gone. */
function endPoint(whole: WholePiece, base: Base & { kind: 'edge end' }): Pt | Lost {
  const sewn = edgeAsSewn(whole, base);
  if (!sewn) return gone(sayEdge(base.name));
  return base.end === 'first' ? startOf(sewn.path) : endOf(sewn.path);
}

/** Where an edge is met at a height (`over`) or at a place across (`down`). */
function edgeMeets(whole: WholePiece, edge: number, axis: Axis & { kind: 'down' | 'over' }): Pt | null {
  const { along, across } = grainFrame(whole);
  const { path } = sewnEdge(whole, edge);
  return nearestPlace(meetsOf(path, axis.at, axis.kind === 'over' ? across : along), axis.at)?.point ?? null;
}

function centreOnGrain(whole: WholePiece, at: Pt): number | Lost {
  const centre = centreOf(whole);
  if (!centre) return gone('the centre');
  if ('edge' in centre) {
    const met = edgeMeets(whole, centre.edge, { kind: 'over', at });
    return met ? placeAcross(whole, met) : missed('the centre');
  }
  const [a, b] = centre;
  const fall = heightOf(whole, b) - heightOf(whole, a);
  if (Math.abs(fall) < 1e-9) return missed('the centre');
  const t = (heightOf(whole, at) - heightOf(whole, a)) / fall;
  return placeAcross(whole, a) + (placeAcross(whole, b) - placeAcross(whole, a)) * t;
}

const positive = (place: number): BasePlace => ({ place, sign: 1 });
const numbered = (n: number | Lost): BasePlace | Lost => (isLost(n) ? n : positive(n));

function baseOnGrain(
  whole: WholePiece,
  axis: Axis & { kind: 'down' | 'over' },
  base: Base,
): BasePlace | Lost {
  const value = (p: Pt): number => axisValue(whole, axis, p);
  if (base.kind === 'level') {
    const level = findLevel(whole.levels, base.name);
    if (!level) return gone(sayBase(base));
    return axis.kind === 'down' ? positive(levelHeight(whole, level)) : missed(sayBase(base));
  }
  if (base.kind === 'centre')
    return axis.kind === 'over' ? numbered(centreOnGrain(whole, axis.at)) : missed('the centre');
  if (base.kind === 'edge end') {
    const p = endPoint(whole, base);
    return isLost(p) ? p : positive(value(p));
  }
  const edge = findEdge(whole, base);
  if (edge === null) return gone(sayEdge(base.name));
  const met = edgeMeets(whole, edge, axis);
  return met ? positive(value(met)) : missed(sayBase(base));
}

/** On an edge: a place with the direction away from it that counts as positive. */
function baseOnEdge(whole: WholePiece, axis: Axis & { kind: 'edge' }, base: Base): BasePlace | Lost {
  const sewn = sewnEdge(whole, axis.edge);
  const inwards = (place: number): BasePlace => ({ place, sign: place <= sewn.length / 2 ? 1 : -1 });
  const touching = (p: Pt): BasePlace => inwards(sewnLengthAt(sewn, nearestOnPath(sewn.path, p)));
  const { along, across } = grainFrame(whole);
  if (base.kind === 'edge end') {
    if (findEdge(whole, base) === axis.edge)
      return base.end === 'first' ? positive(0) : { place: sewn.length, sign: -1 };
    const p = endPoint(whole, base);
    return isLost(p) ? p : touching(p);
  }
  if (base.kind === 'edge') {
    const other = edgeAsSewn(whole, base);
    if (!other) return gone(sayEdge(base.name));
    const ends = [startOf(sewn.path), endOf(sewn.path)];
    const away = ends.map((p) => nearestOnPath(other.path, p).distance);
    return away[0]! <= away[1]! ? positive(0) : { place: sewn.length, sign: -1 };
  }
  const straight = base.kind === 'level' ? levelStraight(whole, base.name) : centreStraight(whole);
  if (isLost(straight)) return straight;
  const met = nearestPlace(meetsOf(sewn.path, straight.origin, straight.direction), axis.at);
  if (!met) return missed(sayBase(base));
  const forward = runsAlong(sewn.path, met, base.kind === 'level' ? along : across);
  return { place: sewnLengthAt(sewn, met), sign: forward ? 1 : -1 };
}

interface Straight {
  readonly origin: Pt;
  readonly direction: Pt;
}

function levelStraight(whole: WholePiece, name: string): Straight | Lost {
  const level = findLevel(whole.levels, name);
  if (!level) return gone(sayBase({ kind: 'level', name }));
  return {
    origin: pointInGrain(whole, levelHeight(whole, level), 0),
    direction: grainFrame(whole).across,
  };
}

function centreStraight(whole: WholePiece): Straight | Lost {
  const centre = centreOf(whole);
  if (!centre) return gone('the centre');
  const [a, b] = 'edge' in centre ? chordOf(whole, centre.edge) : centre;
  return distance(a, b) > 0 ? { origin: a, direction: unit(subtract(b, a)) } : missed('the centre');
}

function chordOf(whole: WholePiece, edge: number): Line {
  const { path } = sewnEdge(whole, edge);
  return [startOf(path), endOf(path)];
}

/** Where a base lies on an axis; lost when it is gone or does not meet it. */
export const basePlace = (whole: WholePiece, axis: Axis, base: Base): BasePlace | Lost =>
  axis.kind === 'edge' ? baseOnEdge(whole, axis, base) : baseOnGrain(whole, axis, base);

/** The point at a place on an edge's sewn length; lost past its ends. */
export function pointOnEdge(whole: WholePiece, edge: number, place: number): Pt | Lost {
  const sewn = sewnEdge(whole, edge);
  const slack = 0.01;
  if (place < -slack || place > sewn.length + slack) return missed(sayEdge(whole.edges[edge]!.plainName));
  return placeAtSewn(sewn, Math.min(sewn.length, Math.max(0, place))).point;
}

/** Steepness of an edge where a point lies on it: 1 runs with the grain, 0 across it. */
export function steepness(whole: WholePiece, edge: number, p: Pt): number {
  const { path } = sewnEdge(whole, edge);
  const curve = path[nearestOnPath(path, p).index]!;
  return Math.abs(dot(unit(subtract(curve[curve.length - 1]!, curve[0])), grainFrame(whole).along));
}
