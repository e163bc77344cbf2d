import {
  endOf,
  flattenRing,
  isCubic,
  length,
  nearestOnPath,
  pathBox,
  reversePath,
  signedArea,
  startOf,
  subtract,
  whereInRing,
  type Line,
  type Path,
  type Pt,
  type Ring,
} from '../../geometry';
import { readDart, ringFault } from '../../files';
import type { Dart, Design, Piece, PieceId } from '../../pattern';
import type { Edit } from './documentSlice';
import { addLine, freshLineId } from './lineEdits';

/** What an unnamed shape of a tracing may turn out to be. */
const CLAIMS = ['piece', 'panel line', 'dart', 'notch', 'level', 'grain'] as const;
export type Claim = (typeof CLAIMS)[number];

/** Fine enough to tell which piece a shape lies on, mm. */
const ROUGH = 1;

const corners = (path: Path): Pt[] => [...path.map((c) => c[0]), ...(path.length > 0 ? [endOf(path)] : [])];
/** A dart named at the bench: kept until something else is wanted. */
function dartFrom(path: Path, closed: boolean, outline: Ring = []): Dart | null {
  const shape = readDart({ path, closed }, outline);
  return shape && { ...shape, treatment: { kind: 'keep' } };
}

/** Widest a dart's mouth or belly is taken to be, mm: larger shapes are something else. */
const WIDEST_DART = 150;
function isDartSized(path: Path): boolean {
  const { minX, maxX, minY, maxY } = pathBox(path);
  return Math.min(maxX - minX, maxY - minY) <= WIDEST_DART;
}

/** Least area of a shape that is offered as a piece of its own, mm²: smaller ones are marks. */
const LEAST_PIECE = 2500;

/** A closed shape as an outline, running the way outlines do; null where it crosses itself or is too small. */
function outlineFrom(path: Path, closed: boolean): Ring | null {
  if (!closed || Math.abs(signedArea(path)) < LEAST_PIECE) return null;
  if (ringFault(path)) return null;
  return signedArea(path) > 0 ? path : reversePath(path);
}

function addPiece(design: Design, outline: Ring): Design {
  const taken = new Set(design.pieces.flatMap(({ id, name }) => [id as string, name]));
  let n = design.pieces.length + 1;
  while (taken.has(`piece-${n}`) || taken.has(`piece ${n}`)) n += 1;
  const piece: Piece = {
    id: `piece-${n}` as PieceId,
    name: `piece ${n}`,
    outline,
    fold: null,
    grain: null,
    darts: [],
    notches: [],
    levels: [],
    edgeNames: [],
    cutting: 'once',
    foldPanels: false,
  };
  return { ...design, pieces: [...design.pieces, piece] };
}

/** The piece an unnamed shape belongs to: the one most of it lies on, else the one the tracing put it in. */
export function pieceUnder(design: Design, path: Path, traced: string | null): Piece | undefined {
  const on = (piece: Piece): number => {
    const outline = flattenRing(piece.outline, ROUGH);
    return corners(path).filter((p) => whereInRing(p, outline) !== 'outside').length;
  };
  const byName = design.pieces.find((p) => p.name === traced) ?? design.pieces[0];
  const ranked = design.pieces.map((piece) => ({ piece, on: on(piece) })).sort((a, b) => b.on - a.on);
  const most = ranked[0];
  return most && byName && most.on > on(byName) ? most.piece : byName;
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
    if (claim === 'piece') return outlineFrom(path, closed) !== null;
    if (claim === 'panel line') return !closed;
    if (claim === 'dart') return dartFrom(path, closed) !== null && isDartSized(path);
    return claim === 'notch' ? short : straight;
  });
}

/** Take an unnamed shape as what a person says it is. Gives back the same design where it cannot be that. */
export const claimShape =
  (id: PieceId, claim: Claim, path: Path, closed: boolean, levelName = 'level'): Edit =>
  (design) => {
    const piece = design.pieces.find((p) => p.id === id);
    if (!piece || !possibleClaims(path, closed).includes(claim)) return design;
    if (claim === 'piece') return addPiece(design, outlineFrom(path, closed)!);
    if (claim === 'panel line') return addLine(freshLineId(design), id, path, false)(design);
    if (claim === 'dart')
      return changePiece(design, id, (p) => ({
        ...p,
        darts: [...p.darts, dartFrom(path, closed, p.outline) ?? dartFrom(path, closed)!],
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
