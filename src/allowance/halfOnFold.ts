import {
  type Line,
  type Path,
  type Pt,
  type Ring,
  crossStraight,
  distance,
  dot,
  endOf,
  flattenForArea,
  flattenRing,
  labelSpot,
  pathLength,
  perpendicular,
  pointAtLength,
  pointOn,
  reversePath,
  signedArea,
  startOf,
  subPath,
  subdivide,
  subtract,
  unit,
} from '../geometry';
import type { Panel } from '../panels';
import { type Piece, remember } from '../pattern';
import { type CutPiece, grainThrough } from './cutPiece';
import { movedNotch } from './marks';
import { imageOf } from './mirrorImage';

/** The half of a symmetric panel that is laid on the fold of the cloth, on the side that was traced. */
export interface HalfOnFold extends CutPiece {
  /** No allowance there. */
  readonly foldEdge: Line;
}

/** A point this near the fold lies on it, mm. */
const ON_FOLD = 0.5;
/** How far the fold is drawn on over a panel's outline, mm. */
const BEYOND = 10;

/** Signed distance from the fold, positive on the traced side, mm. */
type Away = (p: Pt) => number;

function awayFrom(fold: Line, traced: Ring): Away {
  const square = perpendicular(unit(subtract(fold[1], fold[0])));
  const away: Away = (p) => dot(subtract(p, fold[0]), square);
  const farthest = traced.reduce((most, c) => (Math.abs(away(c[0])) > Math.abs(most) ? away(c[0]) : most), 0);
  return farthest < 0 ? (p) => -away(p) : away;
}

const middleOf = (path: Path): Pt => pointAtLength(path, pathLength(path) / 2).point;

/** The part of a ring on the traced side of the fold; null where that is not one part. */
function halfRing(ring: Ring, fold: Line, away: Away): Ring | null {
  const along = unit(subtract(fold[1], fold[0]));
  const places = crossStraight(ring, fold[0], along).map((c) => c.along);
  if (places.length < 2) return null;
  const at = (s: number): Pt => [fold[0][0] + along[0] * s, fold[0][1] + along[1] * s];
  const cut: Path = [[at(Math.min(...places) - BEYOND), at(Math.max(...places) + BEYOND)]];
  const { faces, edges } = subdivide(ring, [cut]);
  const halves = faces
    .map((face) =>
      face.ring.flatMap(({ edge, forward }): Path => {
        const { curves } = edges[edge]!;
        return forward ? curves : reversePath(curves);
      }),
    )
    .filter((r) => r.some((c) => away(c[0]) > ON_FOLD));
  return halves.length === 1 ? halves[0]! : null;
}

/** The longest part of an open path on the traced side; null where none of it is. */
function tracedPart(path: Path, fold: Line, away: Away): Path | null {
  const along = unit(subtract(fold[1], fold[0]));
  const cuts = crossStraight(path, fold[0], along).sort((a, b) => a.index - b.index || a.t - b.t);
  const stops = [{ index: 0, t: 0 }, ...cuts, { index: path.length - 1, t: 1 }];
  const parts = stops.slice(1).flatMap((to, i): Path[] => {
    const from = stops[i]!;
    return distance(pointOn(path, from), pointOn(path, to)) < ON_FOLD ? [] : [subPath(path, from, to)];
  });
  const own = parts.filter((p) => p.length > 0 && away(middleOf(p)) > 0);
  return own.toSorted((a, b) => pathLength(b) - pathLength(a))[0] ?? null;
}

/** Points of both halves on the traced one, each once. */
function folded<T>(marks: readonly T[], at: (mark: T) => Pt, move: (mark: T) => T, away: Away): T[] {
  const own = marks.filter((m) => away(at(m)) >= -ON_FOLD);
  const others = marks.filter((m) => away(at(m)) < -ON_FOLD).map(move);
  return [...own, ...others.filter((o) => !own.some((m) => distance(at(m), at(o)) < ON_FOLD * 2))];
}

function edgeLabelsOf(panel: Panel, cut: CutPiece, fold: Line, away: Away): CutPiece['edgeLabels'] {
  return panel.boundary.flatMap((edge, i) => {
    const part = tracedPart(edge.path, fold, away);
    if (!part) return [];
    const length = pathLength(part);
    const { point, direction } = pointAtLength(part, length / 2);
    return [{ ...cut.edgeLabels[i]!, at: point, inward: perpendicular(direction), length }];
  });
}

/** The straight stretch of a half ring that lies on the fold. */
function foldStretch(half: Ring, away: Away): Line | null {
  const on = half.filter((c) => Math.abs(away(startOf([c]))) < 0.01 && Math.abs(away(endOf([c]))) < 0.01);
  const longest = on.toSorted((a, b) => pathLength([b]) - pathLength([a]))[0];
  return longest ? [startOf([longest]), endOf([longest])] : null;
}

/**
 * What is printed of a panel that is cut on the fold: its half on the traced side, straight along the fold and without allowance there,
 * with the marks of both halves.
 * @returns null for a panel that cannot be laid on the fold: with an inset, or whose half is in several parts
 */
export const halfOnFold = remember((panel: Panel, cut: CutPiece, piece: Piece): HalfOnFold | null => {
  const { fold } = piece;
  if (!fold || panel.holeRings.length > 0 || cut.holes.length > 0) return null;
  const away = awayFrom(fold, piece.outline);
  const [stitching, cutting] = [halfRing(cut.stitching, fold, away), halfRing(cut.cutting, fold, away)];
  const foldEdge = cutting && foldStretch(cutting, away);
  if (!stitching || !cutting || !foldEdge) return null;
  const image = imageOf(fold);
  const spot = labelSpot(flattenRing(stitching));
  return {
    ...cut,
    stitching,
    cutting,
    foldEdge,
    cutArea: signedArea(cutting),
    cuttingPoints: flattenForArea(cutting),
    notches: folded(
      cut.notches,
      (n) => n.at,
      (n) => movedNotch(n, image),
      away,
    ),
    clips: folded(cut.clips, (p) => p, image, away),
    grain: grainThrough(spot.at, spot.radius, cut.grain),
    label: spot,
    edgeLabels: edgeLabelsOf(panel, cut, fold, away),
  };
});
