import { type Line, type Pt, add, pathBox, scale } from '../geometry';
import {
  type Base,
  type Design,
  type Level,
  type LineTies,
  type Piece,
  type PieceId,
  type Reach,
  type Tie,
  grainFrame,
  pointInGrain,
  placeAcross,
} from '../pattern';
import { openedPiece } from '../pattern';
import { findLevel, levelKey } from './levelOf';

/**
 * Hip below waist where nothing is traced, mm. Handbook drafts for women's standard sizes put it at about 20 to 22 cm (from
 * memory); a level is only proposed there, to be moved to the wearer's own height.
 */
export const USUAL_WAIST_TO_HIP = 205;

const onPiece = (design: Design, id: PieceId, change: (piece: Piece) => Piece): Design => {
  const piece = design.pieces.find((p) => p.id === id);
  if (!piece) return design;
  const changed = change(piece);
  return changed === piece
    ? design
    : { ...design, pieces: design.pieces.map((p) => (p === piece ? changed : p)) };
};

const withLevels = (piece: Piece, levels: readonly Level[]): Piece => ({ ...piece, levels });

/** A straight line square to the grain at a height, over the whole width of the traced piece. */
function lineAtHeight(design: Design, piece: Piece, height: number): Line {
  const { whole } = openedPiece(piece, design);
  const box = pathBox(piece.outline);
  const corners: readonly Pt[] = [
    [box.minX, box.minY],
    [box.maxX, box.minY],
    [box.maxX, box.maxY],
    [box.minX, box.maxY],
  ];
  const over = corners.map((p) => placeAcross(whole, p));
  return [pointInGrain(whole, height, Math.min(...over)), pointInGrain(whole, height, Math.max(...over))];
}

const isFree = (piece: Piece, name: string): boolean =>
  levelKey(name) !== '' && findLevel(piece.levels, name) === null;

/** Add a level square to the grain. The same design when the name is empty or taken. @param height along the grain, mm */
export const addLevel = (design: Design, id: PieceId, name: string, height: number): Design =>
  onPiece(design, id, (piece) =>
    isFree(piece, name)
      ? withLevels(piece, [...piece.levels, { name: name.trim(), line: lineAtHeight(design, piece, height) }])
      : piece,
  );

/** Move a level along the grain; lines tied to it follow when the design is settled. @param by mm, down is positive */
export const moveLevel = (design: Design, id: PieceId, name: string, by: number): Design =>
  onPiece(design, id, (piece) => {
    const level = findLevel(piece.levels, name);
    if (!level || by === 0) return piece;
    const shift = scale(grainFrame(openedPiece(piece, design).whole).along, by);
    const moved: Level = { ...level, line: [add(level.line[0], shift), add(level.line[1], shift)] };
    return withLevels(
      piece,
      piece.levels.map((l) => (levelKey(l.name) === levelKey(name) ? (l === level ? moved : l) : l)),
    );
  });

export const deleteLevel = (design: Design, id: PieceId, name: string): Design =>
  onPiece(design, id, (piece) =>
    findLevel(piece.levels, name)
      ? withLevels(
          piece,
          piece.levels.filter((l) => levelKey(l.name) !== levelKey(name)),
        )
      : piece,
  );

type Renaming = (base: Base) => Base;

const inReach = (reach: Reach, named: Renaming): Reach =>
  reach.kind === 'from'
    ? { ...reach, base: named(reach.base) }
    : { ...reach, bases: [named(reach.bases[0]), named(reach.bases[1])] };

function inTie(tie: Tie, named: Renaming): Tie {
  if (tie.kind === 'edge') return { ...tie, reach: inReach(tie.reach, named) };
  if (tie.kind === 'line' && tie.place.kind !== 'share')
    return { ...tie, place: { ...tie.place, reach: inReach(tie.place.reach, named) } };
  return tie.kind === 'inside'
    ? { ...tie, down: inReach(tie.down, named), over: inReach(tie.over, named) }
    : tie;
}

const inTies = (ties: LineTies, named: Renaming): LineTies => ({
  ...ties,
  nodes: ties.nodes.map((tie) => tie && inTie(tie, named)),
});

const mentions = (ties: LineTies, name: string): boolean => {
  let found = false;
  inTies(ties, (base) => {
    if (base.kind === 'level' && levelKey(base.name) === levelKey(name)) found = true;
    return base;
  });
  return found;
};

/** Give a level another name; what is tied to it stays tied. The same design when the name is empty or taken. */
export function renameLevel(design: Design, id: PieceId, from: string, to: string): Design {
  const piece = design.pieces.find((p) => p.id === id);
  const level = piece && findLevel(piece.levels, from);
  if (!piece || !level || level.name === to.trim()) return design;
  if (levelKey(to) !== levelKey(from) && !isFree(piece, to)) return design;
  const name = to.trim();
  const named: Renaming = (base) =>
    base.kind === 'level' && levelKey(base.name) === levelKey(from) ? { ...base, name } : base;
  return {
    ...onPiece(design, id, (p) =>
      withLevels(
        p,
        p.levels.map((l) => (l === level ? { ...l, name } : l)),
      ),
    ),
    lines: design.lines.map((l) =>
      l.piece === id && l.ties && mentions(l.ties, from) ? { ...l, ties: inTies(l.ties, named) } : l,
    ),
  };
}

/** The lines of a piece whose ties are measured from a level. */
export const linesOnLevel = (design: Design, id: PieceId, name: string) =>
  design.lines.filter((l) => l.piece === id && l.ties !== null && mentions(l.ties, name));
