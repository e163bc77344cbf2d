import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { saveDesign } from '../../src/files';
import { bringIn } from '../../src/workbench/bringIn/bringIn';
import { readFiles } from '../../src/workbench/bringIn/readFiles';
import { createBench, type BenchStore } from '../../src/workbench/store/benchStore';
import {
  claimShape,
  foldAlong,
  foldChoices,
  pieceUnder,
  possibleClaims,
} from '../../src/workbench/store/claimEdits';
import { deriveGarment } from '../../src/garment';
import { severityOf } from '../../src/pattern';
import { isInHand, openShapes } from '../../src/workbench/store/openShapes';
import { renameDesign } from '../../src/workbench/store/patternEdits';
import { WHOLE, designOf, straight } from './pieces';

const load = () => Promise.resolve(readFiles);
const bench = (): BenchStore => createBench(designOf(WHOLE, straight('line-1', [0, 200], [200, 200])));
const svg = (inner: string, size = 'width="300mm" height="300mm" viewBox="0 0 300 300"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${size}>${inner}</svg>`;
const SQUARE = '<path id="outline" d="M10,10 H210 V260 H10 Z"/>';

test.each([
  ['empty', ''],
  ['not a drawing', 'hello'],
  ['cut off', '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0'],
  ['without an outline', svg('<g id="piece x"><path id="grain" d="M0,0 V10"/></g>')],
  ['without area', svg('<path id="outline" d="M0,0 L10,0 Z"/>')],
  ['not a number', svg('<path id="outline" d="M0,0 LNaN,10 Z"/>')],
  ['a broken design', '{"format":"panelwright design"'],
])('a file that is %s is refused with a sentence, and the work on the table stays', async (_, data) => {
  const store = bench();
  const before = store.getState().doc;
  expect(await bringIn(store, [{ name: 'try.svg', data }], null, load)).toBe(false);
  expect(store.getState().doc).toBe(before);
  expect(store.getState().past).toHaveLength(0);
  expect(store.getState().notice?.tone).toBe('bad');
  expect(store.getState().notice?.lines.join(' ')).toMatch(/try\.svg|outline|\S{3,}/);
});

test('one bad file among good ones refuses them all', async () => {
  const store = bench();
  const before = store.getState().doc;
  expect(
    await bringIn(
      store,
      [
        { name: 'good.svg', data: svg(SQUARE) },
        { name: 'bad.svg', data: '' },
      ],
      null,
      load,
    ),
  ).toBe(false);
  expect(store.getState().doc).toBe(before);
  expect(store.getState().notice?.lines.join(' ')).toContain('bad.svg');
});

test('a tracing comes on to the table, and can be taken back', async () => {
  const store = bench();
  const before = store.getState().doc;
  expect(await bringIn(store, [{ name: 'my skirt.svg', data: svg(SQUARE) }], null, load)).toBe(true);
  expect(store.getState().doc.name).toBe('my skirt');
  expect(store.getState().place).toBe('pattern');
  store.getState().undo();
  expect(store.getState().doc).toBe(before);
});

test('a tracing that does not say how large it is asks, and is read at the scale given', async () => {
  const store = bench();
  const file = { name: 'no size.svg', data: svg(SQUARE, 'viewBox="0 0 300 300"') };
  expect(await bringIn(store, [file], null, load)).toBe(false);
  expect(store.getState().question?.files[0]?.name).toBe('no size.svg');
  expect(await bringIn(store, store.getState().question!.files, 2, load)).toBe(true);
  expect(store.getState().question).toBeNull();
  expect(deriveGarment(store.getState().doc).pieces[0]!.whole.area).toBeCloseTo(400 * 500, 3);
});

test('a saved design opens as it was saved', async () => {
  const store = bench();
  const saved = { ...store.getState().doc, name: 'saved before', units: 'in' as const };
  expect(await bringIn(store, [{ name: 'x.json', data: saveDesign(saved) }], null, load)).toBe(true);
  expect(store.getState().doc).toEqual(saved);
});

test('shapes without a known name are asked about, and become what they are said to be', async () => {
  const store = bench();
  const inner =
    '<path d="M10,10 H210 V260 H10 Z"/><path d="M10,150 H210"/><path d="M90,10 L100,60 L110,10"/>';
  await bringIn(store, [{ name: 'plain.svg', data: svg(inner) }], null, load);
  const { unclaimed, doc } = store.getState();
  expect(unclaimed).toHaveLength(2);
  const [line, dart] = [
    unclaimed.find((s) => possibleClaims(s.path, s.closed).includes('grain'))!,
    unclaimed.find((s) => possibleClaims(s.path, s.closed).includes('dart'))!,
  ];
  const piece = doc.pieces[0]!.id;
  store.getState().commit('line', claimShape(piece, 'panel line', line.path, line.closed));
  store.getState().commit('dart', claimShape(piece, 'dart', dart.path, dart.closed));
  const garment = deriveGarment(store.getState().doc);
  expect(garment.panels).toHaveLength(2);
  expect(store.getState().doc.pieces[0]!.darts).toEqual([
    {
      kind: 'single',
      legs: null,
      treatment: { kind: 'keep' },
      mouth: [
        [90, 10],
        [110, 10],
      ],
      point: [100, 60],
    },
  ]);
});

test('a drawing without any names may hold several pieces: the larger ones are offered as such, and lines go to the piece they lie on', async () => {
  const store = bench();
  const inner =
    '<path d="M10,10 H210 V260 H10 Z"/><path d="M220,10 V200 H290 V10 Z"/><path d="M220,100 H290"/>' +
    '<path d="M220,210 L290,250 L290,210 L220,250 Z"/><path d="M230,260 h10 v10 h-10 Z"/>';
  await bringIn(store, [{ name: 'two.svg', data: svg(inner) }], null, load);
  const { unclaimed, notice } = store.getState();
  expect(notice?.lines).toEqual(['4 shapes without a known name: say beside the drawing what they are.']);
  const claims = unclaimed.map((s) => possibleClaims(s.path, s.closed));
  expect(claims.map((c) => c.includes('piece'))).toEqual([true, false, false, false]);
  const [second, line] = unclaimed;
  const first = store.getState().doc.pieces[0]!.id;
  store.getState().commit('piece', claimShape(first, 'piece', second!.path, second!.closed));
  const on = pieceUnder(store.getState().doc, line!.path, line!.piece)!;
  expect(on.name).toBe('piece 2');
  store.getState().commit('line', claimShape(on.id, 'panel line', line!.path, line!.closed));
  const garment = deriveGarment(store.getState().doc);
  expect(garment.pieces.map(({ whole }) => Math.round(whole.area))).toEqual([50_000, 13_300]);
  expect(garment.panels).toHaveLength(3);
  expect(garment.problems.filter((p) => severityOf(p) === 'error')).toEqual([]);
});

test('taking back a tracing takes its questions and its notice along; taking back an answer asks again', async () => {
  const store = bench();
  const inner = '<path d="M10,10 H210 V260 H10 Z"/><path d="M10,100 H210"/><path d="M10,150 H210"/>';
  await bringIn(store, [{ name: 'plain.svg', data: svg(inner) }], null, load);
  const [first, second] = openShapes(store.getState());
  expect(second).toBeDefined();
  const { doc, commit, set } = store.getState();
  commit('line', claimShape(doc.pieces[0]!.id, 'panel line', first!.path, first!.closed));
  set({ answered: new Map([[first!, store.getState().doc]]) });
  expect(openShapes(store.getState())).toEqual([second]);
  store.getState().commit('rename', renameDesign('another name'));
  expect(openShapes(store.getState())).toEqual([second]);
  store.getState().undo();
  store.getState().undo();
  expect(openShapes(store.getState())).toEqual([first, second]);
  store.getState().redo();
  expect(openShapes(store.getState())).toEqual([second]);
  store.getState().set({ answered: new Map([...store.getState().answered, [second!, 'left out']]) });
  expect(openShapes(store.getState())).toEqual([]);
  store.getState().undo();
  store.getState().undo();
  expect(openShapes(store.getState())).toEqual([]);
  expect(isInHand(store.getState(), store.getState().notice!.of!)).toBe(false);
});

test('what nobody can be asked about is still said to be left out', async () => {
  const store = bench();
  await bringIn(
    store,
    [
      {
        name: 'x.svg',
        data: svg(`${SQUARE}<text x="20" y="20">cut 1</text><path id="swirl" d="M20,20 V90"/>`),
      },
    ],
    null,
    load,
  );
  expect(store.getState().notice?.lines).toEqual([
    '1 shape without a known name: say beside the drawing what it is.',
    'Not understood and left out: text.',
  ]);
});

test('a shape cannot become what its form does not allow', () => {
  const doc = bench().getState().doc;
  expect(
    claimShape(
      WHOLE.id,
      'grain',
      [
        [
          [0, 0],
          [5, 5],
          [9, 5],
          [10, 0],
        ],
      ],
      false,
    )(doc),
  ).toBe(doc);
});

test('saying which edge lies on the fold opens the piece out', () => {
  const doc = designOf(WHOLE);
  const left = foldChoices(WHOLE).find(([a, b]) => a[0] === 0 && b[0] === 0)!;
  const folded = foldAlong(WHOLE.id, left)(doc);
  const { whole } = deriveGarment(folded).pieces[0]!;
  expect(whole.unfolded).toBe(true);
  expect(whole.area).toBeCloseTo(2 * 200 * 400, 3);
  expect(foldAlong(WHOLE.id, null)(folded).pieces[0]!.fold).toBeNull();
});

test('the examples that come with the bench are sound', () => {
  for (const file of ['sheath.svg', 'tshirt.svg', 'bodice.svg']) {
    const read = readFiles([
      { name: file, data: readFileSync(new URL(`../../demo-data/${file}`, import.meta.url), 'utf8') },
    ]);
    expect(read.ok, file).toBe(true);
  }
});
