import {
  type CurveRef,
  type Path,
  type Pt,
  SAME_POINT,
  lengthAt,
  nearestOnPath,
  pathLength,
  pointAtLength,
  pointOn,
  refAtLength,
} from '../geometry';
import type { DartShape } from './design';
import { remember } from './remember';
import type { WholePiece } from './wholePiece';

/** An edge as it is once its darts are sewn: dart mouths take up no length. */
export interface SewnEdge {
  /** On the stitching outline, in ring order, mouths bridged. */
  readonly path: Path;
  /** Dart mouths on it, as arc lengths of `path` in order, mm. */
  readonly mouths: readonly { readonly from: number; readonly to: number }[];
  /** Sewn length, mouths skipped, mm. */
  readonly length: number;
}

/** The curves of one edge of the stitching outline, in ring order. */
export function edgePath({ stitching, edgeOf }: WholePiece, edge: number): Path {
  const n = stitching.length;
  const first = edgeOf.findIndex((e, i) => e === edge && edgeOf[(i + n - 1) % n] !== edge);
  if (first < 0) return edgeOf.every((e) => e === edge) ? stitching : [];
  const path = [];
  for (let i = 0; i < n && edgeOf[(first + i) % n] === edge; i += 1) path.push(stitching[(first + i) % n]!);
  return path;
}

/** Middle of an edge along its curves, mouths counted: where a question about it is put. */
export const middleOfEdge = remember((whole: WholePiece, edge: number): Pt => {
  const path = edgePath(whole, edge);
  return pointAtLength(path, pathLength(path) / 2).point;
});

/** Where a dart's mouth lies on a path, as arc lengths; null when it lies elsewhere. */
function mouthOn(path: Path, mouth: readonly [Pt, Pt]): { from: number; to: number } | null {
  if (path.length === 0) return null;
  const [a, b] = [nearestOnPath(path, mouth[0]), nearestOnPath(path, mouth[1])];
  if (a.distance > SAME_POINT || b.distance > SAME_POINT) return null;
  const [s, t] = [lengthAt(path, a), lengthAt(path, b)];
  return { from: Math.min(s, t), to: Math.max(s, t) };
}

/** Edges of a piece as they are asked for: a piece may have any number of them. */
const sewnEdges = remember((_whole: WholePiece): SewnEdge[] => []);

/** One edge of a whole piece as sewn; `edge` indexes WholePiece.edges. */
export const sewnEdge = (whole: WholePiece, edge: number): SewnEdge =>
  (sewnEdges(whole)[edge] ??= sewnPath(edgePath(whole, edge), whole.darts));

/** A stretch of outline as sewn: the mouths of the darts that lie on it take up no length. */
export function sewnPath(path: Path, darts: readonly DartShape[]): SewnEdge {
  const mouths = darts
    .flatMap((d) => (d.kind === 'single' ? (mouthOn(path, d.mouth) ?? []) : []))
    .sort((a, b) => a.from - b.from);
  const gone = mouths.reduce((sum, m) => sum + (m.to - m.from), 0);
  return { path, mouths, length: pathLength(path) - gone };
}

/** Sewn length from the edge's first end to a place on it, mm; inside a mouth, the length at which the mouth lies. */
export function sewnLengthAt({ path, mouths }: SewnEdge, at: CurveRef): number {
  const s = lengthAt(path, at);
  return mouths.reduce((sum, m) => sum - Math.max(0, Math.min(s, m.to) - m.from), s);
}

/** The place at a sewn length from the edge's first end, clamped to the edge; at a mouth, the mouth's first end. */
export function placeAtSewn({ path, mouths }: SewnEdge, sewn: number): CurveRef & { point: Pt } {
  let s = Math.max(0, sewn);
  for (const m of mouths) if (s > m.from + 1e-9) s += m.to - m.from;
  const ref = refAtLength(path, s);
  return { ...ref, point: pointOn(path, ref) };
}
