import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { designFromTracings, looksLikeDesign, saveDesign, wordForColour } from '../../src/files';
import type { Design } from '../../src/pattern';
import { OUTLINE, read, svg } from './drawing';

const V1 = readFileSync('tests/files/v1.json', 'utf8');
const design = (content: string, file = 'front.svg'): Design =>
  designFromTracings([read(svg(content), file)]);

test('a new design has the usual allowances, cloth and paper', () => {
  const { allowances, paper, colours, lines, trims } = design(OUTLINE);
  expect(allowances).toEqual({
    tracing: { kind: 'net', outer: 15 },
    newSeam: 15,
    hem: 40,
    edges: [],
    lines: [],
  });
  expect(paper).toEqual({ size: 'a4' });
  expect(colours).toEqual([
    {
      id: 'colour-1',
      name: 'colour 1',
      fill: '#b9c4cf',
      width: 1400,
      nap: false,
      shrinkage: { along: 0, across: 0 },
      price: null,
      margin: 0,
      layering: 'single',
      repeat: { along: 0, across: 0 },
      reserve: 0,
    },
  ]);
  expect([lines, trims]).toEqual([[], []]);
});

test('several files bring their pieces in order, names told apart', () => {
  const made = designFromTracings([
    read(svg(OUTLINE), 'a/front.svg'),
    read(svg(OUTLINE), 'b/front.svg'),
    read(svg(OUTLINE), 'sleeve.svg'),
  ]);
  expect(made.pieces.map((p) => [p.id, p.name])).toEqual([
    ['piece-1', 'front'],
    ['piece-2', 'front 2'],
    ['piece-3', 'sleeve'],
  ]);
});

test('lines keep file order over all pieces and know their piece', () => {
  const group = (name: string) =>
    `<g id="piece-${name}">${OUTLINE}<path class="panel-line" d="M50 0V50"/><path class="panel-line-once" d="M70 0V50"/></g>`;
  expect(design(group('front') + group('back')).lines.map((l) => [l.id, l.piece, l.once])).toEqual([
    ['line-1', 'piece-1', false],
    ['line-2', 'piece-1', true],
    ['line-3', 'piece-2', false],
    ['line-4', 'piece-2', true],
  ]);
});

test('fills become colours, each once, and marks; on a half piece mirrored marks come after all traced ones', () => {
  const fill = (x: number, colour: string) =>
    `<rect data-role="colour" x="${x}" y="20" width="10" height="10" fill="${colour}"/>`;
  const made = design(
    `${OUTLINE}<path id="fold" d="M0 0V50"/>${fill(10, 'navy')}${fill(40, '#ffd700')}${fill(70, '#000080')}`,
  );
  expect(made.colours.map((c) => [c.name, c.fill])).toEqual([
    ['dark blue', '#000080'],
    ['yellow', '#ffd700'],
  ]);
  expect(made.marks.map((m) => [Math.round(m.at[0]), m.colour])).toEqual([
    [15, 'colour-1'],
    [45, 'colour-2'],
    [75, 'colour-1'],
    [-15, 'colour-1'],
    [-45, 'colour-2'],
    [-75, 'colour-1'],
  ]);
});

test('colours have plain words, numbered where two are alike', () => {
  expect(
    [
      '#ffffff',
      '#000000',
      '#808080',
      '#c0392b',
      '#2980b9',
      '#8b4513',
      '#ffc0cb',
      '#123524',
      '#ead9b8',
      '#cfe2f3',
    ].map(wordForColour),
  ).toEqual(['white', 'black', 'grey', 'red', 'blue', 'brown', 'pink', 'dark green', 'sand', 'light blue']);
  const rects = ['#c0392b', '#c1392b'].map(
    (f, i) => `<rect data-role="colour" x="${10 + 30 * i}" y="20" width="9" height="9" fill="${f}"/>`,
  );
  expect(design(OUTLINE + rects.join('')).colours.map((c) => c.name)).toEqual(['red', 'red 2']);
});

test('sleeves, cuffs and pieces with a centre seam are cut as a pair, the rest once', () => {
  const centre = '<path id="edge-centre-back" d="M0 0V50"/>';
  const cutting = (content: string, file: string) => design(OUTLINE + content, file).pieces[0]!.cutting;
  expect(cutting('', 'Left Sleeve.svg')).toBe('pair');
  expect(cutting('', 'cuff.svg')).toBe('pair');
  expect(cutting('', 'sleeveless front.svg')).toBe('once');
  expect(cutting(centre, 'back.svg')).toBe('pair');
  expect(cutting('<path id="edge-center-front" d="M0 0V50"/>', 'front.svg')).toBe('pair');
  expect(cutting(`${centre}<path id="fold" d="M0 0V50"/>`, 'back.svg')).toBe('once');
  expect(cutting('', 'front.svg')).toBe('once');
});

test('the same drawing gives the same design, byte for byte', () => {
  const text = svg(`${OUTLINE}<path class="panel-line" d="M50 0C40 10 60 30 50 50"/>`);
  const once = saveDesign(designFromTracings([read(text)]));
  expect(saveDesign(designFromTracings([read(text)]))).toBe(once);
});

test('designs are told from drawings by their first character', () => {
  expect(looksLikeDesign(V1)).toBe(true);
  expect(looksLikeDesign(new TextEncoder().encode(`\uFEFF ${V1}`))).toBe(true);
  expect(looksLikeDesign(svg(OUTLINE))).toBe(false);
});
