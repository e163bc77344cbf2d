import type { Block } from './block';
import { ACCENT, CHALK, FAINT, INK, SOFT, tint } from './ink';
import { filled, line, rectangle, text } from './marks';
import type { Lettering, Mark } from './marks';
import type { Path, Pt, Polyline } from '../geometry';
import { pathThrough } from '../geometry';
import { windowBox } from './sheetGrid';
import type { SheetGrid } from './sheetGrid';
import type { Join, PanelOnCanvas, Sheet } from './sheets';

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
  joins: readonly Join[],
  panels: readonly PanelOnCanvas[],
  size: { readonly width: number; readonly height: number },
): Block {
  const columns = Math.max(...sheets.map((s) => s.column)) + 1;
  const rows = Math.max(...sheets.map((s) => s.row)) + 1;
  const [fullX, fullY] = [(columns - 1) * grid.stepX + grid.usableX, (rows - 1) * grid.stepY + grid.usableY];
  const k = Math.min(size.width / fullX, size.height / fullY);
  const marks: Mark[] = [];
  for (const s of sheets) {
    const w = windowBox(grid, s.column, s.row);
    const field = rectangle(w.minX * k, w.minY * k, grid.usableX * k, grid.usableY * k);
    marks.push(filled([field], CHALK, { width: 0.2, colour: FAINT }));
  }
  for (const { drawn, by } of panels) {
    const path = (ring: Polyline): Path => pathThrough(thinned(ring.map(([x, y]): Pt => [(x + by[0]) * k, (y + by[1]) * k])), true);
    marks.push(filled(drawn.panel.inside.map(path), tint(drawn.panel.colour.fill, 0.7), { width: 0.2, colour: INK }));
  }
  for (const j of joins) marks.push(joinTick(grid, j, k));
  for (const { drawn, by } of panels) {
    const [x, y] = drawn.panel.label.at;
    marks.push(text(lettering, `${drawn.panel.number}`, [(x + by[0]) * k, (y + by[1]) * k + 1], { size: 2.9, bold: true, align: 'centre' }));
  }
  for (const s of sheets) {
    const w = windowBox(grid, s.column, s.row);
    marks.push(text(lettering, s.name, [w.minX * k + 1.2, w.minY * k + 3], { size: 2.3, colour: SOFT }));
  }
  return { width: fullX * k, height: fullY * k, marks };
}

/** A short stroke across a join. */
function joinTick(grid: SheetGrid, { first, side }: Join, k: number): Mark {
  const w = windowBox(grid, first.column, first.row);
  const [mx, my] = [(w.minX + w.maxX) / 2, (w.minY + w.maxY) / 2];
  const stroke = { width: 0.4, colour: ACCENT };
  return side === 'right'
    ? line([w.maxX * k - 1.4, my * k], [w.maxX * k + 0.6, my * k], stroke)
    : line([mx * k, w.maxY * k - 1.4], [mx * k, w.maxY * k + 0.6], stroke);
}

