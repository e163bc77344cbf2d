import { type Line, type Pt, type Ring, cross, dot, subtract, unit } from '../geometry';
import type { Panel, PanelId } from '../panels';
import { type Design, type Piece, remember } from '../pattern';
import type { CutPiece } from './cutPiece';
import { SAME_CUT, areMirrorImages, areMirroredPoints } from './mirrorImage';

/** How panels lie about their pieces' folds. */
export interface PanelSymmetry {
  /** Each panel of a pair of mirror images with the other one, both ways. */
  readonly twins: ReadonlyMap<PanelId, PanelId>;
  /** Panels that are their own mirror image. */
  readonly ownImages: ReadonlySet<PanelId>;
}

/** A grain this far off the fold, as the sine of the angle, still runs along it or square to it (0.06°). */
const ALONG = 0.001;

/**
 * Whether a panel may be cut from a mirror image: the cloth's warp must run the same way then. A grain square to the fold comes out
 * upside down, which cloth with nap forbids; one at an angle to it comes out wrong.
 */
function grainAllows(cut: CutPiece, fold: Line, nap: boolean): boolean {
  const [along, grain] = [unit(subtract(fold[1], fold[0])), unit(subtract(cut.grain[1], cut.grain[0]))];
  if (Math.abs(cross(along, grain)) < ALONG) return true;
  return !nap && Math.abs(dot(along, grain)) < ALONG;
}

interface Lying {
  readonly panel: Panel;
  readonly cut: CutPiece;
}

function ringsMatch(a: readonly Ring[], b: readonly Ring[], fold: Line): boolean {
  return a.length === b.length && a.every((r) => b.some((s) => areMirrorImages(r, s, fold)));
}

/** Shape, allowances, darts and notches of one panel are those of the other in the mirror. */
function mirrorsShape(a: Lying, b: Lying, fold: Line): boolean {
  if (Math.abs(a.cut.cutArea - b.cut.cutArea) > SAME_CUT * 1e4) return false;
  return (
    areMirrorImages(a.panel.ring, b.panel.ring, fold) &&
    areMirrorImages(a.cut.cutting, b.cut.cutting, fold) &&
    ringsMatch(a.panel.holeRings, b.panel.holeRings, fold) &&
    ringsMatch(a.cut.holes, b.cut.holes, fold) &&
    areMirroredPoints(dartPoints(a.panel), dartPoints(b.panel), fold)
  );
}

const dartPoints = ({ darts }: Panel): Pt[] =>
  darts.flatMap((d) => (d.kind === 'single' ? [d.point, ...d.mouth] : [...d.points]));

/** Notches mirror with their kind, seam for seam. */
function mirrorsNotches(a: CutPiece, b: CutPiece, fold: Line): boolean {
  return ([1, 2, 3] as const).every((marks) =>
    areMirroredPoints(
      a.notches.filter((n) => n.marks === marks).map((n) => n.at),
      b.notches.filter((n) => n.marks === marks).map((n) => n.at),
      fold,
    ),
  );
}

function symmetryOfPiece(
  piece: Piece,
  fold: Line,
  lying: readonly Lying[],
  design: Design,
): [Lying, Lying][] {
  const napOf = (p: Panel): boolean => design.colours.find((c) => c.id === p.colour)?.nap ?? false;
  const own = lying.filter(
    ({ panel, cut }) => panel.piece === piece.id && grainAllows(cut, fold, napOf(panel)),
  );
  const taken = new Set<Lying>();
  return own.flatMap((a, i): [Lying, Lying][] => {
    if (taken.has(a)) return [];
    const twin = own.find(
      (b, k) =>
        k >= i &&
        !taken.has(b) &&
        b.panel.colour === a.panel.colour &&
        mirrorsShape(a, b, fold) &&
        (a === b || mirrorsNotches(a.cut, b.cut, fold)),
    );
    if (!twin) return [];
    taken.add(a).add(twin);
    return [[a, twin]];
  });
}

/**
 * Which panels are mirror images across the fold of their piece, of another panel or of themselves: same colour, shape and allowances to
 * SAME_CUT, and for two panels the same notches. Pieces cut as a pair are left out: all of their panels are cut twice anyway.
 * @param cutPieces in the order of `panels`
 */
export const panelSymmetry = remember(
  (design: Design, panels: readonly Panel[], cutPieces: readonly CutPiece[]): PanelSymmetry => {
    const lying = panels.map((panel, i): Lying => ({ panel, cut: cutPieces[i]! }));
    const pairs = design.pieces.flatMap((piece) =>
      piece.fold && piece.cutting === 'once' ? symmetryOfPiece(piece, piece.fold, lying, design) : [],
    );
    const twins = new Map<PanelId, PanelId>();
    for (const [a, b] of pairs) if (a !== b) twins.set(a.panel.id, b.panel.id).set(b.panel.id, a.panel.id);
    return { twins, ownImages: new Set(pairs.flatMap(([a, b]) => (a === b ? [a.panel.id] : []))) };
  },
);
