import type { Box } from '../geometry';
import type { DrawnPanel } from './drawPanel';
import { holdsPoint } from './inside';
import type { SheetGrid } from './sheetGrid';

/** Runs of covered cells, [from, to) in cells from the left edge of the footprint. */
export type Runs = readonly (readonly [from: number, to: number])[];

/** The cells of the sheet grid that a panel and its lettering touch, its ink box starting at cell 0, 0. */
export interface Footprint {
  readonly index: number;
  readonly turned: boolean;
  /** Ink, mm. */
  readonly width: number;
  readonly height: number;
  readonly rows: readonly Runs[];
  /** The same one cell larger on every side: kept free of other panels. First row and column lie one cell before the ink. */
  readonly spread: readonly Runs[];
  readonly cellCount: number;
}

class Cells {
  readonly columns: number;
  readonly rows: number;
  private readonly filled: Uint8Array;

  constructor(columns: number, rows: number) {
    this.columns = columns;
    this.rows = rows;
    this.filled = new Uint8Array(columns * rows);
  }

  fill(x: number, y: number): void {
    const [cx, cy] = [Math.min(this.columns - 1, Math.max(0, x)), Math.min(this.rows - 1, Math.max(0, y))];
    this.filled[cy * this.columns + cx] = 1;
  }

  isFilled(x: number, y: number): boolean {
    return x >= 0 && y >= 0 && x < this.columns && y < this.rows && this.filled[y * this.columns + x] === 1;
  }

  runs(y: number): Runs {
    const runs: [number, number][] = [];
    for (let x = 0; x < this.columns; x += 1) {
      if (!this.isFilled(x, y)) continue;
      const last = runs[runs.length - 1];
      if (last && last[1] === x) last[1] = x + 1;
      else runs.push([x, x + 1]);
    }
    return runs;
  }
}

/** Which cells a drawn panel covers. */
export function footprintOf(drawn: DrawnPanel, index: number, grid: SheetGrid): Footprint {
  const { box, panel } = drawn;
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  const cells = new Cells(
    Math.max(1, Math.ceil(width / grid.cellX)),
    Math.max(1, Math.ceil(height / grid.cellY)),
  );
  const column = (x: number): number => Math.floor((x - box.minX) / grid.cellX);
  const rowOf = (y: number): number => Math.floor((y - box.minY) / grid.cellY);
  for (const ring of panel.inside) {
    ring.forEach(([ax, ay], i) => {
      const [bx, by] = ring[(i + 1) % ring.length]!;
      const steps = Math.max(
        1,
        Math.ceil(Math.hypot(bx - ax, by - ay) / (Math.min(grid.cellX, grid.cellY) / 4)),
      );
      for (let s = 0; s <= steps; s += 1)
        cells.fill(column(ax + ((bx - ax) * s) / steps), rowOf(ay + ((by - ay) * s) / steps));
    });
  }
  for (let y = 0; y < cells.rows; y += 1) {
    for (let x = 0; x < cells.columns; x += 1) {
      if (holdsPoint(panel.inside, [box.minX + (x + 0.5) * grid.cellX, box.minY + (y + 0.5) * grid.cellY]))
        cells.fill(x, y);
    }
  }
  for (const b of drawn.outside) fillBox(cells, b, column, rowOf);
  const rows = Array.from({ length: cells.rows }, (_, y) => cells.runs(y));
  const cellCount = rows.flat().reduce((sum, [a, b]) => sum + b - a, 0);
  return { index, turned: drawn.turned, width, height, rows, spread: spreadOf(cells), cellCount };
}

function fillBox(cells: Cells, b: Box, column: (x: number) => number, rowOf: (y: number) => number): void {
  for (let y = rowOf(b.minY); y <= rowOf(b.maxY); y += 1) {
    for (let x = column(b.minX); x <= column(b.maxX); x += 1) cells.fill(x, y);
  }
}

function spreadOf(cells: Cells): Runs[] {
  const wide = new Cells(cells.columns + 2, cells.rows + 2);
  for (let y = 0; y < cells.rows; y += 1) {
    for (let x = 0; x < cells.columns; x += 1) {
      if (!cells.isFilled(x, y)) continue;
      for (const [dx, dy] of [
        [0, 1],
        [1, 0],
        [1, 1],
        [1, 2],
        [2, 1],
      ] as const)
        wide.fill(x + dx, y + dy);
    }
  }
  return Array.from({ length: wide.rows }, (_, y) => wide.runs(y));
}
