import type { Block } from './block';
import { CHALK, FAINT, INK, SOFT, tint } from './ink';
import { filled, rectangle, text } from './marks';
import type { Lettering, Mark } from './marks';
import type { Path, Pt, Polyline } from '../geometry';
import { pathThrough } from '../geometry';
import { shareBox } from './sheetGrid';
import type { SheetGrid } from './sheetGrid';
import type { PanelOnCanvas, Sheet } from './sheets';

/** Points closer than this on the map, mm, are drawn as one. */
const FINEST = 0.15;

function thinned(points: Polyline): Polyline {
  const kept: Pt[] = [];
  for (const p of points) {
    const last = kept[kept.length - 1];
    if (!last || Math.hypot(p[0] - last[0], p[1] - last[1]) >= FINEST) kept.push(p);
  }
  return kept;
}

/** The sheets side by side as they are joined, the panels on them by number, small, inside width × height mm. */
export function pageMap(
  lettering: Lettering,
  grid: SheetGrid,
  sheets: readonly Sheet[],
  panels: readonly PanelOnCanvas[],
  size: { readonly width: number; readonly height: number },
): Block {
  const columns = Math.max(...sheets.map((s) => s.column)) + 1;
  const rows = Math.max(...sheets.map((s) => s.row)) + 1;
  const [fullX, fullY] = [(columns - 1) * grid.stepX + grid.usableX, (rows - 1) * grid.stepY + grid.usableY];
  const k = Math.min(size.width / fullX, size.height / fullY);
  const marks: Mark[] = [];
  const all = { column: 0, row: 0, columns, rows };
  for (const s of sheets) {
    const b = shareBox(grid, all, s.column, s.row);
    const field = rectangle(b.minX * k, b.minY * k, (b.maxX - b.minX) * k, (b.maxY - b.minY) * k);
    marks.push(filled([field], CHALK, { width: 0.25, colour: FAINT }));
  }
  for (const { drawn, by } of panels) {
    const path = (ring: Polyline): Path =>
      pathThrough(thinned(ring.map(([x, y]): Pt => [(x + by[0]) * k, (y + by[1]) * k])), true);
    marks.push(
      filled(drawn.panel.inside.map(path), tint(drawn.panel.colour.fill, 0.7), { width: 0.2, colour: INK }),
    );
  }
  for (const { drawn, by } of panels) {
    const [x, y] = drawn.panel.label.at;
    marks.push(
      text(lettering, `${drawn.panel.number}`, [(x + by[0]) * k, (y + by[1]) * k + 1], {
        size: 2.9,
        bold: true,
        align: 'centre',
      }),
    );
  }
  for (const s of sheets) {
    const b = shareBox(grid, all, s.column, s.row);
    marks.push(text(lettering, s.name, [b.minX * k + 1, b.minY * k + 2.8], { size: 2.2, colour: SOFT }));
  }
  return { width: fullX * k, height: fullY * k, marks };
}
