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

/** The canvas as covered cells; each row keeps running sums, so that a run is free when its two sums agree. */
class Canvas {
  readonly grid: SheetGrid;
  readonly columns: number;
  private readonly width: number;
  private readonly covered: Uint8Array[] = [];
  private readonly sums: Int32Array[] = [];
  private readonly open = new Set<number>();

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
    return Math.max(0, ...[...this.open].map((key) => Math.floor(key / this.columns) + 1));
  }

  isOpen(column: number, row: number): boolean {
    return this.open.has(row * this.columns + column);
  }

  openSheet(column: number, row: number): void {
    this.open.add(row * this.columns + column);
  }

  isFree(f: Footprint, x: number, y: number): boolean {
    return f.rows.every((runs, r) => {
      const sums = this.sums[y + r];
      return !sums || runs.every(([a, b]) => sums[x + a] === sums[x + b]);
    });
  }

  /** Cover rows of runs whose first cell is x, y; cells off the canvas are left out. */
  cover(rows: Footprint['rows'], x: number, y: number): void {
    rows.forEach((runs, r) => {
      if (y + r < 0) return;
      while (this.covered.length <= y + r) {
        this.covered.push(new Uint8Array(this.width));
        this.sums.push(new Int32Array(this.width + 1));
      }
      const [cells, sums] = [this.covered[y + r]!, this.sums[y + r]!];
      for (const [a, b] of runs) cells.fill(1, Math.max(0, x + a), Math.max(0, Math.min(this.width, x + b)));
      for (let i = 0; i < this.width; i += 1) sums[i + 1] = sums[i]! + cells[i]!;
    });
  }
}

interface Place {
  readonly footprint: Footprint;
  readonly x: number;
  readonly y: number;
  readonly span: SheetSpan;
  readonly touched: readonly (readonly [column: number, row: number])[];
  readonly opened: number;
}

/** Sheets of the span that the footprint covers cells of when its first cell is x, y. */
function touchedSheets(grid: SheetGrid, f: Footprint, x: number, y: number, span: SheetSpan): Place['touched'] {
  const found = new Map<string, readonly [number, number]>();
  if (span.columns * span.rows === 1) return [[span.column, span.row]];
  const clampTo = (n: number, from: number, count: number): number => Math.min(from + count - 1, Math.max(from, n));
  f.rows.forEach((runs, r) => {
    const row = clampTo(Math.floor((y + r - 0.5) / grid.cellsY), span.row, span.rows);
    for (const [a, b] of runs) {
      const first = clampTo(Math.floor((x + a - 0.5) / grid.cellsX), span.column, span.columns);
      const last = clampTo(Math.floor((x + b - 1.5) / grid.cellsX), span.column, span.columns);
      for (let column = first; column <= last; column += 1) found.set(`${column},${row}`, [column, row]);
    }
  });
  return [...found.values()];
}

/** The best free place of one footprint within one span of sheets, or null. Stops at one that opens no new sheet. */
function placeInSpan(canvas: Canvas, f: Footprint, span: SheetSpan): Place | null {
  const { grid } = canvas;
  const slackX = span.columns * grid.stepX + (grid.usableX - grid.stepX) - f.width;
  const slackY = span.rows * grid.stepY + (grid.usableY - grid.stepY) - f.height;
  const [mostX, mostY] = [Math.floor(slackX / grid.cellX + 1e-6), Math.floor(slackY / grid.cellY + 1e-6)];
  let best: Place | null = null;
  for (let dy = 0; dy <= mostY; dy += 1) {
    for (let dx = 0; dx <= mostX; dx += 1) {
      const [x, y] = [span.column * grid.cellsX + dx, span.row * grid.cellsY + dy];
      if (!canvas.isFree(f, x, y)) continue;
      const touched = touchedSheets(grid, f, x, y, span);
      const opened = touched.filter(([c, r]) => !canvas.isOpen(c, r)).length;
      const place = { footprint: f, x, y, span, touched, opened };
      if (!best || isBetter(place, best)) best = place;
      // On one sheet no later place can be better.
      if (opened === 0 || span.columns * span.rows === 1) return best;
    }
  }
  return best;
}

/** Fewer new sheets, then fewer sheets in all, then upright, then what was found first. */
function isBetter(a: Place, b: Place): boolean {
  if (a.opened !== b.opened) return a.opened < b.opened;
  if (a.touched.length !== b.touched.length) return a.touched.length < b.touched.length;
  return !a.footprint.turned && b.footprint.turned;
}

function bestPlace(canvas: Canvas, choice: Choice): Place {
  const { grid } = canvas;
  let best: Place | null = null;
  for (const footprint of choice) {
    const columns = windowsFor(footprint.width, grid.stepX);
    const rows = windowsFor(footprint.height, grid.stepY);
    // One free row of sheets below everything always takes it.
    for (let row = 0; row <= canvas.rows; row += 1) {
      for (let column = 0; column + columns <= canvas.columns; column += 1) {
        const place = placeInSpan(canvas, footprint, { column, row, columns, rows });
        if (place && (!best || isBetter(place, best))) best = place;
      }
    }
  }
  if (!best) throw new Error('a panel found no place on a canvas made wide enough for it');
  return best;
}

function arrangeIn(grid: SheetGrid, choices: readonly Choice[], columns: number, reserved: ArrangeOptions['reserved']): { sheets: number; placed: Placed[]; rows: number } {
  const canvas = new Canvas(grid, columns);
  if (reserved) {
    const runs = [[0, Math.ceil(reserved.width / grid.cellX) + 1]] as const;
    canvas.cover(Array.from({ length: Math.ceil(reserved.height / grid.cellY) + 1 }, () => runs), 0, 0);
    canvas.openSheet(0, 0);
  }
  const placed = choices.map((choice): Placed => {
    const { footprint, x, y, span, touched } = bestPlace(canvas, choice);
    canvas.cover(footprint.spread, x - 1, y - 1);
    for (const [column, row] of touched) canvas.openSheet(column, row);
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
  let best: (Arrangement & { score: readonly number[] }) | null = null;
  for (let columns = fewest; columns <= fewest + options.moreColumns; columns += 1) {
    for (const order of ORDERS) {
      const sorted = [...choices].sort((a, b) => order(a[0], b[0]) || a[0].index - b[0].index);
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
