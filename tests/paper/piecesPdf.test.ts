import { beforeAll, expect, test, vi } from 'vitest';
import {
  type Pt,
  distance,
  flattenRing,
  pathLength,
  signedArea,
  signedAreaOfPoints,
} from '../../src/geometry';
import { type PiecesPdf, piecesPdf } from '../../src/paper';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import { classGarment } from './classGarment';
import { box, handGarment } from './handGarment';
import { type ReadPage, type ReadPath, readPdf } from './readPdf';

// Whole files are made, read back and rendered here: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const fonts = await fontsFromDisk();
const garment = classGarment();
// A4 less 12 mm margins, neighbours sharing 10 mm.
const STEP: Pt = [176, 263];
const MARGIN = 12;

let made: PiecesPdf;
let sheets: ReadPage[];
let first: ReadPage[];
beforeAll(async () => {
  made = await piecesPdf(garment, { paper: 'a4', fonts });
  const pages = await readPdf(made.bytes);
  sheets = pages.filter((p) => sheetName(p) !== null);
  first = pages.filter((p) => sheetName(p) === null);
});

const nameText = (page: ReadPage): string | undefined =>
  page.texts.find((t) => Math.abs(t.size - 7) < 0.01 && /^[A-Z]+\d+$/.test(t.text))?.text;
const sheetName = (page: ReadPage): string | null =>
  /sheet \d+ of \d+/.test(page.words) ? (nameText(page) ?? null) : null;

/** Page to canvas, from the name of the sheet alone. */
function toCanvas(page: ReadPage): (p: Pt) => Pt {
  const name = sheetName(page)!;
  const row = name.charCodeAt(0) - 65;
  const column = Number(name.slice(1)) - 1;
  return ([x, y]) => [x - MARGIN + column * STEP[0], y - MARGIN + row * STEP[1]];
}

const isCuttingLine = (p: ReadPath): boolean =>
  p.isClosed && p.strokes && !p.fills && Math.abs(p.lineWidth - 0.4) < 0.005;

/** Cutting lines of all sheets on the canvas, one entry per panel, with the sheets that draw it. */
function reassembled(): { points: Pt[]; shownIn: { page: ReadPage; path: ReadPath }[] }[] {
  const found: { points: Pt[]; shownIn: { page: ReadPage; path: ReadPath }[] }[] = [];
  for (const page of sheets) {
    for (const path of page.paths.filter(isCuttingLine)) {
      const points = path.lines[0]!.map(toCanvas(page));
      const known = found.find(
        (f) => f.points.length === points.length && f.points.every((p, i) => distance(p, points[i]!) < 0.02),
      );
      if (known) known.shownIn.push({ page, path });
      else found.push({ points, shownIn: [{ page, path }] });
    }
  }
  return found;
}

test('the pages are counted, and every sheet of the grid has its own name', () => {
  expect(first.length + sheets.length).toBe(made.sheets.pages);
  const names = sheets.map(sheetName);
  expect(new Set(names).size).toBe(names.length);
  for (const name of names) {
    expect(name!.charCodeAt(0) - 64).toBeLessThanOrEqual(made.sheets.rows);
    expect(Number(name!.slice(1))).toBeLessThanOrEqual(made.sheets.columns);
  }
});

test('sheets laid together by their names give every cutting line once, in its true size', () => {
  const lines = reassembled();
  expect(lines.length).toBe(garment.panels.length);
  const areas = lines.map((l) => Math.abs(signedAreaOfPoints(l.points))).sort((a, b) => a - b);
  const derived = garment.cutPieces.map((c) => signedArea(c.cutting)).sort((a, b) => a - b);
  areas.forEach((area, i) => expect(Math.abs(area / derived[i]! - 1)).toBeLessThan(1e-4));
});

test('every point of every cutting line shows on a sheet', () => {
  for (const { points, shownIn } of reassembled()) {
    const windows = shownIn.map(({ page, path }) => {
      const [dx, dy] = toCanvas(page)([0, 0]);
      return {
        minX: path.clip.minX + dx,
        minY: path.clip.minY + dy,
        maxX: path.clip.maxX + dx,
        maxY: path.clip.maxY + dy,
      };
    });
    const missing = points.flatMap((a, i): Pt[] => {
      const b = points[(i + 1) % points.length]!;
      const steps = Math.ceil(distance(a, b));
      const along = Array.from({ length: steps }, (_, k): Pt => [
        a[0] + ((b[0] - a[0]) * k) / steps,
        a[1] + ((b[1] - a[1]) * k) / steps,
      ]);
      return along.filter(
        ([x, y]) =>
          !windows.some(
            (w) => x >= w.minX - 0.01 && x <= w.maxX + 0.01 && y >= w.minY - 0.01 && y <= w.maxY + 0.01,
          ),
      );
    });
    expect(missing).toEqual([]);
  }
});

test('nothing drawn on a sheet can show outside its margins', () => {
  for (const page of sheets) {
    for (const { clip } of [...page.paths, ...page.texts]) {
      expect(clip.minX).toBeGreaterThanOrEqual(MARGIN - 0.001);
      expect(clip.minY).toBeGreaterThanOrEqual(MARGIN - 0.001);
      expect(clip.maxX).toBeLessThanOrEqual(page.width - MARGIN + 0.001);
      expect(clip.maxY).toBeLessThanOrEqual(page.height - MARGIN + 0.001);
    }
  }
  for (const page of first) {
    for (const t of page.texts) {
      expect(t.at[0]).toBeGreaterThanOrEqual(MARGIN - 0.001);
      expect(t.at[0] + t.width).toBeLessThanOrEqual(page.width - MARGIN);
      expect(t.at[1]).toBeLessThanOrEqual(page.height - MARGIN);
    }
  }
});

test('every panel is numbered on a sheet and listed on the first ones', () => {
  const large = sheets.flatMap((p) => p.texts.filter((t) => t.size > 7.5).map((t) => t.text));
  const listed = first.flatMap((p) => p.texts.map((t) => t.text));
  for (let n = 1; n <= garment.panels.length; n += 1) {
    expect(large).toContain(`${n}`);
    expect(listed).toContain(`${n}`);
  }
});

test('a join’s number stands on the two sheets it joins and nowhere else', () => {
  const numbers = sheets.flatMap((p) =>
    p.texts.filter((t) => Math.abs(t.size - 2.6) < 0.01 && /^\d+$/.test(t.text)).map((t) => t.text),
  );
  expect(numbers.length).toBeGreaterThan(10);
  const counts = new Map<string, number>();
  for (const n of numbers) counts.set(n, (counts.get(n) ?? 0) + 1);
  expect([...counts.values()].every((c) => c === 2)).toBe(true);
  expect([...counts.keys()].map(Number).sort((a, b) => a - b)).toEqual(
    Array.from({ length: counts.size }, (_, i) => i + 1),
  );
});

test('fractions, accents and inch lengths survive', async () => {
  const inches = await readPdf(
    (await piecesPdf(classGarment({ units: 'in' }), { paper: 'letter', fonts })).bytes,
  );
  expect(inches[0]!.words).toContain('Half-moon sheath, ⅝ and é');
  expect(inches.map((p) => p.words).join(' ')).toContain('9/16 in');
});

test('the same garment gives the same bytes, another one others', async () => {
  const again = await piecesPdf(classGarment(), { paper: 'a4', fonts });
  expect(Buffer.compare(Buffer.from(again.bytes), Buffer.from(made.bytes))).toBe(0);
  const other = await piecesPdf(classGarment({ name: 'Other' }), { paper: 'a4', fonts });
  const idOf = (bytes: Uint8Array): string =>
    /\/ID \[ <([0-9A-F]{32})>/.exec(Buffer.from(bytes).toString('latin1'))![1]!;
  expect(idOf(other.bytes)).not.toBe(idOf(made.bytes));
});

test('panels that fit on one sheet are each on one, whatever else is printed', async () => {
  const small = Array.from({ length: 9 }, (_, i) => ({ points: box(60 + 10 * i, 220 - 20 * i) }));
  const many = handGarment([{ points: box(700, 500) }, ...small, { points: box(150, 240) }]);
  const pages = (await readPdf((await piecesPdf(many, { paper: 'a4', fonts })).bytes)).filter(
    (p) => sheetName(p) !== null,
  );
  const shown = new Map<string, number>();
  for (const page of pages) {
    for (const path of page.paths.filter(isCuttingLine)) {
      const xs = path.lines[0]!.map((p) => p[0]);
      const ys = path.lines[0]!.map((p) => p[1]);
      const size = `${Math.round(Math.max(...xs) - Math.min(...xs))}×${Math.round(Math.max(...ys) - Math.min(...ys))}`;
      shown.set(size, (shown.get(size) ?? 0) + 1);
    }
  }
  for (const [size, count] of shown) {
    const [w, h] = size.split('×').map(Number) as [number, number];
    if (w <= 186 && h <= 273) expect(count, size).toBe(1);
  }
  expect(shown.size).toBe(11);
});

test('true scale: cutting lines enclose the area they were derived with', async () => {
  const hand = handGarment([
    { points: box(70, 170) },
    {
      points: [
        [0, 0],
        [120, 20],
        [90, 150],
      ],
    },
  ]);
  const pages = await readPdf((await piecesPdf(hand, { paper: 'a4', fonts })).bytes);
  const read = pages
    .flatMap((p) => p.paths.filter(isCuttingLine))
    .map((p) => Math.abs(signedAreaOfPoints(p.lines[0]!)));
  for (const cut of hand.cutPieces) {
    const area = Math.abs(signedArea(cut.cutting));
    expect(read.some((a) => Math.abs(a / area - 1) < 1e-4)).toBe(true);
  }
  expect(pathLength(hand.cutPieces[0]!.cutting)).toBeCloseTo(600, 6);
  expect(flattenRing(hand.cutPieces[0]!.cutting).length).toBe(4);
});

test('hostile names are printed harmlessly', async () => {
  const name = `\u202egnirts\u0007\n(evil) \\ ${'very '.repeat(60)}long 漢字 \ud800`;
  const { bytes } = await piecesPdf(handGarment([{ points: box(100, 100) }], { name }), {
    paper: 'a4',
    fonts,
  });
  const [page] = await readPdf(bytes);
  expect(page!.words).toContain('gnirts (evil) \\');
  expect([...page!.words].every((c) => c >= ' ' && c !== '\u202e')).toBe(true);
  for (const t of page!.texts) expect(t.at[0] + t.width).toBeLessThanOrEqual(198);
});

test('an unknown paper and a garment without panels are refused with what to do', async () => {
  await expect(piecesPdf(garment, { paper: 'a5' as 'a4', fonts })).rejects.toThrow(/Use a4, letter/);
  await expect(piecesPdf(garment, { paper: 'roll:9000', fonts })).rejects.toThrow(/200 to 5080/);
  await expect(piecesPdf(handGarment([]), { paper: 'a4', fonts })).rejects.toThrow(/no panels/);
});

test('on A0 and on a roll the notes stand beside the pieces and nothing covers anything', async () => {
  for (const paper of ['a0', 'roll:914'] as const) {
    const { bytes, sheets: count } = await piecesPdf(garment, { paper, fonts });
    const pages = await readPdf(bytes);
    expect(pages.length).toBe(count.pages);
    expect(pages[0]!.words).toContain('Measure before you cut');
    const lines = pages.flatMap((p) => p.paths.filter(isCuttingLine).map((path) => ({ p, path })));
    expect(lines.length).toBe(garment.panels.length);
    // The notes are 186 mm wide at the upper left; no cutting line may run through them.
    const notesEnd = Math.max(
      ...pages[0]!.texts
        .filter((t) => t.at[0] < 198 && t.size < 4)
        .map((t) => t.at[1])
        .filter((y) => y < 600),
    );
    for (const { p, path } of lines.filter((l) => l.p === pages[0])) {
      expect(
        path.lines[0]!.every(([x, y]) => x > 198 || y > Math.min(notesEnd, 300)),
        p.words.slice(0, 20),
      ).toBe(true);
    }
  }
});
