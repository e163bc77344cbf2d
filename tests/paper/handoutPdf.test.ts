import { beforeAll, expect, test, vi } from 'vitest';
import { type LayPlan, layJobs, planLay, sayAtCounter, widthTable } from '../../src/fabric';
import { tellStep } from '../../src/garment/telling';
import { handoutPdf } from '../../src/paper';
import { sizeOnGrain } from '../../src/paper/cutList';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import { classGarment } from './classGarment';
import { box, handGarment } from './handGarment';
import { type ReadPage, readPdf } from './readPdf';

// Whole files are made, read back and rendered here: seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const fonts = await fontsFromDisk();
const garment = classGarment();
let plans: LayPlan[];
let bytes: Uint8Array;
let pages: ReadPage[];
beforeAll(async () => {
  plans = layJobs(garment, { seconds: 0.05 }).map((job) => planLay(job));
  bytes = await handoutPdf(garment, plans, { paper: 'a4', fonts });
  pages = await readPdf(bytes);
});

const pageSaid = (match: RegExpExecArray): number => Number(match[1]);

const allWords = (): string =>
  pages
    .map((p) => p.words)
    .join(' ')
    .replace(/\s+/g, ' ');

test('every step stands in the handout in full, in order', () => {
  const words = allWords();
  let from = words.indexOf('Sewing order');
  for (const step of garment.plan.steps) {
    const { title, parts } = tellStep(garment, step);
    for (const said of [title, ...parts.map((p) => p.text)]) {
      const at = words.indexOf(said, from);
      expect(at, said).toBeGreaterThanOrEqual(from);
      from = at + said.length;
    }
  }
});

test('there is a box to tick for every cut piece and every step', () => {
  const squares = (side: number): number =>
    pages.flatMap((p) =>
      p.paths.filter(({ lines, isClosed, fills, strokes }) => {
        const xs = lines[0]!.map((q) => q[0]);
        const ys = lines[0]!.map((q) => q[1]);
        const [w, h] = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
        return isClosed && strokes && !fills && Math.abs(w - side) < 0.01 && Math.abs(h - side) < 0.01;
      }),
    ).length;
  const copies = garment.panels.reduce((sum, p) => sum + (p.piece === 'sleeve' ? 2 : 1), 0);
  expect(squares(4.4)).toBe(copies);
  expect(squares(5)).toBe(garment.plan.steps.length);
});

test('every cloth is listed with what to buy, and names the page of the lay plan it is read from', () => {
  const shopping = pages.find((p) => p.words.includes('What to buy'))!;
  for (const plan of plans) expect(shopping.words).toContain(sayAtCounter(plan.buy, 'cm'));
  const said = [...shopping.words.replace(/\s+/g, ' ').matchAll(/lay plan on page (\d+)\./g)].map(pageSaid);
  expect(said).toHaveLength(plans.length);
  said.forEach((page, i) => {
    const name = garment.design.colours.find((c) => c.id === plans[i]!.colour)!.name;
    expect(pages[page - 1]!.words).toContain(`Lay plan: ${name}`);
    expect(pages[page - 1]!.words).toContain(`buy ${sayAtCounter(plans[i]!.buy, 'cm')}`);
  });
});

test('a cloth without a lay plan says so', async () => {
  const read = await readPdf(await handoutPdf(garment, [], { paper: 'a4', fonts }));
  expect(read.map((p) => p.words).join(' ')).toContain('not laid yet');
});

test('prices are listed with their sum, and what has none is named', async () => {
  const [first, ...others] = garment.design.colours;
  const priced = classGarment({ colours: [{ ...first!, price: 12.5 }, ...others] });
  const read = await readPdf(await handoutPdf(priced, plans, { paper: 'a4', fonts }));
  const words = read.find((p) => p.words.includes('What to buy'))!.words.replace(/\s+/g, ' ');
  const { buy } = plans.find((p) => p.colour === first!.id)!;
  const cost = ((buy / 1000) * 12.5).toFixed(2);
  expect(words).toContain(`${cost} in all, without`);
  for (const c of others) expect(words.slice(words.indexOf('in all'))).toContain(c.name);
});

test('a table of other widths says what to ask for, the shown plan in its own place', async () => {
  const [job] = layJobs(garment, { seconds: 0.05 });
  const shown = plans.find((p) => p.colour === job!.colour)!;
  const { width } = garment.design.colours.find((c) => c.id === job!.colour)!;
  const { rows } = widthTable(job!, shown, { width, seconds: 0 });
  const widthTables = new Map([[job!.colour, rows]]);
  const read = await readPdf(await handoutPdf(garment, plans, { paper: 'a4', fonts, widthTables }));
  const page = read.find((p) => p.words.includes('Other widths'))!;
  const words = page.words.replace(/\s+/g, ' ').slice(page.words.indexOf('Other widths'));
  for (const { oneWay, entries } of rows) {
    const said = entries.map(({ plan }) =>
      plan!.placed.length > 0 ? sayAtCounter(plan!.buy, 'cm') : 'too narrow',
    );
    expect(words).toContain(`${oneWay ? 'All one way' : 'Either way up'} ${said.join(' ')}`);
  }
});

test('cautions defer to local rules and name cords, irons and blades', () => {
  const words = allWords();
  for (const word of ['Local rules', 'Cords', 'iron', 'Rotary cutter', 'toile', 'Nightwear'])
    expect(words).toContain(word);
});

test('no lettering leaves the page’s margins, however long names are', async () => {
  const name =
    'Very long name of a design that somebody typed without thinking of paper at all, twice over and more';
  const long = classGarment({
    name,
    units: 'in',
    colours: garment.design.colours.map((c) => ({ ...c, name: `${c.name} ${name}` })),
  });
  for (const page of await readPdf(await handoutPdf(long, plans, { paper: 'letter', fonts }))) {
    expect([...page.points].sort((a, b) => a - b)).toEqual([612, 792]);
    for (const t of page.texts) {
      expect(t.at[0]).toBeGreaterThanOrEqual(12);
      expect(t.at[0] + t.width, t.text).toBeLessThanOrEqual(page.width - 12);
      expect(t.at[1]).toBeLessThanOrEqual(page.height - 12);
    }
  }
});

test('a garment of sixty panels breaks its tables between rows and repeats their head', async () => {
  const many = handGarment(Array.from({ length: 60 }, (_, i) => ({ points: box(40 + i, 50) })));
  const read = await readPdf(await handoutPdf(many, [], { paper: 'a4', fonts }));
  const heads = read.filter((p) => p.words.includes('Across × along grain'));
  expect(heads.length).toBeGreaterThan(1);
  for (let n = 1; n <= 60; n += 1)
    expect(heads.some((p) => p.texts.some((t) => t.text === `${n}`))).toBe(true);
});

test('the same garment gives the same bytes', async () => {
  const again = await handoutPdf(classGarment(), plans, { paper: 'a4', fonts });
  expect(Buffer.compare(Buffer.from(again), Buffer.from(bytes))).toBe(0);
});

test('the size of a cut piece is measured along its own grain', () => {
  const cut = handGarment([{ points: box(70, 170) }]).cutPieces[0]!;
  expect(sizeOnGrain(cut).across).toBeCloseTo(100, 6);
  expect(sizeOnGrain(cut).along).toBeCloseTo(200, 6);
  expect(sizeOnGrain({ ...cut, grainAngle: 0 }).along).toBeCloseTo(100, 6);
});
