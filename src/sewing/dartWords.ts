import { nearestOnPath } from '../geometry';
import type { PlacedDart, WholePiece } from '../pattern';

/** What a dart is called at the machine: by the edge its mouth lies on, or by its shape. */
function dartName(dart: PlacedDart, { stitching, edgeOf, edges }: WholePiece): string {
  if (dart.kind === 'double') return 'double-pointed dart';
  const edge = edges[edgeOf[nearestOnPath(stitching, dart.mouth[0]).index]!];
  return edge && !edge.plainName.startsWith('edge ') ? `dart from the ${edge.plainName}` : 'dart';
}

/** Darts that are sewn in one step, and what they are called: `the dart from the side seam`, `both double-pointed darts`. */
export interface DartGroup {
  readonly what: string;
  readonly darts: readonly PlacedDart[];
}

function inWords(name: string, count: number): string {
  if (count === 1) return `the ${name}`;
  const plural = name.replace('dart', 'darts');
  return count === 2 ? `both ${plural}` : `the ${count} ${plural}`;
}

/** Darts of one panel gathered by what they are called. */
export function dartGroups(darts: readonly PlacedDart[], whole: WholePiece): readonly DartGroup[] {
  const byName = new Map<string, PlacedDart[]>();
  for (const dart of darts) {
    const name = dartName(dart, whole);
    byName.set(name, [...(byName.get(name) ?? []), dart]);
  }
  return [...byName].map(([name, own]) => ({ what: inWords(name, own.length), darts: own }));
}
