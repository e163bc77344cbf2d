import { nearestOnPath } from '../geometry';
import type { PlacedDart, WholePiece } from '../pattern';

/** What a dart is called at the machine: by the edge its mouth lies on, or by its shape. */
function dartName(dart: PlacedDart, { stitching, edgeOf, edges }: WholePiece): string {
  if (dart.kind === 'double') return 'double-pointed dart';
  const edge = edges[edgeOf[nearestOnPath(stitching, dart.mouth[0]).index]!];
  return edge && !edge.plainName.startsWith('edge ') ? `dart from the ${edge.plainName}` : 'dart';
}

/** Darts that are sewn in one step, named once: `the dart from the side seam`, `both double-pointed darts`. */
export function dartGroups(darts: readonly PlacedDart[], whole: WholePiece): readonly string[] {
  const counts = new Map<string, number>();
  for (const dart of darts) {
    const name = dartName(dart, whole);
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  return [...counts].map(([name, count]) => {
    if (count === 1) return `the ${name}`;
    const plural = name.replace('dart', 'darts');
    return count === 2 ? `both ${plural}` : `the ${count} ${plural}`;
  });
}
