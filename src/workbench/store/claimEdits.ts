import {
  endOf,
  isCubic,
  length,
  nearestOnPath,
  reversePath,
  startOf,
  subtract,
  type Line,
  type Path,
  type Pt,
} from '../../geometry';
import type { Dart, Design, Piece, PieceId } from '../../pattern';
import type { Edit } from './documentSlice';
import { addLine, freshLineId } from './lineEdits';

/** What an unnamed shape of a tracing may turn out to be. */
export const CLAIMS = ['panel line', 'dart', 'notch', 'level', 'grain'] as const;
export type Claim = (typeof CLAIMS)[number];

const corners = (path: Path): Pt[] => [...path.map((c) => c[0]), ...(path.length > 0 ? [endOf(path)] : [])];
const isAllStraight = (path: Path): boolean => path.every((c) => !isCubic(c));

function dartFrom(path: Path, closed: boolean): Dart | null {
  const points = closed ? corners(path).slice(0, path.length) : corners(path);
  if (!isAllStraight(path)) return null;
  if (points.length === 4 && closed)
    return { kind: 'double', points: points as unknown as readonly [Pt, Pt, Pt, Pt] };
  if (points.length !== 3) return null;
  return { kind: 'single', mouth: [points[0]!, points[2]!], point: points[1]! };
}

/** A closed triangle's point is its corner farthest from the outline. */
function pointLast(piece: Piece, dart: Dart): Dart {
  if (dart.kind === 'double') return dart;
  const three = [dart.mouth[0], dart.point, dart.mouth[1]];
  const away = three.map((p) => nearestOnPath(piece.outline, p).distance);
  const tip = away.indexOf(Math.max(...away));
  return { kind: 'single', mouth: [three[(tip + 2) % 3]!, three[(tip + 1) % 3]!], point: three[tip]! };
}

const straightLine = (path: Path): Line | null =>
  path.length === 1 && !isCubic(path[0]!) ? (path[0] as Line) : null;

const changePiece = (design: Design, id: PieceId, change: (piece: Piece) => Piece): Design => ({
  ...design,
  pieces: design.pieces.map((piece) => (piece.id === id ? change(piece) : piece)),
});

/** Claims that a shape can be, by its form alone. */
export function possibleClaims(path: Path, closed: boolean): Claim[] {
  const straight = !closed && straightLine(path) !== null;
  const short = straight && length(subtract(endOf(path), startOf(path))) <= 25;
  return CLAIMS.filter((claim) => {
    if (claim === 'panel line') return !closed;
    if (claim === 'dart') return dartFrom(path, closed) !== null;
    return claim === 'notch' ? short : straight;
  });
}

/** Take an unnamed shape as what a person says it is. Gives back the same design where it cannot be that. */
export const claimShape =
  (id: PieceId, claim: Claim, path: Path, closed: boolean, levelName = 'level'): Edit =>
  (design) => {
    const piece = design.pieces.find((p) => p.id === id);
    if (!piece || !possibleClaims(path, closed).includes(claim)) return design;
    if (claim === 'panel line') return addLine(freshLineId(design), id, path, false)(design);
    if (claim === 'dart')
      return changePiece(design, id, (p) => ({
        ...p,
        darts: [...p.darts, pointLast(p, dartFrom(path, closed)!)],
      }));
    const line = straightLine(path)!;
    if (claim === 'grain') return changePiece(design, id, (p) => ({ ...p, grain: line }));
    if (claim === 'level')
      return changePiece(design, id, (p) => ({ ...p, levels: [...p.levels, { name: levelName, line }] }));
    const touching =
      nearestOnPath(piece.outline, line[0]).distance <= nearestOnPath(piece.outline, line[1]).distance
        ? line
        : (reversePath([line])[0] as Line);
    return changePiece(design, id, (p) => ({
      ...p,
      notches: [...p.notches, { at: touching[0], inner: touching[1] }],
    }));
  };

/** Straight stretches of an outline long enough to be a fold, mm. */
const LEAST_FOLD = 50;
export const foldChoices = (piece: Piece): Line[] =>
  piece.outline.filter((c): c is Line => !isCubic(c) && length(subtract(c[1], c[0])) >= LEAST_FOLD);

/** Say on which edge a half piece lies on the fold; null makes it a whole one. */
export const foldAlong =
  (id: PieceId, fold: Line | null): Edit =>
  (design) =>
    design.pieces.some((p) => p.id === id && p.fold !== fold)
      ? changePiece(design, id, (p) => ({ ...p, fold }))
      : design;
