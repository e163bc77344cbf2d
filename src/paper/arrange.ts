import type { Footprint } from './footprint';
import { windowsFor } from './sheetGrid';
import type { SheetGrid, SheetSpan } from './sheetGrid';

/** Where a panel's ink box starts on the canvas, mm, and the sheets that show it. */
export interface Placed {
  readonly index: number;
  readonly turned: boolean;
  readonly x: number;
  readonly y: number;
  readonly span: SheetSpan;
}

export interface Arrangement {
  readonly placed: readonly Placed[];
  readonly columns: number;
  readonly rows: number;
}

/** Upright, and turned by 90° where that is allowed. */
export type Choice = readonly [Footprint, ...Footprint[]];

export interface ArrangeOptions {
  /** Kept free at the upper left corner of the canvas, mm: for what is printed beside the panels. */
  readonly reserved?: { readonly width: number; readonly height: number };
  /** Sheets beside each other are tried from the fewest possible to this many more. */
  readonly moreColumns: number;
}

/** The canvas as covered cells. Each row knows, for every cell, the last covered one before it: that answers and skips at once. */
class Canvas {
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

type Touched = readonly (readonly [column: number, row: number])[];

interface Place {
  readonly footprint: Footprint;
  readonly x: number;
  readonly y: number;
  readonly span: SheetSpan;
  readonly touched: Touched;
  readonly opened: number;
}

/** A footprint with what does not depend on where it lies: its sheets each way, how far it can shift in them, which it then touches. */
class Shape {
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
        for (let dx = 0; dx <= this.mostX; dx += 1) this.least = Math.min(this.least, this.touched(dx, dy).length);
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
    return [...hit.keys()].filter((i) => hit[i] === 1).map((i) => [i % columns, Math.floor(i / columns)] as const);
  }
}

/** The best free place of one shape with its span's first sheet at column, row; null where none beats `best`. */
function placeInSpan(canvas: Canvas, shape: Shape, column: number, row: number, best: Place | null): Place | null {
  const { grid } = canvas;
  const { footprint } = shape;
  const span = { column, row, columns: shape.columns, rows: shape.rows };
  let open = 0;
  for (let r = 0; r < span.rows; r += 1) for (let c = 0; c < span.columns; c += 1) if (canvas.isOpen(column + c, row + r)) open += 1;
  if (best && shape.fewest - open > best.opened) return null;
  let found: Place | null = null;
  for (let dy = 0; dy <= shape.mostY; dy += 1) {
    const y = row * grid.cellsY + dy;
    const [start, end] = [column * grid.cellsX, column * grid.cellsX + shape.mostX];
    for (let x = canvas.nextFree(footprint, start, end, y); x >= 0; x = canvas.nextFree(footprint, x + 1, end, y)) {
      const touched = shape.touched(x - start, dy);
      let opened = 0;
      for (const [c, r] of touched) if (!canvas.isOpen(column + c, row + r)) opened += 1;
      const place = { footprint, x, y, span, touched, opened };
      if (isBetter(place, found ?? best)) found = place;
      // Nothing later in this span can be better.
      if (touched.length === shape.fewest && opened === Math.max(0, shape.fewest - open)) return found;
    }
  }
  return found;
}

/** Fewer new sheets, then fewer sheets in all, then upright, then what was found first. */
function isBetter(a: Place, b: Place | null): boolean {
  if (!b) return true;
  if (a.opened !== b.opened) return a.opened < b.opened;
  if (a.touched.length !== b.touched.length) return a.touched.length < b.touched.length;
  return !a.footprint.turned && b.footprint.turned;
}

function bestPlace(canvas: Canvas, shapes: readonly Shape[]): Place {
  let best: Place | null = null;
  for (const shape of shapes) {
    // One free row of sheets below everything always takes it.
    for (let row = 0; row <= canvas.rows; row += 1) {
      for (let column = 0; column + shape.columns <= canvas.columns; column += 1) {
        best = placeInSpan(canvas, shape, column, row, best) ?? best;
        if (best?.footprint === shape.footprint && best.opened === 0 && best.touched.length === shape.fewest) return best;
      }
    }
  }
  if (!best) throw new Error('a panel found no place on a canvas made wide enough for it');
  return best;
}

interface Attempt {
  readonly sheets: number;
  readonly placed: readonly Placed[];
  readonly rows: number;
}

function arrangeIn(grid: SheetGrid, choices: readonly (readonly Shape[])[], columns: number, reserved: ArrangeOptions['reserved']): Attempt {
  const canvas = new Canvas(grid, columns);
  if (reserved) {
    const runs = [[0, Math.ceil(reserved.width / grid.cellX) + 1]] as const;
    canvas.cover(Array.from({ length: Math.ceil(reserved.height / grid.cellY) + 1 }, () => runs), 0, 0);
    canvas.openSheet(0, 0);
  }
  const placed = choices.map((shapes): Placed => {
    const { footprint, x, y, span, touched } = bestPlace(canvas, shapes);
    canvas.cover(footprint.spread, x - 1, y - 1);
    for (const [column, row] of touched) canvas.openSheet(span.column + column, span.row + row);
    return { index: footprint.index, turned: footprint.turned, x: x * grid.cellX, y: y * grid.cellY, span };
  });
  return { sheets: canvas.openSheets, placed, rows: canvas.rows };
}

const ORDERS: readonly ((a: Footprint, b: Footprint) => number)[] = [
  (a, b) => b.cellCount - a.cellCount,
  (a, b) => b.height - a.height,
  (a, b) => Math.max(b.width, b.height) - Math.max(a.width, a.height),
  (a, b) => b.width * b.height - a.width * a.height,
];

/**
 * Set panels down on sheets: each where it opens the fewest new sheets, and never over more sheets than its size asks for, so a panel that
 * fits on one sheet is on one. Several orders and canvas widths are tried; the fewest sheets win, then the fewest joins, then
 * the smaller canvas. The same panels always give the same answer.
 */
export function arrange(grid: SheetGrid, choices: readonly Choice[], options: ArrangeOptions): Arrangement {
  const fewest = Math.max(1, ...choices.map((c) => Math.min(...c.map((f) => windowsFor(f.width, grid.stepX)))));
  const shapes = choices.map((choice) => choice.map((f) => new Shape(grid, f)));
  let best: (Arrangement & { score: readonly number[] }) | null = null;
  for (let columns = fewest; columns <= fewest + options.moreColumns; columns += 1) {
    for (const order of ORDERS) {
      const sorted = [...shapes].sort(([a], [b]) => order(a!.footprint, b!.footprint) || a!.footprint.index - b!.footprint.index);
      const { sheets, placed, rows } = arrangeIn(grid, sorted, columns, options.reserved);
      const joins = placed.reduce((sum, { span }) => sum + span.columns * span.rows - 1, 0);
      const last = Math.max(0, ...placed.map((p) => p.y + heightOf(choices, p)));
      const score = [sheets, joins, columns * rows, columns, last];
      if (!best || isLess(score, best.score)) best = { placed, columns, rows, score };
    }
  }
  return best!;
}

const heightOf = (choices: readonly Choice[], p: Placed): number =>
  choices.flat().find((f) => f.index === p.index && f.turned === p.turned)!.height;

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((v, k) => v !== b[k]);
  return i >= 0 && a[i]! < b[i]!;
}
