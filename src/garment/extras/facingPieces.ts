import { type Path, type Pt, asOuterRing, nearestOnPath, pathLength, pointAtLength } from '../../geometry';
import { type LaidLine, type Panel, slicePiece } from '../../panels';
import {
  type Dart,
  type Facing,
  type LineId,
  type MovedRun,
  type Piece,
  type PieceId,
  type Problem,
  type WholePiece,
  movedRuns,
  problem,
} from '../../pattern';
import { type NamedCurve, edgeNamesOf, pathOf, notchesAlong, towardsTraced, tracedHalf } from './namedRing';

/** Name of a facing's edge inside the garment. */
export const INNER_EDGE = 'inner edge';

/** A facing's piece, and the piece it belongs to. */
export interface FacingPiece {
  readonly facing: Facing;
  readonly piece: Piece;
}

const facingId = ({ piece, edge }: Facing, nth: number): PieceId =>
  `${piece} ${edge} facing${nth > 0 ? ` ${nth + 1}` : ''}` as PieceId;

/** The line along a facing's inner edge, for slicing: closes the darts it crosses. */
const innerLine = (path: Path): LaidLine => ({
  line: INNER_EDGE as LineId,
  order: 0,
  mirrored: false,
  label: INNER_EDGE,
  path,
  isMirroring: false,
  image: null,
});

/** The strip between an edge and its parallel as it is cut: darts that cross the inner edge are closed in it. */
function strip(whole: WholePiece, run: MovedRun): Panel | null {
  const closing: WholePiece = { ...whole, darts: whole.darts.map((d) => ({ ...d, close: 'ease' as const })) };
  const { panels } = slicePiece(closing, [innerLine(run.path)]);
  return (
    panels.find((p) =>
      p.boundary.some(({ origin }) => origin.kind === 'outline' && run.edges.includes(origin.edge)),
    ) ?? null
  );
}

function namedBoundary({ boundary }: Panel, { edges }: WholePiece): NamedCurve[] {
  return boundary.flatMap(({ path, origin }) => {
    const name = origin.kind === 'seam' ? INNER_EDGE : nameOf(edges[origin.edge]!);
    return path.map((curve): NamedCurve => ({ curve, name }));
  });
}

const nameOf = ({ plainName, naming }: WholePiece['edges'][number]): string | null =>
  naming === 'numbered' ? null : plainName;

const middleOf = (path: Path): Pt => pointAtLength(path, pathLength(path) / 2).point;

/** Darts that stay in a strip: those whose points lie inside it. Mirrored ones come with the half. */
const dartsIn = ({ darts }: Panel, isHalf: boolean): readonly Dart[] =>
  darts
    .filter((d) => !isHalf || !d.mirrored)
    .map(({ mirrored: _mirrored, traced: _traced, close: _close, ...shape }): Dart => ({
      ...shape,
      treatment: { kind: 'keep' },
    }));

/** How a strip becomes a piece: on the fold, as a pair, or as its piece is cut. */
function pieceFrom(
  whole: WholePiece,
  panel: Panel,
  run: MovedRun,
  facing: Facing,
  nth: number,
  opensAtFold: boolean,
): Piece {
  const { piece, foldLine, name } = whole;
  const ring = namedBoundary(panel, whole);
  const half = foldLine ? tracedHalf(whole, ring, foldLine, opensAtFold) : null;
  const crosses = half !== null && foldLine !== null && nearestOnPath(run.path, half.fold[0]).distance < 1;
  const onFold = crosses || (half !== null && nearestOnPath(run.path, half.fold[1]).distance < 1);
  const outline = onFold ? half.ring : ring;
  return {
    ...piece,
    id: facingId(facing, nth),
    name: `${name} ${facing.edge} facing`,
    outline: asOuterRing(pathOf(outline)),
    fold: onFold && !opensAtFold ? half.fold : null,
    grain: whole.grain,
    darts: dartsIn(panel, onFold),
    notches: panel.closings.length > 0 ? [] : notchesAlong(whole, pathOf(outline), onFold),
    levels: [],
    edgeNames: edgeNamesOf(outline),
    cutting: !foldLine || (onFold && !opensAtFold) ? piece.cutting : 'pair',
    foldPanels: onFold && !opensAtFold,
  };
}

/**
 * The pieces of a facing: the strip within its depth of an edge's stitching line, darts in reach shut, on the fold where its piece is. Of
 * two edges that are mirror images one is made and cut as a pair.
 * @param opensAtFold a zip is there: it is cut as a pair instead
 */
export function facingPieces(
  whole: WholePiece,
  facing: Facing,
  opensAtFold: boolean,
): { readonly pieces: readonly FacingPiece[]; readonly problems: readonly Problem[] } {
  const edges = whole.edges.flatMap((e, i) =>
    e.plainName === facing.edge || e.numbered === facing.edge ? [i] : [],
  );
  const runs = edges.length > 0 ? movedRuns(whole, edges, facing.depth) : [];
  const away = whole.foldLine ? towardsTraced(whole, whole.foldLine) : null;
  const own = away && runs.length > 1 ? runs.filter((r) => away(middleOf(r.path)) > 0) : runs;
  const pieces = own.flatMap((run, i): FacingPiece[] => {
    const panel = strip(whole, run);
    return panel ? [{ facing, piece: pieceFrom(whole, panel, run, facing, i, opensAtFold) }] : [];
  });
  const facts = { piece: whole.name, edge: facing.edge, depth: facing.depth };
  return { pieces, problems: pieces.length > 0 ? [] : [problem('facing-does-not-fit', facts, whole.name)] };
}
