import type { Box } from '../geometry';
import { PAGE_MARGIN, SHEET_OVERLAP } from './sheetSize';
import type { SheetSize } from './sheetSize';

/** Wished side of a packing cell, mm. */
const CELL = 5;

/**
 * One big canvas seen through windows: window (column, row) starts at column · stepX, row · stepY and is `usableX` × `usableY`; neighbours
 * share a strip of SHEET_OVERLAP. A whole number of cells makes a step, so that a panel can be set down in any window alike.
 */
export interface SheetGrid {
  readonly usableX: number;
  readonly usableY: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly cellX: number;
  readonly cellY: number;
  /** Cells per step. */
  readonly cellsX: number;
  readonly cellsY: number;
}

/** A run of windows: first column and row, how many each way. */
export interface SheetSpan {
  readonly column: number;
  readonly row: number;
  readonly columns: number;
  readonly rows: number;
}

export function sheetGrid(sheet: SheetSize): SheetGrid {
  const usableX = sheet.width - 2 * PAGE_MARGIN;
  const usableY = sheet.height - 2 * PAGE_MARGIN;
  const [stepX, stepY] = [usableX - SHEET_OVERLAP, usableY - SHEET_OVERLAP];
  const [cellsX, cellsY] = [Math.round(stepX / CELL), Math.round(stepY / CELL)];
  return { usableX, usableY, stepX, stepY, cellX: stepX / cellsX, cellY: stepY / cellsY, cellsX, cellsY };
}

/** Fewest windows in a row that show a length: n with n · step + overlap >= length. */
export const windowsFor = (length: number, step: number): number =>
  Math.max(1, Math.ceil((length - SHEET_OVERLAP - 1e-6) / step));

/** What a window shows, in canvas mm. */
export const windowBox = (grid: SheetGrid, column: number, row: number): Box => ({
  minX: column * grid.stepX,
  minY: row * grid.stepY,
  maxX: column * grid.stepX + grid.usableX,
  maxY: row * grid.stepY + grid.usableY,
});

/**
 * The part of a window that no other window of the span is asked to show: up to the join lines in the middle of the shared
 * strips, and to the window's own border where the span ends.
 */
export function shareBox(grid: SheetGrid, span: SheetSpan, column: number, row: number): Box {
  const w = windowBox(grid, column, row);
  const half = SHEET_OVERLAP / 2;
  return {
    minX: w.minX + (column > span.column ? half : 0),
    minY: w.minY + (row > span.row ? half : 0),
    maxX: w.maxX - (column < span.column + span.columns - 1 ? half : 0),
    maxY: w.maxY - (row < span.row + span.rows - 1 ? half : 0),
  };
}

/** The shared strips inside a span of sheets, canvas mm: everything there is printed twice and joined. */
export function joinStrips(grid: SheetGrid, span: SheetSpan): Box[] {
  const whole = {
    minX: span.column * grid.stepX,
    minY: span.row * grid.stepY,
    maxX: (span.column + span.columns) * grid.stepX + SHEET_OVERLAP,
    maxY: (span.row + span.rows) * grid.stepY + SHEET_OVERLAP,
  };
  const strips: Box[] = [];
  for (let c = span.column + 1; c < span.column + span.columns; c += 1) {
    strips.push({ ...whole, minX: c * grid.stepX, maxX: c * grid.stepX + SHEET_OVERLAP });
  }
  for (let r = span.row + 1; r < span.row + span.rows; r += 1) {
    strips.push({ ...whole, minY: r * grid.stepY, maxY: r * grid.stepY + SHEET_OVERLAP });
  }
  return strips;
}
