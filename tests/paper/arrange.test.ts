import fc from 'fast-check';
import polygonClipping from 'polygon-clipping';
import { beforeAll, expect, test, vi } from 'vitest';
import type { Polyline, Pt } from '../../src/geometry';
import { arrange } from '../../src/paper/arrange';
import { drawPanel } from '../../src/paper/drawPanel';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import { footprintOf } from '../../src/paper/footprint';
import type { Lettering } from '../../src/paper/marks';
import { openPen } from '../../src/paper/pen';
import { sheetGrid, windowBox, windowsFor } from '../../src/paper/sheetGrid';
import { sheetSize } from '../../src/paper/sheetSize';
import { joinsOf, onCanvas, rowLetters, sheetsOf } from '../../src/paper/sheets';
import { handGarment } from './handGarment';

// Whole files are made, read back and rendered here: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let lettering: Lettering;
beforeAll(async () => {
  lettering = (await openPen(await fontsFromDisk(), 'test')).lettering;
});

/** A star-shaped outline: never crosses itself. */
const star = fc
  .tuple(
    fc.array(fc.double({ min: 0.45, max: 1, noNaN: true }), { minLength: 5, maxLength: 12 }),
    fc.integer({ min: 30, max: 420 }),
    fc.integer({ min: 30, max: 420 }),
  )
  .map(([radii, w, h]): Polyline =>
    radii.map((r, i): Pt => {
      const a = (2 * Math.PI * i) / radii.length;
      return [w * r * Math.cos(a), h * r * Math.sin(a)];
    }),
  );

test('panels never overlap, lie in their sheets, and keep to as few sheets as their size asks for', () => {
  const grid = sheetGrid(sheetSize('a4'));
  fc.assert(
    fc.property(fc.array(star, { minLength: 2, maxLength: 6 }), (outlines) => {
      const garment = handGarment(outlines.map((points) => ({ points })));
      const drawn = garment.panels.map((_, i) => drawPanel(garment, i, false, lettering));
      const choices = drawn.map((d, i) => [footprintOf(d, i, grid)] as const);
      const { placed } = arrange(grid, choices, { moreColumns: 2 });
      expect(placed.length).toBe(outlines.length);
      const panels = placed.map((p) => {
        const d = drawn[p.index]!;
        return onCanvas(d, p, [p.x - d.box.minX, p.y - d.box.minY]);
      });
      for (const { placed: p, drawn: d } of panels) {
        const [w, h] = [d.box.maxX - d.box.minX, d.box.maxY - d.box.minY];
        expect([p.span.columns, p.span.rows]).toEqual([windowsFor(w, grid.stepX), windowsFor(h, grid.stepY)]);
        const start = windowBox(grid, p.span.column, p.span.row);
        const end = windowBox(grid, p.span.column + p.span.columns - 1, p.span.row + p.span.rows - 1);
        expect(p.x).toBeGreaterThanOrEqual(start.minX - 1e-6);
        expect(p.y).toBeGreaterThanOrEqual(start.minY - 1e-6);
        expect(p.x + w).toBeLessThanOrEqual(end.maxX + 1e-6);
        expect(p.y + h).toBeLessThanOrEqual(end.maxY + 1e-6);
      }
      const shapes = panels.map(({ drawn: d, by }) => [
        d.panel.inside[0]!.map(([x, y]): [number, number] => [x + by[0], y + by[1]]),
      ]);
      for (let i = 0; i < shapes.length; i += 1) {
        for (let j = i + 1; j < shapes.length; j += 1)
          expect(polygonClipping.intersection(shapes[i]!, shapes[j]!)).toEqual([]);
      }
    }),
    { seed: 11, numRuns: 25 },
  );
});

test('only sheets with something on them are made, and only neighbours that share a panel are joined', () => {
  const grid = sheetGrid(sheetSize('a4'));
  // A large triangle: the sheets at its empty corner must be missing.
  const garment = handGarment([
    {
      points: [
        [0, 0],
        [900, 0],
        [0, 900],
      ],
    },
    {
      points: [
        [0, 0],
        [100, 0],
        [100, 100],
        [0, 100],
      ],
    },
  ]);
  const drawn = garment.panels.map((_, i) => drawPanel(garment, i, false, lettering));
  const { placed, columns, rows } = arrange(
    grid,
    drawn.map((d, i) => [footprintOf(d, i, grid)] as const),
    { moreColumns: 0 },
  );
  const sheets = sheetsOf(
    grid,
    placed.map((p) =>
      onCanvas(drawn[p.index]!, p, [p.x - drawn[p.index]!.box.minX, p.y - drawn[p.index]!.box.minY]),
    ),
  );
  expect(sheets.length).toBeLessThan(columns * rows);
  for (const { first, second } of joinsOf(sheets)) {
    expect(Math.abs(first.column - second.column) + Math.abs(first.row - second.row)).toBe(1);
    expect(second.panels.some((p) => first.panels.includes(p))).toBe(true);
  }
});

test('rows go on after Z', () => {
  expect([0, 25, 26, 27, 52, 701, 702].map(rowLetters)).toEqual(['A', 'Z', 'AA', 'AB', 'BA', 'ZZ', 'AAA']);
});

// Outside figure: n = ceil((L − overlap) / (usable − overlap)); a 600 × 900 mm piece on A4 with 12 mm margins (186 × 273 usable).
test('a 600 × 900 mm piece takes 4 × 4 sheets of A4', () => {
  const grid = sheetGrid(sheetSize('a4'));
  expect(windowsFor(600, grid.stepX)).toBe(Math.ceil(590 / 176));
  expect(windowsFor(900, grid.stepY)).toBe(Math.ceil(890 / 263));
  expect([windowsFor(186, grid.stepX), windowsFor(186.01, grid.stepX)]).toEqual([1, 2]);
});
