import { boxOfPoints, distance, endOf, flattenRing, pathLength, startOf } from '../../geometry';
import { edgePath, type Piece, type WholePiece } from '../../pattern';

/** Something of a piece whose true length a person may know, mm as drawn. */
export interface Measurable {
  readonly name: string;
  readonly length: number;
}

/** What of the pieces can be measured across the drawing and down it. */
export interface Measurables {
  readonly across: readonly Measurable[];
  readonly down: readonly Measurable[];
}

/** Width and height of a piece as it was traced (a half one as its half), mm. */
export function sizeAsTraced({ outline }: Pick<Piece, 'outline'>): { width: number; height: number } {
  const { minX, minY, maxX, maxY } = boxOfPoints(flattenRing(outline));
  return { width: maxX - minX, height: maxY - minY };
}

/** An edge that runs more across than down is measured across. One of the traced half stands for its mirror image too. */
function edgesOf(whole: WholePiece): readonly (Measurable & { isAcross: boolean })[] {
  return whole.edges.flatMap(({ plainName, mirrored }, i) => {
    const path = edgePath(whole, i);
    if (mirrored || path.length === 0 || distance(startOf(path), endOf(path)) < 1) return [];
    const [a, b] = [startOf(path), endOf(path)];
    const isAcross = Math.abs(b[0] - a[0]) > Math.abs(b[1] - a[1]);
    return [{ name: `${whole.name}: ${plainName}`, length: pathLength(path), isAcross }];
  });
}

/**
 * What a person can measure to check the scale: widths and heights as traced, and edges along the stitching line, each with the way it
 * mostly runs.
 */
export function measurables(wholes: readonly WholePiece[]): Measurables {
  const edges = wholes.flatMap(edgesOf);
  const sizes = wholes.map((w) => ({ name: w.name, ...sizeAsTraced(w.piece) }));
  return {
    across: [
      ...sizes.map((s) => ({ name: `${s.name}: width`, length: s.width })),
      ...edges.filter((e) => e.isAcross),
    ],
    down: [
      ...sizes.map((s) => ({ name: `${s.name}: height`, length: s.height })),
      ...edges.filter((e) => !e.isAcross),
    ],
  };
}
