import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Garment, deriveGarment } from '../../src/garment';
import {
  layJobs,
  planLay,
  sayNeatening,
  sayTotal,
  sewnLengths,
  shoppingList,
  shoppingRows,
  shoppingText,
  squareForBias,
  threadFor,
  zipAsSold,
  type ClothPlan,
  type ShoppingList,
} from '../../src/fabric';
import {
  MM_PER_INCH,
  type ClosingId,
  type Colour,
  type ColourId,
  type Design,
  type PieceId,
  type Remnant,
  type RemnantId,
  type Trim,
  type TrimId,
  sayProblem,
} from '../../src/pattern';
import { colour, dart, design, panelLine, piece, rectangle } from '../making/designs';
import { bodice, line, sleeve } from '../neighbours/garments';

const plansOf = (garment: Garment): Map<ColourId, ClothPlan> =>
  new Map(layJobs(garment, { seconds: 0 }).map((job) => [job.colour, { own: [], bought: planLay(job) }]));

const listOf = (doc: Design): ShoppingList => {
  const garment = deriveGarment(doc);
  return shoppingList(garment, plansOf(garment));
};

const chalk = colour('chalk', '#e8e4d8');
const priced = (c: Colour, price: number, more: Partial<Colour> = {}): Colour => ({ ...c, price, ...more });

/** A square of 400 mm cut into an upper and a lower half. */
const halves = (over: Partial<Design> = {}, cutting: 'once' | 'pair' = 'once'): Design =>
  design(
    [piece(rectangle(400, 400), { cutting })],
    [
      panelLine(
        [
          [0, 200],
          [400, 200],
        ],
        0,
      ),
    ],
    over,
  );

const clothed = (over: Partial<Design> = {}): Design =>
  design(
    [
      bodice('front', { dart: { from: 60, intake: 24 } }),
      bodice('back', { width: 230, side: 404, at: [900, 0] }, { onFold: false }),
      sleeve([2000, 200]),
    ],
    [
      line('line-1', 'front', [
        [0, 300],
        [300, 300],
      ]),
    ],
    over,
  );

const ribbon = (more: Partial<Trim> = {}): Trim => ({
  id: 'trim-1' as TrimId,
  name: 'braid',
  on: {
    kind: 'line',
    line: design(
      [],
      [
        panelLine(
          [
            [0, 0],
            [1, 0],
          ],
          0,
        ),
      ],
    ).lines[0]!.id,
    from: 0,
    to: 1,
  },
  kind: 'straight',
  width: 10,
  fill: '#aa0000',
  rows: 2,
  shrinkage: 0,
  soldIn: null,
  ...more,
});

test('a cloth asks for what its plan says, priced by the metre', () => {
  const doc = halves({ colours: [priced(chalk, 12, { reserve: 150, shrinkage: { along: 4, across: 0 } })] });
  const list = listOf(doc);
  const [cloth] = list.cloths;
  expect(cloth).toMatchObject({ state: 'found', uses: ['main'], own: [], problems: [] });
  expect(cloth!.sum!.buy).toBe(cloth!.plan!.buy);
  expect(cloth!.sum!.reserve).toBe(150);
  expect(cloth!.cost).toBeCloseTo((12 * cloth!.plan!.buy) / 1000, 9);
  expect(list.cost).toBe(cloth!.cost);
  expect(list.unpriced).toEqual([]);
  expect(list.isComplete).toBe(true);
});

test('every cloth something is cut from is listed with what it is for, and no other', () => {
  const colours = ['shell', 'silk', 'stay', 'spare'].map((n, i) => colour(n, `#${i}${i}${i}${i}${i}${i}`));
  const id = (n: string): ColourId => n as ColourId;
  const doc = clothed({
    colours,
    lining: { pieces: ['front' as PieceId, 'back' as PieceId], colour: id('silk'), shorter: 20 },
    facings: [
      {
        piece: 'front' as PieceId,
        edge: 'neckline',
        depth: 60,
        colour: id('shell'),
        interfacing: id('stay'),
      },
    ],
  });
  const garment = deriveGarment(doc);
  const list = shoppingList(garment, plansOf(garment));
  expect(list.cloths.map((c) => [c.colour.id, c.uses])).toEqual([
    ['shell', ['main', 'facing']],
    ['silk', ['lining']],
    ['stay', ['interfacing']],
  ]);
  expect(list.cloths.map((c) => c.colour.id)).toEqual(layJobs(garment).map((job) => job.colour));
  expect(list.cloths.map((c) => c.state)).toEqual(['found', 'found', 'found']);
  expect(
    shoppingRows(list)
      .slice(0, 3)
      .map((r) => r.part),
  ).toEqual(['Cloth', 'Lining and facings', 'Interfacing']);
});

test('what has no plan yet is marked so and is in no total', () => {
  const doc = halves({ colours: [priced(chalk, 12)] });
  const list = shoppingList(deriveGarment(doc), new Map());
  expect(list.cloths).toMatchObject([{ state: 'laying', plan: null, sum: null, cost: null }]);
  expect(list).toMatchObject({ isComplete: false, cost: null });
  expect(shoppingRows(list)[0]).toMatchObject({ ask: 'not laid yet', isKnown: false, cost: '' });
  expect(sayTotal(list)).toBeNull();
});

test('a cloth that is too narrow asks for nothing and says so', () => {
  const list = listOf(halves({ colours: [priced(chalk, 12, { width: 200 })] }));
  expect(list.cloths).toMatchObject([{ state: 'none', sum: null, cost: null }]);
  expect(list.cloths[0]!.problems.length).toBeGreaterThan(0);
  expect(shoppingRows(list)[0]).toMatchObject({ ask: 'does not fit', isKnown: false });
  const [how] = shoppingRows(list)[0]!.how;
  expect(sayProblem(list.cloths[0]!.problems[0]!, 'cm')).toContain(`${how} Choices: `);
});

test('what comes from one’s own cloth is told by its name and not paid for', () => {
  const remnant: Remnant = {
    id: 'r1' as RemnantId,
    name: 'skirt scraps',
    colour: chalk.id,
    outline: rectangle(900, 900).map((c) => c[0]),
    count: 2,
  };
  const garment = deriveGarment(halves({ colours: [priced(chalk, 12)], remnants: [remnant] }));
  const [job] = layJobs(garment, { seconds: 0 });
  const all = planLay(job!);
  const within = { remnant: remnant.id, copy: 2, outline: remnant.outline };
  const own = { ...all, within, buy: 0 };
  const none = { ...all, placed: [], length: 0, buy: 0 };
  const list = shoppingList(garment, new Map([[chalk.id, { own: [own], bought: none }]]));
  expect(list.cloths).toMatchObject([
    { state: 'own', cost: 0, own: [{ remnant: 'r1', name: 'skirt scraps 2', pieces: 2 }] },
  ]);
  expect(shoppingRows(list)[0]).toMatchObject({
    ask: 'nothing',
    how: ['2 pieces from your own skirt scraps 2.'],
    cost: '',
  });
});

test('stitching is counted once for each seam, twice on a pair', () => {
  const sewn = (doc: Design, kind: string): number =>
    sewnLengths(deriveGarment(doc)).reduce((sum, s) => sum + (s.kind === kind ? s.sewn : 0), 0);
  expect(sewn(halves(), 'seam')).toBeCloseTo(400, 6);
  expect(sewn(halves({}, 'pair'), 'seam')).toBeCloseTo(800, 6);
  // a straight dart 30 wide at its mouth and 120 deep: sewn once along its legs, √(120² + 15²)
  const darted = design([piece(rectangle(400, 400), { darts: [dart([185, 0], [200, 120], [215, 0])] })], []);
  expect(sewn(darted, 'dart')).toBeCloseTo(Math.hypot(120, 15), 6);
  // two rows along a trim of 400 and an allowance of 15 at each end
  expect(sewn(halves({ trims: [ribbon()] }), 'trim')).toBeCloseTo(2 * 430, 6);
});

test('sides and shoulders of a bodice are sewn once, the seams of its sleeves on both', () => {
  const garment = deriveGarment(clothed());
  const steps = sewnLengths(garment).filter((s) => s.kind === 'join');
  // every seam between pieces by its walk; two pairs sewn together are sewn twice
  const isPair = (id: PieceId): boolean => garment.pieceById.get(id)!.whole.piece.cutting === 'pair';
  const walked = garment.neighbours.seams.reduce((sum, { walk }) => {
    const { a, b } = walk.join;
    const isSame = a.piece === b.piece && a.edge === b.edge;
    const copies = !isSame && isPair(a.piece) && isPair(b.piece) ? 2 : 1;
    return sum + copies * Math.max(walk.lengthA, walk.lengthB);
  }, 0);
  expect(walked).toBeGreaterThan(1000);
  expect(steps.reduce((sum, s) => sum + s.sewn, 0)).toBeCloseTo(walked, 4);
  expect(steps.reduce((sum, s) => sum + s.raw, 0)).toBeCloseTo(2 * walked, 4);
});

test('thread goes by the colour the sewing plan names, and a trim by its own', () => {
  const list = listOf(halves({ trims: [ribbon()], colours: [chalk] }));
  expect(list.threads.map((t) => [t.name, t.fill])).toEqual([
    ['chalk', '#e8e4d8'],
    ['braid', '#aa0000'],
  ]);
  // a trim of the cloth's own colour takes the cloth's thread
  const same = listOf(halves({ trims: [ribbon({ fill: '#e8e4d8' })], colours: [chalk] }));
  expect(same.threads.map((t) => t.name)).toEqual(['chalk']);
  expect(same.threads[0]!.sewn).toBeCloseTo(list.threads[0]!.sewn + list.threads[1]!.sewn, 6);
});

test('spools hold what is needed, and no shorter ones would', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 3_000_000, noNaN: true }), (sewn) => {
      const { need, spools } = threadFor(sewn);
      const held = spools.reduce((sum, s) => sum + s.length * s.count, 0);
      expect(held).toBeGreaterThanOrEqual(need);
      const last = spools.at(-1);
      if (last) expect(held - last.length).toBeLessThan(need);
      spools.forEach((s) => expect(s.count).toBeGreaterThan(0));
    }),
    { numRuns: 300, seed: 3 },
  );
  expect(threadFor(0).spools).toEqual([]);
  expect(() => threadFor(-1)).toThrow(RangeError);
});

test('thread is two to four times what is sewn, as tables of the thread trade have it', () => {
  // lockstitch 301: 2.5 to 2.8 times the seam, needle and bobbin together, and 10 to 30 % waste: thread makers' tables, from memory
  for (const sewn of [1000, 12_345, 60_000]) {
    const ratio = threadFor(sewn).need / sewn;
    expect(ratio).toBeGreaterThanOrEqual(2.5 * 1.1);
    expect(ratio).toBeLessThanOrEqual(2.8 * 1.3);
  }
});

test('a zip is bought in a length that is sold, never shorter than its opening', () => {
  // steps of 5 cm and 2 in: common practice, no source
  expect([1, 50, 50.4, 51, 220, 560].map((mm) => zipAsSold(mm, 'cm'))).toEqual([50, 50, 50, 100, 250, 600]);
  expect(zipAsSold(9 * MM_PER_INCH, 'in') / MM_PER_INCH).toBeCloseTo(10, 9);
  const zip = {
    id: 'zip-1' as ClosingId,
    kind: 'hidden' as const,
    on: { kind: 'edge' as const, piece: 'back' as PieceId, edge: 'side seam', nth: 0 },
    length: 220,
    allowance: null,
    slot: 0,
  };
  const list = listOf(clothed({ closings: [zip] }));
  expect(list.zips).toMatchObject([{ kind: 'hidden', count: 1, opening: 220, length: 250, fill: '#e8e4d8' }]);
  const row = shoppingRows(list).find((r) => r.part === 'Zips');
  expect(row).toMatchObject({
    what: 'hidden zip, 25 cm',
    ask: '1',
    how: ['The opening is 22 cm; a zip can be shortened, not lengthened.'],
  });
});

test('a bias trim can be cut from a square of one’s own cloth', () => {
  const [trim] = listOf(halves({ trims: [ribbon({ kind: 'bias' })] })).trims;
  expect(trim!.fromSquare).toEqual({ side: squareForBias(trim!.need, 20, 'cm'), strip: 20 });
  expect(trim!.fromSquare!.side ** 2 / 20).toBeGreaterThan(trim!.need);
  expect(listOf(halves({ trims: [ribbon()] })).trims[0]!.fromSquare).toBeNull();
});

test('the list reads as plain text, with what the total leaves out', () => {
  const colours = [priced(chalk, 12), colour('slate', '#4a5560')];
  const list = listOf(
    halves({
      colours,
      marks: [{ piece: 'front' as PieceId, at: [200, 300], colour: 'slate' as ColourId }],
      trims: [ribbon()],
    }),
  );
  expect(list.cloths.map((c) => c.colour.name)).toEqual(['chalk', 'slate']);
  expect(list.unpriced).toEqual(['slate']);
  expect(sayTotal(list)).toBe(`${list.cost!.toFixed(2)} in all, without slate, trims and thread.`);
  const text = shoppingText(list, 'Sunday top');
  expect(text.split('\n').filter((l) => l !== '' && !l.startsWith(' ') && !l.startsWith('- '))).toEqual([
    'What to buy for Sunday top',
    'Cloth',
    'Trims',
    'Thread',
    sayTotal(list),
  ]);
  expect(text).toContain('- chalk, 140 cm wide: 0.3 m (3.60)');
  expect(text).toContain('12.00 a metre.');
  expect(sayNeatening(list)).toMatch(/overedge/);
});

test('in an inch design cloth is asked for and priced by the yard', () => {
  // 400 × 230 mm lie in 9.06 in: 3/8 yd of 4.5 in each; 10.9361 a metre is 10.00 a yard
  const list = listOf(halves({ units: 'in', colours: [priced(chalk, 10 / 0.9144)] }));
  const [row] = shoppingRows(list);
  expect(row!.ask).toBe('3/8 yd');
  expect(row!.how.at(-1)).toBe('10.00 a yard.');
  expect(row!.cost).toBe('3.75');
});
