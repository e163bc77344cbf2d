import { beforeAll, expect, test, vi } from 'vitest';
import { type LayPlan, layJobs, planCloth, planLay, sayAtCounter } from '../../src/fabric';
import type { Garment } from '../../src/garment';
import type { Polyline, Pt } from '../../src/geometry';
import { layPlansPdf } from '../../src/paper';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import { lengthMarks } from '../../src/paper/layFrame';
import type { Colour, Design, RemnantId } from '../../src/pattern';
import { colour } from '../making/designs';
import { classGarment } from './classGarment';
import { box, handGarment } from './handGarment';
import { type ReadPage, type ReadPath, readPdf } from './readPdf';

// Whole files are made and read back here: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const fonts = await fontsFromDisk();

const onCloth = (over: Partial<Colour>): Partial<Design> => ({
  colours: [{ ...colour('rust', '#b5532f'), ...over }, colour('oat', '#e6dcc4')],
});

const plansOf = (garment: Garment): LayPlan[] =>
  layJobs(garment, { seconds: 0.05 }).flatMap((job) => {
    const { own, bought } = planCloth(job, garment.design.remnants);
    return [...own, bought];
  });

async function readLays(garment: Garment, plans = plansOf(garment)): Promise<ReadPage[]> {
  const { bytes, pages } = await layPlansPdf(garment, plans, { paper: 'a4', fonts });
  const read = await readPdf(bytes);
  expect(read).toHaveLength(pages);
  return read;
}

/** `1:8, not full size` as 8. */
const scaleOf = ({ words }: ReadPage): number => Number(/1:([\d.]+), not full size/.exec(words)![1]);

const extent = (path: ReadPath): { width: number; height: number } => {
  const all = path.lines.flat();
  const [xs, ys] = [all.map((p) => p[0]), all.map((p) => p[1])];
  return { width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys) - Math.min(...ys) };
};

/** Pieces are filled and outlined at once, and shown within the cloth alone. */
const piecesOn = (page: ReadPage): ReadPath[] =>
  page.paths.filter((p) => p.isClosed && p.fills && p.strokes && p.clip.maxX < page.width - 1);

const wordsOf = ({ words }: ReadPage): string => words.replace(/\s+/g, ' ');

/** No lettering in the margins of the page or over other lettering. */
function expectTidy(page: ReadPage): void {
  const boxes = page.texts
    .filter((t) => t.text.trim() !== '')
    .map((t) => ({
      text: t.text,
      x: [t.at[0], t.at[0] + t.width] as const,
      // Figures and capitals reach about 0.73 em above the base line.
      y: [t.at[1] - t.size * 0.73, t.at[1]] as const,
    }));
  boxes.forEach((a, i) => {
    expect(a.x[0], a.text).toBeGreaterThan(12);
    expect(a.x[1], a.text).toBeLessThan(page.width - 12);
    expect(a.y[0], a.text).toBeGreaterThan(12);
    expect(a.y[1], a.text).toBeLessThan(page.height - 12);
    for (const b of boxes.slice(i + 1)) {
      const meets = a.x[0] < b.x[1] && b.x[0] < a.x[1] && a.y[0] < b.y[1] && b.y[0] < a.y[1];
      expect(meets, `“${a.text}” over “${b.text}”`).toBe(false);
    }
  });
  for (const { lines, clip } of page.paths) {
    for (const [x, y] of lines.flat()) {
      if (x < clip.minX || x > clip.maxX || y < clip.minY || y > clip.maxY) continue;
      expect(x).toBeGreaterThan(11.5);
      expect(x).toBeLessThan(page.width - 11.5);
      expect(y).toBeGreaterThan(11.5);
      expect(y).toBeLessThan(page.height - 11.5);
    }
  }
}

function holds(ring: readonly Pt[], [x, y]: Pt): boolean {
  let inside = false;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    if (a[1] > y !== b[1] > y && x < ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
  });
  return inside;
}

const demo = classGarment();
let plans: LayPlan[];
let pages: ReadPage[];
beforeAll(async () => {
  plans = plansOf(demo);
  pages = await readLays(demo, plans);
});

test('every cloth has a page that says its name, its scale, what to buy and that it is not full size', () => {
  expect(pages).toHaveLength(plans.length);
  plans.forEach((plan, i) => {
    const name = demo.design.colours.find((c) => c.id === plan.colour)!.name;
    const words = wordsOf(pages[i]!);
    expect(words).toContain(`Lay plan: ${name}`);
    expect(words).toContain(`Read from this plan: buy ${sayAtCounter(plan.buy, 'cm')}.`);
    expect([2.5, 4, 5, 8, 10, 12, 15, 20, 25]).toContain(scaleOf(pages[i]!));
  });
});

test('lettering keeps out of the margins and off other lettering', () => pages.forEach(expectTidy));

test('a piece is drawn to its scale to a tenth of a millimetre', async () => {
  const garment = handGarment(
    [{ points: box(570, 370) }, { points: box(170, 70) }],
    onCloth({ width: 1400 }),
  );
  const [page] = await readLays(garment);
  const scale = scaleOf(page!);
  // Allowances of 15 mm all round: 600 × 400 and 200 × 100 as cut.
  const sizes = piecesOn(page!).map((p) => {
    const { width, height } = extent(p);
    return [Math.max(width, height) * scale, Math.min(width, height) * scale];
  });
  expect(sizes).toHaveLength(2);
  for (const [i, [long, short]] of [
    [600, 400],
    [200, 100],
  ].entries()) {
    expect(Math.abs(sizes[i]![0]! - long!) / scale).toBeLessThan(0.1);
    expect(Math.abs(sizes[i]![1]! - short!) / scale).toBeLessThan(0.1);
  }
});

test('ticks along the cloth are 10 cm apart at the scale of the page', () => {
  const page = pages[0]!;
  const scale = scaleOf(page);
  const numbers = page.texts.filter((t) => /^\d+0$/.test(t.text) && t.size < 2.5);
  const at = (n: string): number[] =>
    numbers.filter((t) => t.text === n).map((t) => (t.at[0] > 40 ? t.at[0] + t.width / 2 : NaN));
  const [ten, forty] = [at('10'), at('40')].map((xs) => xs.find((x) => !Number.isNaN(x))!);
  expect(Math.abs(forty! - ten! - 300 / scale)).toBeLessThan(0.1);
});

test('every piece has its number, inside it or beside it with a leader, however small the pieces are', async () => {
  const small = handGarment(
    [...Array.from({ length: 20 }, () => ({ points: box(1, 1) })), { points: box(600, 1600) }],
    onCloth({ width: 1400 }),
  );
  const [page] = await readLays(small);
  expectTidy(page!);
  const onPage = page!.texts.filter((t) => t.at[0] < 175).map((t) => t.text);
  for (let n = 1; n <= 21; n += 1) expect(onPage, `${n}`).toContain(`${n}`);
});

test('numbers inside pieces lie wholly inside them', () => {
  for (const page of pages) {
    const rings = piecesOn(page).map((p) => p.lines[0]!);
    const large = page.texts.filter((t) => /^\d+$/.test(t.text) && t.size > 3.3);
    expect(large.length).toBeGreaterThan(0);
    for (const t of large) {
      const corners: Pt[] = [
        t.at,
        [t.at[0] + t.width, t.at[1]],
        [t.at[0], t.at[1] - t.size * 0.73],
        [t.at[0] + t.width, t.at[1] - t.size * 0.73],
      ];
      expect(
        rings.some((ring) => corners.every((c) => holds(ring, c))),
        t.text,
      ).toBe(true);
    }
  }
});

test('one-way cloth says so and its arrows have one head', async () => {
  const points: Polyline = box(400, 600);
  const heads = async (nap: boolean): Promise<number> => {
    const [page] = await readLays(handGarment([{ points }], onCloth({ width: 1400, nap })));
    expect(wordsOf(page!).includes('One-way cloth: every arrow points the same way.')).toBe(nap);
    const [ring] = piecesOn(page!).map((p) => p.lines[0]!);
    const isHead = (p: ReadPath): boolean => p.fills && !p.strokes && p.lines[0]!.length === 3;
    return page!.paths.filter((p) => isHead(p) && p.lines[0]!.every((q) => holds(ring!, q))).length;
  };
  expect(await heads(true)).toBe(1);
  expect(await heads(false)).toBe(2);
});

test('folded cloth is drawn from fold to selvedges, a pair once and cut through both layers', async () => {
  const base = classGarment();
  const folded = classGarment({ colours: base.design.colours.map((c) => ({ ...c, layering: 'folded' })) });
  const laid = plansOf(folded);
  const read = await readLays(folded, laid);
  read.forEach(expectTidy);
  const sleeves = laid.findIndex((plan) => plan.placed.some((p) => p.copy === 2));
  const page = read[sleeves]!;
  expect(wordsOf(page)).toContain('folded lengthwise, right sides together: 70 cm from fold to selvedges.');
  expect(wordsOf(page)).toContain('fold here, right sides together');
  expect(wordsOf(page)).toContain('at once');
  expect(piecesOn(page).length).toBeLessThan(laid[sleeves]!.placed.length);
});

test('a repeat is drawn as lines that far apart', async () => {
  const garment = handGarment(
    [{ points: box(400, 600) }],
    onCloth({ width: 1400, repeat: { along: 200, across: 0 } }),
  );
  const [page] = await readLays(garment);
  const scale = scaleOf(page!);
  const dotted = page!.paths.filter((p) => p.strokes && !p.fills && Math.abs(p.lineWidth - 0.2) < 0.01);
  const wide = dotted.filter(
    (p) => Math.abs(Math.max(extent(p).width, extent(p).height) - 1400 / scale) < 0.1,
  );
  const along = wide
    .map((p) => (extent(p).height < 0.01 ? p.lines[0]![0]![1] : p.lines[0]![0]![0]))
    .sort((a, b) => a - b);
  const gaps = along.slice(1).map((v, i) => v - along[i]!);
  expect(gaps.filter((g) => Math.abs(g - 200 / scale) < 0.1).length).toBeGreaterThanOrEqual(2);
  expect(wordsOf(page!)).toContain('the repeat, 20 cm along');
});

test('one’s own cloth has a page of its own with its name and what is left over', async () => {
  const garment = handGarment([{ points: box(570, 370) }, { points: box(570, 620) }], {
    ...onCloth({ width: 750 }),
    remnants: [
      {
        id: 'r1' as RemnantId,
        name: 'curtain end',
        colour: colour('rust', '#b5532f').id,
        count: 1,
        outline: [
          [0, 0],
          [500, 0],
          [500, 700],
          [0, 700],
        ],
      },
    ],
  });
  const read = await readLays(garment);
  read.forEach(expectTidy);
  const words = wordsOf(read[0]!);
  expect(words).toContain('On your own cloth: curtain end');
  expect(words).toContain('1 piece cut from cloth you have. Left over in one piece:');
  expect(words).not.toContain('buy');
  expect(wordsOf(read[1]!)).toContain('Read from this plan: buy');
});

test('a panel off its grain is warned of in words', async () => {
  const garment = handGarment([{ points: box(300, 500) }], onCloth({ width: 1400 }));
  const tilted = layJobs(garment, { seconds: 0.05 }).map((job) =>
    planLay({ ...job, pieces: job.pieces.map((p) => ({ ...p, turns: [45] })) }),
  );
  const [page] = await readLays(garment, tilted);
  expect(wordsOf(page!)).toContain('45° off its grain');
});

test('a long lay goes on over pages that share a strip and show every number', async () => {
  const garment = handGarment(
    Array.from({ length: 14 }, (_, i) => ({ points: box(700 + 10 * i, 950) })),
    onCloth({ width: 1400 }),
  );
  const read = await readLays(garment);
  expect(read.length).toBeGreaterThan(1);
  read.forEach(expectTidy);
  read.forEach((page, i) => expect(wordsOf(page)).toContain(`part ${i + 1} of ${read.length}`));
  const all = read.flatMap((p) => p.texts.map((t) => t.text));
  for (let n = 1; n <= 14; n += 1) expect(all).toContain(`${n}`);
});

test('seventy panels have their key on the page itself', async () => {
  const garment = handGarment(
    Array.from({ length: 70 }, (_, i) => ({ points: box(140 + 10 * (i % 7), 190) })),
    onCloth({ width: 1400 }),
  );
  const read = await readLays(garment);
  read.forEach(expectTidy);
  expect(read).toHaveLength(1);
  const numbers = read[0]!.texts.map((t) => t.text);
  for (let n = 1; n <= 70; n += 1)
    expect(numbers.filter((t) => t === `${n}`).length, `${n}`).toBeGreaterThanOrEqual(2);
});

test('very many panels have their key on a page of its own', async () => {
  const garment = handGarment(
    Array.from({ length: 150 }, () => ({ points: box(160, 170) })),
    onCloth({ width: 1400 }),
  );
  const read = await readLays(garment);
  read.forEach(expectTidy);
  expect(read.some((page) => wordsOf(page).includes('Lay plan: rust: key'))).toBe(true);
});

test('inch designs are marked every eighth of a yard and numbered in inches', () => {
  const marks = lengthMarks('in', 0, 36 * 25.4, 8);
  marks.forEach((m, i) => expect(m.at).toBeCloseTo(i * 114.3, 9));
  expect(marks).toHaveLength(9);
  expect(marks.flatMap((m) => m.number ?? [])).toEqual(['0', '9', '18', '27', '36']);
});

test('numbers along the cloth thin out before they touch', () => {
  const numbers = (scale: number): (string | null)[] =>
    lengthMarks('cm', 0, 1000, scale).flatMap((m) => m.number ?? []);
  expect(numbers(10)).toEqual(['0', '10', '20', '30', '40', '50', '60', '70', '80', '90', '100']);
  expect(numbers(20)).toEqual(['0', '25', '50', '75', '100']);
  expect(numbers(50)).toEqual(['0', '50', '100']);
});

test('without a piece on any cloth there is nothing to print', async () => {
  await expect(layPlansPdf(demo, [], { fonts })).rejects.toThrow('there is no lay plan to print');
});

test('the same plans give the same bytes', async () => {
  const make = async (): Promise<Buffer> =>
    Buffer.from((await layPlansPdf(demo, plans, { paper: 'a4', fonts })).bytes);
  expect(Buffer.compare(await make(), await make())).toBe(0);
});
