import type { Box, Pt } from '../geometry';
import { paragraph, stack } from './block';
import type { Block } from './block';
import { shortName } from './cleanText';
import { INK, SOFT } from './ink';
import { entersBox, holdsPoint } from './inside';
import { joinMarks } from './joinMarks';
import { grown, movedMarks, overlaps, text, textBox } from './marks';
import type { Lettering, Mark } from './marks';
import type { Pen } from './pen';
import { ruler } from './ruler';
import { shareBox, windowBox } from './sheetGrid';
import type { SheetGrid } from './sheetGrid';
import { PAGE_MARGIN } from './sheetSize';
import type { Join, Sheet } from './sheets';

export interface SheetNotes {
  readonly design: string;
  /** `sheet 3 of 14`. */
  readonly position: string;
}

/** Name of the sheet, where it belongs, and a 5 cm and 2 in ruler. */
function sheetTag(lettering: Lettering, name: string, notes: SheetNotes): Block {
  const title = text(lettering, name, [0, 5.4], { size: 7, bold: true, colour: INK });
  const words = stack(
    [
      paragraph(lettering, shortName(notes.design, 26), 36, { size: 2.6, colour: SOFT }),
      paragraph(lettering, notes.position, 36, { size: 2.6, colour: SOFT }),
    ],
    0.4,
  );
  const head: Block = {
    width: 54,
    height: 7.4,
    marks: [title, ...movedMarks(words.marks, [title.width + 3, 0.2])],
  };
  return stack([head, ruler(lettering, 5, 2, 2)], 1.2);
}

/** Places tried for a tag, at most about this many. */
const MOST_PLACES = 700;

/** Places for a tag in an area, nearest to the lower left corner first. */
function tagPlaces(area: Box, tag: Block): Pt[] {
  const [wide, high] = [area.maxX - area.minX - tag.width - 6, area.maxY - area.minY - tag.height - 6];
  const step = Math.max(7, Math.sqrt((Math.max(0, wide) * Math.max(0, high)) / MOST_PLACES));
  const places: Pt[] = [];
  for (let y = 0; y <= Math.max(0, high); y += step) {
    for (let x = 0; x <= Math.max(0, wide); x += step)
      places.push([area.minX + 3 + x, area.maxY - tag.height - 3 - y]);
  }
  const far = ([x, y]: Pt): number => Math.hypot(x - area.minX, area.maxY - y);
  return places.sort((p, q) => far(p) - far(q));
}

/** Where the tag covers least of the pattern: off lettering and lines first, then on waste paper, then near the lower left corner. */
function tagPlace(sheet: Sheet, area: Box, tag: Block, blocked: readonly Box[]): Pt {
  const letters = [...blocked, ...sheet.panels.flatMap((p) => p.letters)].filter((l) => overlaps(l, area));
  const near = sheet.panels.map((panel) => ({
    panel,
    lines: panel.lines.filter(([a, b]) => entersBox(a, b, area)),
  }));
  const places = tagPlaces(area, tag);
  let best = places[0]!;
  let least = Infinity;
  for (const [x, y] of places) {
    const box = grown({ minX: x, minY: y, maxX: x + tag.width, maxY: y + tag.height }, 1.5);
    let cost = 0;
    for (const l of letters) if (overlaps(l, box)) cost += 80;
    for (const { panel, lines } of near) {
      for (const [a, b] of lines) if (entersBox(a, b, box)) cost += 10;
      const middle: Pt = [(box.minX + box.maxX) / 2 - panel.by[0], (box.minY + box.maxY) / 2 - panel.by[1]];
      if (holdsPoint(panel.drawn.panel.inside, middle)) cost += 4;
    }
    if (cost >= least) continue;
    least = cost;
    best = [x, y];
    if (cost === 0) break;
  }
  return best;
}

/** Draw one sheet of a joined set on a fresh page. Nothing shows outside the page margin. */
export function drawSheet(
  pen: Pen,
  grid: SheetGrid,
  sheet: Sheet,
  joins: readonly Join[],
  notes: SheetNotes,
): void {
  const w = windowBox(grid, sheet.column, sheet.row);
  const toPage: Pt = [PAGE_MARGIN - w.minX, PAGE_MARGIN - w.minY];
  const page: Box = {
    minX: PAGE_MARGIN,
    minY: PAGE_MARGIN,
    maxX: PAGE_MARGIN + grid.usableX,
    maxY: PAGE_MARGIN + grid.usableY,
  };
  const helps = joinMarks(pen.lettering, grid, sheet, joins);
  const tag = sheetTag(pen.lettering, sheet.name, notes);
  const single = { column: sheet.column - 1, row: sheet.row - 1, columns: 3, rows: 3 };
  const area = shareBox(grid, single, sheet.column, sheet.row);
  const spot = tagPlace(sheet, area, tag, helps.filter((m) => m.kind === 'text').map(textBox));
  const marks: Mark[] = [
    ...helps,
    ...sheet.panels.flatMap((p) => movedMarks(p.drawn.marks, p.by)),
    ...movedMarks(tag.marks, spot),
  ];
  pen.draw(marks, toPage, page);
}
