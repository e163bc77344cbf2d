import { printedPiece, type Garment } from '../garment';
import type { Pt } from '../geometry';
import type { PaperSize } from '../pattern';
import { arrange } from './arrange';
import type { Arrangement, Choice } from './arrange';
import { shortName } from './cleanText';
import { coverPages } from './coverSheet';
import type { CoverFacts } from './coverSheet';
import { drawPanel } from './drawPanel';
import type { DrawnPanel } from './drawPanel';
import { drawSheet } from './drawSheet';
import { footprintOf } from './footprint';
import type { PaperFonts } from './fonts';
import { movedBox } from './marks';
import type { Mark } from './marks';
import { pageMap } from './pageMap';
import { openPen } from './pen';
import type { Pen } from './pen';
import { PAGE_MARGIN, sheetSize } from './sheetSize';
import type { SheetSize } from './sheetSize';
import { joinStrips, sheetGrid, windowsFor } from './sheetGrid';
import type { SheetGrid } from './sheetGrid';
import { joinsOf, onCanvas, sheetsOf } from './sheets';
import type { Join, PanelOnCanvas, Sheet } from './sheets';

export interface PiecesPdfOptions {
  /** Default: the design's own paper. */
  readonly paper?: PaperSize;
  readonly fonts: PaperFonts;
}

/** For people and for report.json. */
export interface SheetCount {
  readonly paper: PaperSize;
  /** All pages of the file, the first ones with squares and lists included. */
  readonly pages: number;
  /** Grid of sheets that the panels lie on. */
  readonly columns: number;
  readonly rows: number;
}

export interface PiecesPdf {
  readonly bytes: Uint8Array;
  readonly sheets: SheetCount;
}

/** Widest column of what is printed beside the panels on one large sheet, mm. */
const NOTES_WIDTH = 186;
/** Clear space between those notes and the panels, mm. */
const NOTES_GAP = 12;

/**
 * The true-scale cutting pieces as a PDF.
 * Home papers: first sheets with squares, map and lists, then only sheets with something on them, a panel that fits on one sheet never
 * split. A0 and roll: everything packed on one page where it fits. Same garment and options, same bytes.
 * @throws RangeError for an unknown paper, or a garment without panels
 */
export async function piecesPdf(garment: Garment, options: PiecesPdfOptions): Promise<PiecesPdf> {
  const paper = options.paper ?? garment.design.paper.size;
  const sheet = sheetSize(paper);
  if (garment.panels.length === 0) throw new RangeError('There are no panels to print.');
  const pen = await openPen(options.fonts, garment.design.name);
  const job = { garment, sheet, pen, grid: sheetGrid(sheet) };
  return sheet.kind === 'home' ? joinedSheets(job, paper) : largeSheets(job, paper);
}

interface Job {
  readonly garment: Garment;
  readonly sheet: SheetSize;
  readonly pen: Pen;
  readonly grid: SheetGrid;
}

interface Laid {
  readonly panels: readonly PanelOnCanvas[];
  readonly arrangement: Arrangement;
  readonly sheets: readonly Sheet[];
  readonly joins: readonly Join[];
}

/**
 * Draw all panels and set them down, then draw those on several sheets again with their lettering off the joins.
 * Turning is allowed only where it needs fewer sheets than upright.
 */
function layDown(
  { garment, grid, pen }: Job,
  moreColumns: number,
  reserved?: { width: number; height: number },
): Laid {
  const drawings = new Map<string, DrawnPanel>();
  const choices = garment.panels.flatMap((panel, index): Choice[] => {
    if (printedPiece(garment, panel) === null) return [];
    const make = (turned: boolean): ReturnType<typeof footprintOf> => {
      const drawn = drawPanel(garment, index, turned, pen.lettering);
      drawings.set(`${index},${turned}`, drawn);
      return footprintOf(drawn, index, grid);
    };
    const upright = make(false);
    const sheetsOfSpan = (w: number, h: number): number =>
      windowsFor(w, grid.stepX) * windowsFor(h, grid.stepY);
    const gains = sheetsOfSpan(upright.height, upright.width) < sheetsOfSpan(upright.width, upright.height);
    return [gains ? [upright, make(true)] : [upright]];
  });
  const arrangement = arrange(grid, choices, { moreColumns, reserved });
  const panels = arrangement.placed
    .map((p) => {
      const first = drawings.get(`${p.index},${p.turned}`)!;
      const by: Pt = [p.x - first.box.minX, p.y - first.box.minY];
      const strips = joinStrips(grid, p.span).map((b) => movedBox(b, [-by[0], -by[1]]));
      const drawn =
        strips.length === 0 ? first : drawPanel(garment, p.index, p.turned, pen.lettering, strips);
      return onCanvas(drawn, p, by);
    })
    .sort((a, b) => a.placed.index - b.placed.index);
  const sheets = sheetsOf(grid, panels);
  return { panels, arrangement, sheets, joins: joinsOf(sheets) };
}

const gridSize = (sheets: readonly Sheet[]): { columns: number; rows: number } => ({
  columns: Math.max(...sheets.map((s) => s.column)) + 1,
  rows: Math.max(...sheets.map((s) => s.row)) + 1,
});

/** Bring loose notes on to a page. */
function notesPage(pen: Pen, marks: readonly Mark[], width: number, height: number): void {
  pen.page(width, height);
  pen.draw(marks, [PAGE_MARGIN, PAGE_MARGIN]);
}

function joinedSheets(job: Job, paper: PaperSize): PiecesPdf {
  const { garment, sheet, pen, grid } = job;
  const { panels, sheets, joins } = layDown(job, 4);
  const facts: CoverFacts = {
    garment,
    paper: `${sheet.label}, ${sheets.length} ${sheets.length === 1 ? 'sheet' : 'sheets'} of pieces`,
    map: (width, height) => pageMap(pen.lettering, grid, sheets, panels, { width, height }),
  };
  const cover = coverPages(pen.lettering, facts, grid.usableX, grid.usableY);
  for (const marks of cover.pages) notesPage(pen, marks, sheet.width, sheet.height);
  sheets.forEach((s, i) => {
    pen.page(sheet.width, sheet.height);
    const notes = { design: shortName(garment.design.name), position: `sheet ${i + 1} of ${sheets.length}` };
    drawSheet(pen, grid, s, joins, notes);
  });
  return {
    bytes: pen.finish(),
    sheets: { paper, pages: cover.pages.length + sheets.length, ...gridSize(sheets) },
  };
}

/** A0 and rolls: the notes stand on the first page beside the panels. */
function largeSheets(job: Job, paper: PaperSize): PiecesPdf {
  const { garment, sheet, pen, grid } = job;
  const width = Math.min(NOTES_WIDTH, grid.usableX);
  const notes = coverPages(pen.lettering, { garment, paper: sheet.label, map: null }, width, Infinity);
  const reserved = { width: width + NOTES_GAP, height: notes.used + NOTES_GAP };
  const { panels, sheets, joins } = layDown(job, 0, reserved);
  // The notes need the first sheet even if no panel came to lie on it.
  const all = sheets.some((s) => s.column === 0 && s.row === 0) ? sheets : [emptyFirst(), ...sheets];
  all.forEach((s, i) => {
    pen.page(
      sheet.width,
      sheet.kind === 'roll' ? rollLength(grid, s, panels, i === 0 ? notes.used : 0) : sheet.height,
    );
    drawSheet(pen, grid, s, joins, {
      design: shortName(garment.design.name),
      position: all.length === 1 ? sheet.label : `sheet ${i + 1} of ${all.length}`,
    });
    if (i === 0) pen.draw(notes.pages[0]!, [PAGE_MARGIN, PAGE_MARGIN]);
  });
  return { bytes: pen.finish(), sheets: { paper, pages: all.length, ...gridSize(all) } };
}

const emptyFirst = (): Sheet => ({ column: 0, row: 0, name: 'A1', panels: [] });

/** A page of a roll ends below the last thing on it, mm. */
function rollLength(grid: SheetGrid, sheet: Sheet, panels: readonly PanelOnCanvas[], notes: number): number {
  const top = sheet.row * grid.stepY;
  const shown = panels.filter((p) => sheet.panels.includes(p));
  const low = Math.max(notes, ...shown.map((p) => p.by[1] + p.drawn.box.maxY - top));
  return Math.min(grid.usableY, Math.ceil(low)) + 2 * PAGE_MARGIN;
}
