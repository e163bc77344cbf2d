import type { Box, Line, Pt } from '../geometry';
import type { Placed } from './arrange';
import type { DrawnPanel } from './drawPanel';
import { entersBox, holdsPoint } from './inside';
import { movedBox, overlaps, segmentsOf, textBox } from './marks';
import { shareBox } from './sheetGrid';
import type { SheetGrid } from './sheetGrid';

/** A panel on the canvas: its marks are to be moved by `by`. */
export interface PanelOnCanvas {
  readonly drawn: DrawnPanel;
  readonly by: Pt;
  readonly placed: Placed;
  /** Its lines and lettering on the canvas, for exact questions. */
  readonly lines: readonly Line[];
  readonly letters: readonly Box[];
}

/** One printed sheet of the canvas. Its name is its row as a letter and its column as a number: A1, A2 … B1 … */
export interface Sheet {
  readonly column: number;
  readonly row: number;
  readonly name: string;
  readonly panels: readonly PanelOnCanvas[];
}

/** Two neighbouring sheets that a panel runs across, in reading order. */
export interface Join {
  /** Running number from 1, different at every join. */
  readonly number: number;
  readonly first: Sheet;
  readonly second: Sheet;
  readonly side: 'right' | 'below';
}

/** A … Z, AA, AB … */
export function rowLetters(row: number): string {
  const last = String.fromCharCode(65 + (row % 26));
  return row < 26 ? last : rowLetters(Math.floor(row / 26) - 1) + last;
}

/** A drawn panel moved by `by` on to the canvas. */
export function onCanvas(drawn: DrawnPanel, placed: Placed, by: Pt): PanelOnCanvas {
  const moved = (p: Pt): Pt => [p[0] + by[0], p[1] + by[1]];
  return {
    drawn,
    by,
    placed,
    lines: drawn.marks.flatMap((m) =>
      m.kind === 'path' ? segmentsOf(m).map(([a, b]): Line => [moved(a), moved(b)]) : [],
    ),
    letters: drawn.marks.flatMap((m) => {
      if (m.kind !== 'text') return [];
      return [movedBox(textBox(m), by)];
    }),
  };
}

/** Whether anything of the panel, its plain paper included, lies in a box of the canvas. */
export function reaches({ drawn, by, lines, letters }: PanelOnCanvas, box: Box): boolean {
  const middle: Pt = [(box.minX + box.maxX) / 2 - by[0], (box.minY + box.maxY) / 2 - by[1]];
  return (
    lines.some(([a, b]) => entersBox(a, b, box)) ||
    letters.some((l) => overlaps(l, box)) ||
    holdsPoint(drawn.panel.inside, middle)
  );
}

/** Only sheets with something on them, by rows. A panel is shown on the sheets that are needed for it and on no other. */
export function sheetsOf(grid: SheetGrid, panels: readonly PanelOnCanvas[]): Sheet[] {
  const found = new Map<string, { column: number; row: number; panels: PanelOnCanvas[] }>();
  for (const panel of panels) {
    const { span } = panel.placed;
    for (let row = span.row; row < span.row + span.rows; row += 1) {
      for (let column = span.column; column < span.column + span.columns; column += 1) {
        if (!reaches(panel, shareBox(grid, span, column, row))) continue;
        const key = `${column},${row}`;
        const sheet = found.get(key) ?? { column, row, panels: [] };
        sheet.panels.push(panel);
        found.set(key, sheet);
      }
    }
  }
  return [...found.values()]
    .sort((a, b) => a.row - b.row || a.column - b.column)
    .map((s) => ({ ...s, name: `${rowLetters(s.row)}${s.column + 1}` }));
}

/** Pairs of neighbours that share a panel, numbered in reading order. */
export function joinsOf(sheets: readonly Sheet[]): Join[] {
  const joins: Join[] = [];
  for (const first of sheets) {
    for (const side of ['right', 'below'] as const) {
      const [column, row] = side === 'right' ? [first.column + 1, first.row] : [first.column, first.row + 1];
      const second = sheets.find((s) => s.column === column && s.row === row);
      if (!second?.panels.some((p) => first.panels.includes(p))) continue;
      joins.push({ number: joins.length + 1, first, second, side });
    }
  }
  return joins;
}
