import { addLevel, carriedLine, carryOver, findLevel, levelHeight, levelsDown, settle } from '../lines';
import {
  type Dart,
  type Design,
  type LineId,
  type PanelMark,
  type Piece,
  type PieceId,
  openedPiece,
} from '../pattern';
import { ancestor } from './keepColours';
import { leaveMark, leaveOf } from './leave';
import { panelledPiece, slicedPiece } from './slicedPieces';

/** A piece as traced anew, without what belongs to the design. */
export type PieceTracing = Pick<
  Piece,
  'outline' | 'fold' | 'grain' | 'darts' | 'notches' | 'levels' | 'edgeNames'
>;

/** A design with one piece in another size, and what did not follow by itself. */
export interface Replaced {
  readonly design: Design;
  /** Lines that are not tied: they keep their shape and size and lie centre on centre; look at each. */
  readonly untied: readonly LineId[];
  /** Tied lines whose ties find no place on the new tracing. */
  readonly lost: readonly LineId[];
  /** Levels that the new tracing lacks: set at the like height. */
  readonly levels: readonly string[];
}

/** Darts keep their treatment where the new tracing has as many. */
const treatedAlike = (before: readonly Dart[], now: readonly Dart[]): readonly Dart[] =>
  before.length === now.length ? now.map((d, i): Dart => ({ ...d, treatment: before[i]!.treatment })) : now;

const withPiece = (design: Design, piece: Piece): Design => ({
  ...design,
  pieces: design.pieces.map((p) => (p.id === piece.id ? piece : p)),
});

/**
 * Put another tracing of the same piece in its place: another size of it. Lines that are tied follow their edges and levels,
 * lines that are not stay and are listed. Each panel takes the colour of the old panel that lies in the like place. Other pieces
 * are left alone. The same design when it has no such piece.
 */
export function replacePiece(design: Design, id: PieceId, tracing: PieceTracing): Replaced {
  const piece = design.pieces.find((p) => p.id === id);
  if (!piece) return { design, untied: [], lost: [], levels: [] };
  const old = openedPiece(piece, design).whole;
  const { outline, fold, grain, notches, edgeNames, levels } = tracing;
  const darts = treatedAlike(piece.darts, tracing.darts);
  const traced = { ...piece, outline, fold, grain, notches, edgeNames, levels, darts };
  let bare = withPiece(design, traced);
  const carry = carryOver(old, openedPiece(traced, bare).whole);
  const missing = levelsDown(old).filter(({ level }) => !findLevel(levels, level.name));
  for (const { level } of missing)
    bare = addLevel(bare, id, level.name, carry.height(levelHeight(old, level)));
  const own = design.lines.filter((l) => l.piece === id);
  const { design: after, problems } = settle({
    ...bare,
    lines: bare.lines.map((l) => (l.piece === id ? carriedLine(l, carry) : l)),
  });
  const lost = problems.flatMap((p) => (p.code === 'tie-lost' ? [p.facts.line] : []));
  return {
    design: { ...after, ...marksCarried(design, after, piece, carry.like) },
    untied: own.filter((l) => !l.ties).map((l) => l.id),
    lost: own.filter((l) => lost.includes(l.id)).map((l) => l.id),
    levels: missing.map(({ level }) => level.name),
  };
}

/** Marks of the design before, those of the piece moved so that its panels keep their colours, and leave off the grain, as well as can be. */
function marksCarried(
  before: Design,
  after: Design,
  piece: Piece,
  like: (p: PanelMark['at']) => PanelMark['at'],
): Pick<Design, 'marks' | 'offGrain'> {
  const old = panelledPiece(piece, before).panels.map((panel) => ({
    colour: panel.colour,
    leave: leaveOf(before, panel),
    flat: { ...panel.flat, points: panel.flat.points.map(like) },
  }));
  const now = after.pieces.find((p) => p.id === piece.id)!;
  const own = slicedPiece(now, after).panels.map((panel) => ({ panel, from: ancestor(panel, old) }));
  const isOther = (m: Pick<PanelMark, 'piece'>): boolean => m.piece !== piece.id;
  const marks = own.map(({ panel, from }): PanelMark => ({
    piece: piece.id,
    at: panel.flat.at,
    colour: from?.colour ?? before.colours[0]!.id,
  }));
  return {
    marks: [...before.marks.filter(isOther), ...marks],
    offGrain: [
      ...before.offGrain.filter(isOther),
      ...own.flatMap(({ panel, from }) => leaveMark(panel, from?.leave ?? null)),
    ],
  };
}
