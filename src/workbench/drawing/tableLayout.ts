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

/** How much wider than high the free table is, about: rows are chosen so that the pieces fill it. */
const TABLE_SHAPE = 1.4;
/** A further row must make everything this much larger on screen, or the pieces stay side by side. */
const WORTH_A_ROW = 1.3;

interface Laid {
  readonly at: readonly (readonly [PieceId, Pt])[];
  readonly box: Box;
}

const moved = ({ minX, minY, maxX, maxY }: Box, [dx, dy]: Pt): Box => ({
  minX: minX + dx,
  minY: minY + dy,
  maxX: maxX + dx,
  maxY: maxY + dy,
});

/** One row: pieces side by side from x = 0, shared levels at one height, others with their tops in line. */
function layRow(pieces: readonly PanelledPiece[]): Laid {
  const known = new Map<string, number>();
  const at: (readonly [PieceId, Pt])[] = [];
  let x = 0;
  let top: number | null = null;
  let all: Box | null = null;
  for (const { whole } of pieces) {
    const box = pathBox(whole.outline);
    const dy: number = dropToLevels(whole, known) ?? (top ?? box.minY) - box.minY;
    const shift: Pt = [x - box.minX, dy];
    at.push([whole.piece.id, shift]);
    for (const [word, height] of levelHeights(whole)) if (!known.has(word)) known.set(word, height + dy);
    const laid = moved(box, shift);
    top ??= laid.minY;
    all = all ? joinBoxes(all, laid) : laid;
    x = laid.maxX + BETWEEN;
  }
  return { at, box: all ?? { minX: 0, minY: 0, maxX: 1000, maxY: 1000 } };
}

/** Share pieces out over rows no wider than `most`, mm, in their order. */
function sharedOut(pieces: readonly PanelledPiece[], most: number): (readonly PanelledPiece[])[] {
  const rows: PanelledPiece[][] = [];
  let x = Infinity;
  for (const piece of pieces) {
    const { minX, maxX } = pathBox(piece.whole.outline);
    const width = maxX - minX;
    if (x + width > most) {
      rows.push([]);
      x = 0;
    }
    rows.at(-1)!.push(piece);
    x += width + BETWEEN;
  }
  return rows;
}

/** Rows below each other. */
function stack(rows: readonly Laid[]): Laid {
  let y: number | null = null;
  const at: (readonly [PieceId, Pt])[] = [];
  let all: Box | null = null;
  for (const row of rows) {
    const drop: Pt = [0, y === null ? 0 : y - row.box.minY];
    for (const [id, [dx, dy]] of row.at) at.push([id, [dx, dy + drop[1]]]);
    const box = moved(row.box, drop);
    all = all ? joinBoxes(all, box) : box;
    y = box.maxY + BETWEEN;
  }
  return { at, box: all ?? layRow([]).box };
}

/** How large things appear when the box fills the table, up to a factor. */
const sizeOnTable = ({ minX, minY, maxX, maxY }: Box): number =>
  Math.min(TABLE_SHAPE / Math.max(1, maxX - minX), 1 / Math.max(1, maxY - minY));

/** Lay pieces side by side in the order of the design, in rows where one row would make them very small. */
export function layOut(pieces: readonly PanelledPiece[]): TableLayout {
  let best = layRow(pieces);
  const width = best.box.maxX - best.box.minX;
  for (let rows = 2; rows <= pieces.length; rows += 1) {
    const laid = stack(sharedOut(pieces, width / rows).map(layRow));
    if (sizeOnTable(laid.box) > sizeOnTable(best.box) * WORTH_A_ROW) best = laid;
  }
  return { shift: new Map(best.at), box: best.box };
}
