import { type Pt, UNMOVED, distance, lengthAt, nearestOnPath, pathLength } from '../geometry';
import type { LineTies, PlaceOnLine, Reach, Tie, WholePiece } from '../pattern';
import type { Axis } from './axis';
import { findEdge, onItsSide } from './edgeOnPiece';
import { isLost } from './lost';
import { type Bases, measureReach } from './reach';
import { edgeAxis, edgeTie } from './tiesFor';
import { type TieGround, tiePoint } from './tiePoint';
import { basesFor } from './basesFor';

/** A measured part of a tie: along an edge, or how far down and how far across a point inside lies. */
export type ReachPart = 'edge' | 'down' | 'over';

/** The measured parts of a tie, in the order they are read. */
export function reachesOf(tie: Tie): readonly { readonly part: ReachPart; readonly reach: Reach }[] {
  if (tie.kind === 'edge') return [{ part: 'edge', reach: tie.reach }];
  if (tie.kind === 'line' && tie.place.kind !== 'share')
    return [{ part: tie.place.kind, reach: tie.place.reach }];
  if (tie.kind !== 'inside') return [];
  return [
    { part: 'down', reach: tie.down },
    { part: 'over', reach: tie.over },
  ];
}

/** What a part of a tie is measured on; null when its edge is gone. */
export function axisOf(whole: WholePiece, tie: Tie, part: ReachPart, at: Pt): Axis | null {
  if (part !== 'edge') return { kind: part, at };
  if (tie.kind !== 'edge') return null;
  const edge = findEdge(whole, tie);
  return edge === null ? null : edgeAxis(edge, tie.along, at);
}

/** Everything a part of a tie can be measured from at its point. */
export function choicesFor(whole: WholePiece, tie: Tie, part: ReachPart, at: Pt): readonly Bases[] {
  const axis = axisOf(whole, tie, part, at);
  return axis ? basesFor(whole, axis) : [];
}

/** A tie with one measured part changed. */
export function withReach(tie: Tie, part: ReachPart, reach: Reach): Tie {
  if (tie.kind === 'edge') return { ...tie, reach };
  if (tie.kind === 'line' && tie.place.kind !== 'share') return { ...tie, place: { ...tie.place, reach } };
  if (tie.kind !== 'inside') return tie;
  return part === 'down' ? { ...tie, down: reach } : { ...tie, over: reach };
}

/** The same point measured from other bases; null where they do not measure there. */
export function measuredFrom(whole: WholePiece, tie: Tie, part: ReachPart, bases: Bases, at: Pt): Tie | null {
  const axis = axisOf(whole, tie, part, at);
  const reach = axis && measureReach(whole, axis, bases, at);
  return reach && !isLost(reach) ? withReach(tie, part, reach) : null;
}

/** The same point of an edge measured another way: along it, along the grain, or across. Null where there is nothing to measure from. */
export function measuredAlong(
  whole: WholePiece,
  tie: Tie & { kind: 'edge' },
  along: (Tie & { kind: 'edge' })['along'],
  at: Pt,
): Tie | null {
  const edge = findEdge(whole, tie);
  if (edge === null) return null;
  for (const bases of basesFor(whole, edgeAxis(edge, along, at))) {
    const found = edgeTie({ whole }, edge, along, bases, at);
    if (found) return found;
  }
  return null;
}

/** The same point of another line measured another way: as a share of it, by height, or across. Null where it is not met so. */
export function measuredOnLine(
  ground: TieGround,
  tie: Tie & { kind: 'line' },
  kind: PlaceOnLine['kind'],
  at: Pt,
): Tie | null {
  if (kind === 'share') {
    const path = ground.pathOf(tie.line);
    if (!path || path.length === 0) return null;
    const other = onItsSide(ground.whole, path, tie.mirrored);
    const share = lengthAt(other, nearestOnPath(other, at)) / pathLength(other);
    return { ...tie, place: { kind, share } };
  }
  for (const bases of basesFor(ground.whole, { kind, at })) {
    const reach = measureReach(ground.whole, { kind, at }, bases, at);
    if (isLost(reach)) continue;
    const placed: Tie = { ...tie, place: { kind, reach } };
    const back = tiePoint(ground, placed, at);
    if (!isLost(back) && distance(back, at) < UNMOVED) return placed;
  }
  return null;
}

/** Ties with that of one node changed. */
export const withNode = (ties: LineTies, node: number, tie: Tie | null): LineTies => ({
  ...ties,
  nodes: ties.nodes.map((t, i) => (i === node ? tie : t)),
});
