import type { Footprint } from './footprint';
import { Canvas, Shape } from './packing';
import type { Touched } from './packing';
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

interface Place {
  readonly footprint: Footprint;
  readonly x: number;
  readonly y: number;
  readonly span: SheetSpan;
  readonly touched: Touched;
  readonly opened: number;
}

/** The best free place of one shape with its span's first sheet at column, row; null where none beats `best`. */
function placeInSpan(
  canvas: Canvas,
  shape: Shape,
  column: number,
  row: number,
  best: Place | null,
): Place | null {
  const { grid } = canvas;
  const { footprint } = shape;
  const span = { column, row, columns: shape.columns, rows: shape.rows };
  let open = 0;
  for (let r = 0; r < span.rows; r += 1)
    for (let c = 0; c < span.columns; c += 1) if (canvas.isOpen(column + c, row + r)) open += 1;
  const least = Math.max(0, shape.fewest - open);
  if (best && !couldBeat(shape, least, best)) return null;
  let found: Place | null = null;
  for (let dy = 0; dy <= shape.mostY; dy += 1) {
    const y = row * grid.cellsY + dy;
    const [start, end] = [column * grid.cellsX, column * grid.cellsX + shape.mostX];
    for (
      let x = canvas.nextFree(footprint, start, end, y);
      x >= 0;
      x = canvas.nextFree(footprint, x + 1, end, y)
    ) {
      const touched = shape.touched(x - start, dy);
      let opened = 0;
      for (const [c, r] of touched) if (!canvas.isOpen(column + c, row + r)) opened += 1;
      const place = { footprint, x, y, span, touched, opened };
      if (isBetter(place, found ?? best)) found = place;
      // Nothing later in this span can be better.
      if (touched.length === shape.fewest && opened === least) return found;
    }
  }
  return found;
}

/** Whether a place that opens no fewer than `least` sheets could still be better than what is known. */
function couldBeat(shape: Shape, least: number, best: Place): boolean {
  if (least !== best.opened) return least < best.opened;
  if (shape.fewest !== best.touched.length) return shape.fewest < best.touched.length;
  return best.footprint.turned && !shape.footprint.turned;
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
    // The last panels may hang into the first free row by the shared strip, so the second one always takes it.
    for (let row = 0; row <= canvas.rows + 1; row += 1) {
      for (let column = 0; column + shape.columns <= canvas.columns; column += 1) {
        best = placeInSpan(canvas, shape, column, row, best) ?? best;
        if (best?.footprint === shape.footprint && best.opened === 0 && best.touched.length === shape.fewest)
          return best;
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
  /** Lower end of the lowest ink, mm. */
  readonly end: number;
}

function arrangeIn(
  grid: SheetGrid,
  choices: readonly (readonly Shape[])[],
  columns: number,
  reserved: ArrangeOptions['reserved'],
): Attempt {
  const canvas = new Canvas(grid, columns);
  if (reserved) {
    const runs = [[0, Math.ceil(reserved.width / grid.cellX) + 1]] as const;
    canvas.cover(
      Array.from({ length: Math.ceil(reserved.height / grid.cellY) + 1 }, () => runs),
      0,
      0,
    );
    canvas.openSheet(0, 0);
  }
  let end = 0;
  const placed = choices.map((shapes): Placed => {
    const { footprint, x, y, span, touched } = bestPlace(canvas, shapes);
    canvas.cover(footprint.spread, x - 1, y - 1);
    for (const [column, row] of touched) canvas.openSheet(span.column + column, span.row + row);
    end = Math.max(end, y * grid.cellY + footprint.height);
    return { index: footprint.index, turned: footprint.turned, x: x * grid.cellX, y: y * grid.cellY, span };
  });
  return { sheets: canvas.openSheets, placed, rows: canvas.rows, end };
}

const ORDERS: readonly ((a: Footprint, b: Footprint) => number)[] = [
  (a, b) => b.cellCount - a.cellCount,
  (a, b) => b.height - a.height,
  (a, b) => Math.max(b.width, b.height) - Math.max(a.width, a.height),
  (a, b) => b.width * b.height - a.width * a.height,
];

type Scored = Arrangement & {
  readonly score: readonly number[];
  readonly order: readonly (readonly Shape[])[];
};

/** Fewest sheets, then fewest sheets per panel, then the canvas nearest to a square, so that its map is easy to read. */
function tryOrder(grid: SheetGrid, order: Scored['order'], columns: number, options: ArrangeOptions): Scored {
  const { sheets, placed, rows, end } = arrangeIn(grid, order, columns, options.reserved);
  const joins = placed.reduce((sum, { span }) => sum + span.columns * span.rows - 1, 0);
  return {
    placed,
    columns,
    rows,
    order,
    score: [sheets, joins, Math.max(columns * grid.stepX, end), columns, end],
  };
}

/** Pseudo-random whole numbers from 0 to below n; always the same ones (linear congruence of Numerical Recipes, from memory). */
function numbersFrom(seed: number): (n: number) => number {
  let state = seed >>> 0;
  return (n) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * n);
  };
}

/** Orders tried after the plain ones: fewer where there are many panels, so that the time stays about the same. */
const shufflesFor = (panels: number): number => (panels < 3 ? 0 : Math.min(60, Math.ceil(900 / panels)));

/** The order with one panel moved to another place. */
function withOneMoved<T>(order: readonly T[], pick: (n: number) => number): T[] {
  const next = [...order];
  const [moved] = next.splice(pick(next.length), 1);
  next.splice(pick(next.length + 1), 0, moved!);
  return next;
}

/**
 * Set panels down on sheets: each where it opens the fewest new sheets, and never over more sheets than its size asks for, so a panel that
 * fits on one sheet is on one. Several orders and canvas widths are tried, then small changes of the best; the fewest sheets win, then
 * the fewest joins, then the canvas with the shorter longest side. The same panels always give the same answer.
 */
export function arrange(grid: SheetGrid, choices: readonly Choice[], options: ArrangeOptions): Arrangement {
  const fewest = Math.max(
    1,
    ...choices.map((c) => Math.min(...c.map((f) => windowsFor(f.width, grid.stepX)))),
  );
  const shapes = choices.map((choice) => choice.map((f) => new Shape(grid, f)));
  let best: Scored | null = null;
  const offer = (next: Scored): void => {
    if (!best || isLess(next.score, best.score)) best = next;
  };
  for (let columns = fewest; columns <= fewest + options.moreColumns; columns += 1) {
    for (const order of ORDERS) {
      const sorted = [...shapes].sort(
        ([a], [b]) => order(a!.footprint, b!.footprint) || a!.footprint.index - b!.footprint.index,
      );
      offer(tryOrder(grid, sorted, columns, options));
    }
  }
  const pick = numbersFrom(choices.length);
  for (let i = 0; i < shufflesFor(choices.length); i += 1) {
    const { order, columns } = best!;
    offer(
      tryOrder(
        grid,
        withOneMoved(order, pick),
        i % 3 === 2 ? fewest + pick(options.moreColumns + 1) : columns,
        options,
      ),
    );
  }
  return best!;
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((v, k) => v !== b[k]);
  return i >= 0 && a[i]! < b[i]!;
}
