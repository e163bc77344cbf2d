import {
  JOIN_GAP,
  type Line,
  type Pt,
  type Ring,
  applyMatrix,
  distance,
  mirrorAcross,
  nearestOnPath,
  pathBox,
} from '../geometry';
import type { Level, Notch, Piece } from './design';
import { type Problem, problem } from './problem';

/** Notches that touch the whole piece's outline or its fold, with their images; a problem for each that does not. */
export function wholeNotches(piece: Piece, outline: Ring): { notches: Notch[]; problems: Problem[] } {
  const rings = piece.fold ? [outline, [piece.fold]] : [outline];
  const away = (p: Pt): number => Math.min(...rings.map((ring) => nearestOnPath(ring, p).distance));
  const near = piece.notches.map((n) => ({ n, gap: away(n.at) }));
  const problems = near
    .filter(({ gap }) => gap > JOIN_GAP)
    .map(({ n, gap }) => problem('notch-off-outline', { gap }, piece.name, n.at));
  const kept = near.filter(({ gap }) => gap <= JOIN_GAP).map(({ n }) => n);
  if (!piece.fold) return { notches: kept, problems };
  const m = mirrorAcross(piece.fold);
  const images = kept
    .filter((n) => distance(n.at, applyMatrix(m, n.at)) > JOIN_GAP)
    .map((n): Notch => ({ at: applyMatrix(m, n.at), inner: applyMatrix(m, n.inner) }));
  return { notches: [...kept, ...images], problems };
}

/** A level on a half piece reaches over the whole one: the two farthest of its ends and their images. */
export function wholeLevel(level: Level, fold: Line | null): Level {
  if (!fold) return level;
  const m = mirrorAcross(fold);
  const ends = [...level.line, ...level.line.map((p) => applyMatrix(m, p))];
  let line = level.line;
  for (const a of ends) for (const b of ends) if (distance(a, b) > distance(...line)) line = [a, b];
  return { name: level.name, line: line[0][0] <= line[1][0] ? line : [line[1], line[0]] };
}

/** Traced grain; else along the fold; else straight down through the middle of the piece. */
export function grainOf(piece: Piece, outline: Ring): Line {
  if (piece.grain) return piece.grain;
  if (piece.fold) return piece.fold[0][1] <= piece.fold[1][1] ? piece.fold : [piece.fold[1], piece.fold[0]];
  const box = pathBox(outline);
  const x = (box.minX + box.maxX) / 2;
  return [
    [x, box.minY],
    [x, box.maxY],
  ];
}
