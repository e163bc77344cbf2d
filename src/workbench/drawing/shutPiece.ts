import { endToEnd, nearestOnPath, pointAt, type Path, type Pt, type Ring } from '../../geometry';
import type { PanelledPiece } from '../../panels';
import { foldShut, remember, type FoldedShut, type WholePiece } from '../../pattern';
import type { DartOf } from '../store/sessionSlice';

/** How a piece lies with one of its darts folded shut; null where it is not, or cannot be, shown so. */
export function shutOf(whole: WholePiece, dart: DartOf | null): FoldedShut | null {
  if (dart?.piece !== whole.piece.id) return null;
  const placed = whole.darts.find((d) => d.traced === dart.dart && !d.mirrored);
  return placed ? foldShut(whole, placed) : null;
}

/** A path of the flat piece as it lies on the shut one, straight across what is folded away or open. */
export const asShut = (path: Path, shut: FoldedShut): Path =>
  endToEnd(shut.pathToShut(path).map((part) => part.path));

/** A path drawn on the shut piece as it lies on the flat one: it crosses the dart's sides equally far from the point. */
export const asFlat = (path: Path, shut: FoldedShut): Path =>
  endToEnd(shut.pathToFlat(path).map((part) => part.path));

/** The outline round both parts, in over the slit where that stands open. */
function shutRing({ parts, slit }: FoldedShut): Ring {
  const [still, turned] = parts;
  const [point] = slit;
  const opens = (from: Pt, to: Pt): boolean => slit.some((s) => s === from || s === to);
  const between = (a: Path, b: Path): Path => {
    const [from, to] = [a.at(-1)!.at(-1)!, b[0]![0]];
    return opens(from, to)
      ? [
          [from, point],
          [point, to],
        ]
      : endToEnd([a, b]).slice(a.length, -b.length);
  };
  const [a, b] = [still!.along, turned!.along];
  return [...a, ...between(a, b), ...b, ...between(b, a)];
}

/**
 * A piece as the hand meets it while one dart is folded shut: outline, lines and notches where they lie now. Levels and the centre are
 * those of the part that stays.
 */
export const shutPiece = remember((piece: PanelledPiece, shut: FoldedShut): PanelledPiece => {
  const { whole } = piece;
  const stitching = shutRing(shut);
  const edgeOf = stitching.map(
    (c) => whole.edgeOf[nearestOnPath(whole.stitching, shut.toFlat(pointAt(c, 0.5))).index]!,
  );
  const notches = whole.notches.map((n) => ({ at: shut.toShut(n.at), inner: shut.toShut(n.inner) }));
  return {
    ...piece,
    whole: { ...whole, stitching, edgeOf, notches, darts: [] },
    lines: piece.lines.map((l) => ({ ...l, path: asShut(l.path, shut) })),
  };
});
