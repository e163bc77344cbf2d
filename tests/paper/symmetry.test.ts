import { beforeAll, expect, test, vi } from 'vitest';
import { deriveGarment, howToCut, type Garment } from '../../src/garment';
import type { Polyline } from '../../src/geometry';
import { drawPanel } from '../../src/paper/drawPanel';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import type { PaperFonts } from '../../src/paper/fonts';
import type { TextMark } from '../../src/paper/marks';
import { openPen } from '../../src/paper/pen';
import { piecesPdf } from '../../src/paper';
import { design, panelLine, piece, rectangle } from '../making/designs';
import { readPdf } from './readPdf';

// Whole files are made and read back here: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let fonts: PaperFonts;
beforeAll(async () => {
  fonts = await fontsFromDisk();
});

/** A half front of 200 × 400 mm on the fold x = 100, a level and an upright below it, both mirrored. */
function garmentOf(foldPanels: boolean): Garment {
  const front = piece(rectangle(200, 400, [100, 50]), {
    fold: [
      [100, 450],
      [100, 50],
    ],
    foldPanels,
  });
  const level: Polyline = [
    [100, 200],
    [300, 200],
  ];
  const upright: Polyline = [
    [190, 200],
    [190, 450],
  ];
  return deriveGarment(design([front], [panelLine(level, 0), panelLine(upright, 1)]));
}

const wordsOf = async (g: Garment, index: number): Promise<string[]> => {
  const { lettering } = await openPen(fonts, 'test');
  return drawPanel(g, index, false, lettering)
    .marks.filter((m): m is TextMark => m.kind === 'text')
    .map((m) => m.text);
};

test('the printed piece of two mirrored panels says both numbers', async () => {
  const g = garmentOf(false);
  const index = g.panels.findIndex((p) => howToCut(g, p).count === 2);
  const { twin } = howToCut(g, g.panels[index]!);
  const words = await wordsOf(g, index);
  expect(words).toContain(`${index + 1}`);
  expect(words).toContain(`mirrored ${twin}`);
  expect(words).toContain('Cut 1 and 1 mirrored');
});

test('a panel on the fold says so along its straight edge, and is half as wide', async () => {
  const [whole, folded] = [garmentOf(false), garmentOf(true)];
  const index = folded.panels.findIndex((p) => howToCut(folded, p).onFold);
  const { lettering } = await openPen(fonts, 'test');
  expect(await wordsOf(folded, index)).toContain('place on fold');
  const widthOf = (g: Garment): number => drawPanel(g, index, false, lettering).panel.box.maxX;
  expect(widthOf(folded)).toBeCloseTo(widthOf(whole) / 2, 3);
});

test('the file of pieces has no second piece for a mirrored copy', async () => {
  const g = garmentOf(false);
  const { bytes } = await piecesPdf(g, { fonts, paper: 'a0' });
  const words = (await readPdf(bytes)).map((page) => page.words).join(' ');
  const second = g.panels.findIndex((p) => howToCut(g, p).count === 0) + 1;
  expect(words.match(/Cut 1 and 1 mirrored/g)).toHaveLength(2);
  // the list of panels names it; no piece of its own does
  expect(words.match(/The mirrored copy of/g)).toHaveLength(1);
  expect(second).toBeGreaterThan(0);
});
