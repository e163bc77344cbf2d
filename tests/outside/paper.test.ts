/** Paper measured by pdf.js and against published sizes. */
import { beforeAll, expect, test, vi } from 'vitest';
import { type PiecesPdf, piecesPdf } from '../../src/paper';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import { contrast } from '../../src/pattern';
import type { PaperSize } from '../../src/pattern';
import { box, handGarment } from '../paper/handGarment';
import { type ReadPage, readPdf, renderPage } from '../paper/readPdf';

// Whole files are made, read back and rendered here: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const fonts = await fontsFromDisk();
/** The first panel's cutting line is 100 × 200 mm: 70 × 170 with 15 all round. */
const garment = handGarment([
  { points: box(70, 170) },
  { points: box(300, 420), colour: 1 },
  { points: box(40, 60) },
]);

let a4: PiecesPdf;
let pages: ReadPage[];
beforeAll(async () => {
  a4 = await piecesPdf(garment, { paper: 'a4', fonts });
  pages = await readPdf(a4.bytes);
});

/** Width and height of a closed path. */
function sides(lines: readonly (readonly (readonly [number, number])[])[]): [number, number] {
  const all = lines.flat();
  const [xs, ys] = [all.map((p) => p[0]), all.map((p) => p[1])];
  return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
}

const PAPER: readonly (readonly [PaperSize, number, number, string])[] = [
  ['a4', 595.276, 841.89, 'ISO 216: 210 × 297 mm'],
  ['a3', 841.89, 1190.551, 'ISO 216: 297 × 420 mm'],
  ['letter', 612, 792, 'ANSI A: 8.5 × 11 in'],
  ['tabloid', 792, 1224, 'ANSI B: 11 × 17 in'],
  ['a0', 2383.937, 3370.394, 'ISO 216: 841 × 1189 mm'],
];

test.each(PAPER)('pages of %s are %d × %d points (%s)', async (paper, width, height) => {
  const { bytes, sheets } = await piecesPdf(garment, { paper, fonts });
  const read = await readPdf(bytes);
  expect(read.length).toBe(sheets.pages);
  for (const page of read) {
    expect(Math.abs(page.points[0] - width)).toBeLessThan(0.5);
    expect(Math.abs(page.points[1] - height)).toBeLessThan(0.5);
  }
});

// 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
test('a roll of 36 in is 914.4 mm wide and no page is longer than 14,400 points (PDF Reference 1.6)', async () => {
  const long = handGarment(Array.from({ length: 14 }, () => ({ points: box(800, 600) })));
  const { bytes, sheets } = await piecesPdf(long, { paper: 'roll:914.4', fonts });
  const read = await readPdf(bytes);
  expect(sheets.pages).toBe(2);
  for (const page of read) {
    expect(page.points[0]).toBeCloseTo(36 * 72, 1);
    expect(page.points[1]).toBeLessThanOrEqual(14400);
  }
});

test('a line of 100 mm is 100 mm in the file, and 100 mm across pixels at 300 dots per inch', async () => {
  const outline = pages
    .flatMap((p) => p.paths)
    .find(({ lines, isClosed }) => isClosed && Math.abs(sides(lines)[1] - 200) < 1)!;
  expect(Math.abs(sides(outline.lines)[0] - 100)).toBeLessThan(0.01);
  expect(Math.abs(sides(outline.lines)[1] - 200)).toBeLessThan(0.01);
  const number = pages.findIndex((p) => p.paths.includes(outline)) + 1;
  const picture = await renderPage(a4.bytes, number, 300);
  const [x, y] = [
    Math.min(...outline.lines.flat().map((p) => p[0])),
    Math.min(...outline.lines.flat().map((p) => p[1])),
  ];
  const row = Math.round((y + 160) * picture.perMm);
  const centreOf = (around: number): number => {
    let [sum, weight] = [0, 0];
    for (
      let px = Math.round((around - 1) * picture.perMm);
      px <= Math.round((around + 1) * picture.perMm);
      px += 1
    ) {
      sum += (px + 0.5) * picture.darkness(px, row);
      weight += picture.darkness(px, row);
    }
    return sum / weight / picture.perMm;
  };
  expect(Math.abs(centreOf(x + 100) - centreOf(x) - 100)).toBeLessThan(0.1);
});

test('the test squares of the first sheet measure 50 mm and 2 in', () => {
  const squares = pages[0]!.paths.filter((p) => p.isClosed && p.strokes).map((p) => sides(p.lines));
  for (const side of [50, 50.8]) {
    expect(squares.some(([w, h]) => Math.abs(w - side) < 0.005 && Math.abs(h - side) < 0.005)).toBe(true);
  }
});

test('the rulers of the first sheet count true centimetres and inches', () => {
  const { texts, paths } = pages[0]!;
  const base = paths.find(
    ({ lines, isClosed }) => !isClosed && Math.abs(sides(lines)[0] - 152.4) < 0.01 && sides(lines)[1] === 0,
  )!;
  expect(base).toBeDefined();
  const start = Math.min(...base.lines.flat().map((p) => p[0]));
  const middleOf = (t: (typeof texts)[number]): number => t.at[0] + t.width / 2;
  const beside = texts.filter((t) => Math.abs(t.at[1] - base.lines[0]![0]![1]) < 8);
  const hasLabel = (label: string, at: number): boolean =>
    beside.some((t) => t.text === label && Math.abs(middleOf(t) - start - at) < 0.1);
  for (let cm = 1; cm <= 15; cm += 1) expect(hasLabel(`${cm}`, cm * 10), `${cm} cm`).toBe(true);
  for (let inch = 1; inch <= 6; inch += 1) expect(hasLabel(`${inch}`, inch * 25.4), `${inch} in`).toBe(true);
});

test('pixels nearer than 12 mm to the paper edge are white on every page', async () => {
  for (let n = 1; n <= pages.length; n += 1) {
    const picture = await renderPage(a4.bytes, n, 72);
    // One pixel at 72 dots per inch is 0.35 mm; the one that the margin runs through may be grey.
    const margin = Math.floor(12 * picture.perMm) - 1;
    let dark = 0;
    for (let y = 0; y < picture.height; y += 1) {
      for (let x = 0; x < picture.width; x += 1) {
        const isMargin =
          x < margin || y < margin || x >= picture.width - margin || y >= picture.height - margin;
        if (isMargin && picture.darkness(x, y) > 0) dark += 1;
      }
    }
    expect(dark, `page ${n}`).toBe(0);
  }
});

// Public contrast checkers' values (WCAG 2 formula, W3C), first four; the last two recomputed from the formula.
test.each([
  ['#767676', 4.5422],
  ['#777777', 4.4781],
  ['#949494', 3.0335],
  ['#595959', 7.0047],
  ['#ff0000', 3.9985],
  ['#0000ff', 8.5925],
])('%s on white has a contrast of %d', (colour, expected) => {
  expect(contrast(colour, '#ffffff')).toBeCloseTo(expected, 3);
});

// Width table of the face itself, as pdf.js reads it from the embedded font: a measure independent of ours.
test('lettering is as wide as the embedded face says', () => {
  const title = pages[0]!.texts.find((t) => t.text === 'test design')!;
  expect(title.size).toBeCloseTo(9, 2);
  expect(title.width).toBeGreaterThan(40);
  const squareLabel = pages[0]!.texts.find((t) => t.text === '5 cm')!;
  const square = pages[0]!.paths.find((p) => p.isClosed && Math.abs(sides(p.lines)[0] - 50) < 0.005)!;
  const middle =
    (Math.min(...square.lines.flat().map((p) => p[0])) + Math.max(...square.lines.flat().map((p) => p[0]))) /
    2;
  expect(Math.abs(squareLabel.at[0] + squareLabel.width / 2 - middle)).toBeLessThan(0.05);
});
