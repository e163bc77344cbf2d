import { mix } from '../geometry';
import { type Level, type WholePiece, heightOf } from '../pattern';

/** Names are the same when they differ only in case, spaces and the word level. */
export const levelKey = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .replace(/^level | level$/g, '')
    .trim();

/** A level by its name; null when there is none. */
export const findLevel = (levels: readonly Level[], name: string): Level | null =>
  levels.find((l) => levelKey(l.name) === levelKey(name)) ?? null;

/** Height of a level along the grain, mm: of its middle, should it be traced a little askew. */
export const levelHeight = (whole: Pick<WholePiece, 'grain'>, { line }: Level): number =>
  heightOf(whole, mix(line[0], line[1], 0.5));

/** The levels of a piece from top to bottom, each name once. */
export function levelsDown(whole: WholePiece): readonly { readonly level: Level; readonly height: number }[] {
  return whole.levels
    .filter((l) => findLevel(whole.levels, l.name) === l)
    .map((level) => ({ level, height: levelHeight(whole, level) }))
    .sort((a, b) => a.height - b.height);
}
