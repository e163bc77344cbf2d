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
  const head: Block = { width: 54, height: 7.4, marks: [title, ...movedMarks(words.marks, [title.width + 3, 0.2])] };
  return stack([head, ruler(lettering, 5, 2, 2)], 1.2);
}

/** Where the tag covers least of the pattern: off all lines first, then on waste paper, then near the lower left corner. */
function tagPlace(sheet: Sheet, area: Box, tag: Block, blocked: readonly Box[]): Pt {
  const near = sheet.panels.map((p) => ({
    panel: p,
    lines: p.lines.filter(([a, b]) => entersBox(a, b, area)),
    letters: p.letters.filter((l) => overlaps(l, area)),
  }));
  let best: Pt = [area.minX + 3, area.maxY - tag.height - 3];
  let least = Infinity;
  for (let y = area.maxY - tag.height - 3; y >= area.minY + 3; y -= 7) {
    for (let x = area.minX + 3; x <= area.maxX - tag.width - 3; x += 7) {
      const box = grown({ minX: x, minY: y, maxX: x + tag.width, maxY: y + tag.height }, 1.5);
      let cost = blocked.some((b) => overlaps(b, box)) ? 60 : 0;
      for (const { panel, lines, letters } of near) {
        cost += 10 * lines.filter(([a, b]) => entersBox(a, b, box)).length;
        cost += 80 * letters.filter((l) => overlaps(l, box)).length;
        const middle: Pt = [(box.minX + box.maxX) / 2 - panel.by[0], (box.minY + box.maxY) / 2 - panel.by[1]];
        if (holdsPoint(panel.drawn.panel.inside, middle)) cost += 4;
      }
      cost += Math.hypot(x - area.minX, area.maxY - y) / 400;
      if (cost < least) {
        least = cost;
        best = [x, y];
      }
    }
  }
  return best;
}

/** Draw one sheet of a joined set on a fresh page. Nothing shows outside the page margin. */
export function drawSheet(pen: Pen, grid: SheetGrid, sheet: Sheet, joins: readonly Join[], notes: SheetNotes): void {
  const w = windowBox(grid, sheet.column, sheet.row);
  const toPage: Pt = [PAGE_MARGIN - w.minX, PAGE_MARGIN - w.minY];
  const page: Box = { minX: PAGE_MARGIN, minY: PAGE_MARGIN, maxX: PAGE_MARGIN + grid.usableX, maxY: PAGE_MARGIN + grid.usableY };
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
