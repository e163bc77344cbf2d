import { joinBoxes, pathBox, type Box, type Pt } from '../../geometry';
import type { PanelledPiece } from '../../panels';
import type { PieceId, WholePiece } from '../../pattern';
import { levelWord } from './catchField';

/** Where each piece lies on the table: what to add to traced coordinates, mm. */
export interface TableLayout {
  readonly shift: ReadonlyMap<PieceId, Pt>;
  readonly box: Box;
}

/** Clear table between two pieces, mm: room for both allowances and a level name. */
const BETWEEN = 130;
/** Pieces are set lower or higher by at most this, mm, to bring their levels on to one height. */
const LEVEL_SLACK = 900;

const levelHeights = (whole: WholePiece): Map<string, number> =>
  new Map(whole.levels.map(({ name, line }) => [levelWord(name), (line[0][1] + line[1][1]) / 2]));

/** How far down a piece must be set so that a level it shares with the pieces before lies at their height; null if it shares none. */
function dropToLevels(whole: WholePiece, known: ReadonlyMap<string, number>): number | null {
  for (const [word, height] of levelHeights(whole)) {
    const there = known.get(word);
    if (there !== undefined && Math.abs(there - height) < LEVEL_SLACK) return there - height;
  }
  return null;
}

/** Lay pieces side by side in the order of the design, shared levels at one height, others with their tops in line. */
export function layOut(pieces: readonly PanelledPiece[]): TableLayout {
  const shift = new Map<PieceId, Pt>();
  const known = new Map<string, number>();
  let x = 0;
  let top: number | null = null;
  let all: Box | null = null;
  for (const { whole } of pieces) {
    const box = pathBox(whole.outline);
    const dy: number = dropToLevels(whole, known) ?? (top ?? box.minY) - box.minY;
    const dx = x - box.minX;
    shift.set(whole.piece.id, [dx, dy]);
    for (const [word, height] of levelHeights(whole)) if (!known.has(word)) known.set(word, height + dy);
    const laid: Box = { minX: box.minX + dx, maxX: box.maxX + dx, minY: box.minY + dy, maxY: box.maxY + dy };
    top ??= laid.minY;
    all = all ? joinBoxes(all, laid) : laid;
    x = laid.maxX + BETWEEN;
  }
  return { shift, box: all ?? { minX: 0, minY: 0, maxX: 1000, maxY: 1000 } };
}
