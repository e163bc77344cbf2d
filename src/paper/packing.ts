import type { Footprint } from './footprint';
import { windowsFor } from './sheetGrid';
import type { SheetGrid } from './sheetGrid';

/** The canvas as covered cells. Each row knows, for every cell, the last covered one before it: that answers and skips at once. */
export class Canvas {
  readonly grid: SheetGrid;
  readonly columns: number;
  private readonly width: number;
  private readonly covered: Uint8Array[] = [];
  private readonly lastCovered: Int32Array[] = [];
  private readonly open = new Set<number>();
  private lowest = 0;

  constructor(grid: SheetGrid, columns: number) {
    this.grid = grid;
    this.columns = columns;
    this.width = columns * grid.cellsX + Math.ceil(grid.usableX / grid.cellX) + 2;
  }

  get openSheets(): number {
    return this.open.size;
  }

  /** Rows of sheets that hold anything. */
  get rows(): number {
    return this.lowest;
  }

  isOpen(column: number, row: number): boolean {
    return this.open.has(row * this.columns + column);
  }

  openSheet(column: number, row: number): void {
    this.open.add(row * this.columns + column);
    this.lowest = Math.max(this.lowest, row + 1);
  }

  /** The first x from `from` to `to` at which the footprint, its first row at y, covers only free cells; -1 if there is none. */
  nextFree(f: Footprint, from: number, to: number, y: number): number {
    let x = from;
    for (let r = 0; r < f.rows.length && x <= to; r += 1) {
      const last = this.lastCovered[y + r];
      if (!last) continue;
      for (const [a, b] of f.rows[r]!) {
        const hit = last[x + b]!;
        if (hit < x + a) continue;
        // The run can only be free when it starts behind the covered cell; rows before have to be asked again.
        x = hit + 1 - a;
        r = -1;
        break;
      }
    }
    return x <= to ? x : -1;
  }

  /** Cover rows of runs whose first cell is x, y; cells off the canvas are left out. */
  cover(rows: Footprint['rows'], x: number, y: number): void {
    rows.forEach((runs, r) => {
      if (y + r < 0) return;
      while (this.covered.length <= y + r) {
        this.covered.push(new Uint8Array(this.width));
        this.lastCovered.push(new Int32Array(this.width + 1).fill(-1));
      }
      const [cells, last] = [this.covered[y + r]!, this.lastCovered[y + r]!];
      for (const [a, b] of runs) cells.fill(1, Math.max(0, x + a), Math.max(0, Math.min(this.width, x + b)));
      for (let i = 0; i < this.width; i += 1) last[i + 1] = cells[i] === 1 ? i : last[i]!;
    });
  }
}

/** Sheets as column and row. */
export type Touched = readonly (readonly [column: number, row: number])[];

/** A footprint with what does not depend on where it lies: its sheets each way, how far it can shift in them, which it then touches. */
export class Shape {
  readonly footprint: Footprint;
  readonly columns: number;
  readonly rows: number;
  readonly mostX: number;
  readonly mostY: number;
  private readonly grid: SheetGrid;
  private readonly known = new Map<number, Touched>();
  private least: number | null = null;

  constructor(grid: SheetGrid, footprint: Footprint) {
    this.grid = grid;
    this.footprint = footprint;
    this.columns = windowsFor(footprint.width, grid.stepX);
    this.rows = windowsFor(footprint.height, grid.stepY);
    const overlap = grid.usableX - grid.stepX;
    this.mostX = Math.floor((this.columns * grid.stepX + overlap - footprint.width) / grid.cellX + 1e-6);
    this.mostY = Math.floor((this.rows * grid.stepY + overlap - footprint.height) / grid.cellY + 1e-6);
  }

  /** Sheets touched, counted from the span's first, when the footprint is shifted by dx, dy cells in its span. */
  touched(dx: number, dy: number): Touched {
    const key = dy * (this.mostX + 1) + dx;
    const known = this.known.get(key);
    if (known) return known;
    const found = this.findTouched(dx, dy);
    this.known.set(key, found);
    return found;
  }

  /** Fewest sheets it can touch at any shift. */
  get fewest(): number {
    if (this.least !== null) return this.least;
    this.least = this.columns * this.rows;
    // Only more than one sheet both ways can leave a corner untouched.
    if (this.columns > 1 && this.rows > 1) {
      for (let dy = 0; dy <= this.mostY; dy += 1) {
        for (let dx = 0; dx <= this.mostX; dx += 1)
          this.least = Math.min(this.least, this.touched(dx, dy).length);
      }
    }
    return this.least;
  }

  private findTouched(dx: number, dy: number): Touched {
    const { grid, columns, rows } = this;
    const hit = new Uint8Array(columns * rows);
    const clamp = (n: number, most: number): number => Math.min(most, Math.max(0, n));
    this.footprint.rows.forEach((runs, r) => {
      const row = clamp(Math.floor((dy + r - 0.5) / grid.cellsY), rows - 1);
      for (const [a, b] of runs) {
        const first = clamp(Math.floor((dx + a - 0.5) / grid.cellsX), columns - 1);
        const last = clamp(Math.floor((dx + b - 1.5) / grid.cellsX), columns - 1);
        hit.fill(1, row * columns + first, row * columns + last + 1);
      }
    });
    return [...hit.keys()]
      .filter((i) => hit[i] === 1)
      .map((i) => [i % columns, Math.floor(i / columns)] as const);
  }
}
