import { type PlacedDart, type WholePiece, nameDart } from '../pattern';

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
    const name = nameDart(dart, whole);
    byName.set(name, [...(byName.get(name) ?? []), dart]);
  }
  return [...byName].map(([name, own]) => ({ what: inWords(name, own.length), darts: own }));
}
