import Flatbush from 'flatbush';
import { controlBox } from './curve';
import type { ChordedPath } from './drawnPath';
import type { Box } from './types';

/** The chords of one curve of a drawn path: chord k runs from points[k] to points[k + 1]. */
export interface CurveChords {
  /** Number of the drawn path and of the curve on it. */
  readonly path: number;
  readonly curve: number;
  readonly first: number;
  readonly last: number;
}

/** Finds the curves of many drawn paths that reach into a box. */
export interface CurveIndex {
  readonly search: (box: Box) => readonly CurveChords[];
  /** Box of everything; null where nothing is drawn. */
  readonly box: Box | null;
}

export function indexCurves(all: readonly ChordedPath[]): CurveIndex {
  const items: CurveChords[] = [];
  all.forEach((chords, path) => {
    const { corners, refs, points } = chords;
    corners.forEach((first, i) => {
      const end = corners[i + 1] ?? (chords.closed ? points.length : points.length - 1);
      if (end > first) items.push({ path, curve: refs[first]!.index, first, last: end - 1 });
    });
  });
  if (items.length === 0) return { search: () => [], box: null };
  const tree = new Flatbush(items.length);
  for (const { path, curve } of items) {
    const b = controlBox(all[path]!.drawn.path[curve]!);
    tree.add(b.minX, b.minY, b.maxX, b.maxY);
  }
  tree.finish();
  const search = (b: Box): readonly CurveChords[] =>
    tree
      .search(b.minX, b.minY, b.maxX, b.maxY)
      .sort((i, j) => i - j)
      .map((i) => items[i]!);
  return { search, box: { minX: tree.minX, minY: tree.minY, maxX: tree.maxX, maxY: tree.maxY } };
}
