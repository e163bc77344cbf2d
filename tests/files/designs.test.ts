import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { designFromTracings, looksLikeDesign, openDesign, saveDesign, wordForColour } from '../../src/files';
import { sayProblem, type Design } from '../../src/pattern';
import { OUTLINE, read, svg, valueOf } from './drawing';

const V1 = readFileSync('tests/files/v1.json', 'utf8');
const V2 = readFileSync('tests/files/v2.json', 'utf8');
const V3 = readFileSync('tests/files/v3.json', 'utf8');
const V4 = readFileSync('tests/files/v4.json', 'utf8');
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

test('a file saved by version 1 opens for ever, and saves as the newest version', () => {
  const opened = valueOf(openDesign(V1, 'v1.json'));
  expect(opened.pieces.map((p) => p.name)).toEqual(['front', 'back', 'sleeve']);
  expect(opened.trims[0]).toMatchObject({ name: 'petersham', width: 25 });
  expect(saveDesign(opened)).toBe(saveDesign(valueOf(openDesign(V2, 'v2.json'))));
});

test('a file saved by version 2 opens: trims keep their line and get a kind, nothing else is wanted yet', () => {
  const older = JSON.parse(V2) as { trims: { line: string; width: number }[] };
  const { trims, closings, sewing, numbers, lining, facings, allowances } = valueOf(
    openDesign(V2, 'v2.json'),
  );
  expect(trims.map(({ on, width }) => ({ on, width }))).toEqual(
    older.trims.map(({ line, width }) => ({ on: { kind: 'line', line, from: 0, to: 1 }, width })),
  );
  expect(trims.every((t) => t.kind === 'straight' && t.rows === 2 && t.shrinkage === 0)).toBe(true);
  expect({ closings, sewing, numbers, lining, facings }).toEqual({
    closings: [],
    sewing: { sleeves: 'flat', fewThreads: false, inTheRound: [], order: [] },
    numbers: [],
    lining: null,
    facings: [],
  });
  expect(allowances.lines).toEqual([]);
});

test('a file saved by version 3 opens: its cloth is used whole, in one layer, and nothing of one’s own is laid on', () => {
  const { colours, facings, cuttingOut, remnants, offGrain } = valueOf(openDesign(V3, 'v3.json'));
  for (const colour of colours)
    expect(colour).toMatchObject({
      margin: 0,
      layering: 'single',
      repeat: { along: 0, across: 0 },
      reserve: 0,
    });
  expect(facings.map((f) => f.interfacing)).toEqual([null]);
  expect({ cuttingOut, remnants, offGrain }).toEqual({ cuttingOut: { gap: 2 }, remnants: [], offGrain: [] });
});

test('a file saved by version 4 opens and saves again to the same bytes', () => {
  expect(saveDesign(valueOf(openDesign(V4, 'v4.json')))).toBe(V4);
});

test('save then open is identity', () => {
  const made = design(
    `${OUTLINE}<path id="fold" d="M0 0V50"/><path id="dart" d="M40 0L50 30L60 0"/><path id="notch" d="M100 20H95"/><path id="level-bust" d="M0 9H90"/>`,
  );
  expect(valueOf(openDesign(saveDesign(made), 'x.json'))).toStrictEqual(made);
  expect(valueOf(openDesign(new TextEncoder().encode(`\uFEFF${saveDesign(made)}`), 'x.json'))).toStrictEqual(
    made,
  );
});

test('how the objects were put together does not change the bytes', () => {
  const turned = (value: unknown): unknown =>
    Array.isArray(value)
      ? value.map(turned)
      : typeof value === 'object' && value !== null
        ? Object.fromEntries(
            Object.entries(value)
              .reverse()
              .map(([k, v]) => [k, turned(v)]),
          )
        : value;
  const opened = valueOf(openDesign(V4, 'v4.json'));
  expect(saveDesign(turned(opened) as Design)).toBe(V4);
});

/** The file with one place overwritten; the place is dotted as in messages. */
function changed(place: string, value: unknown): string {
  const plain = JSON.parse(V4) as Record<string, unknown>;
  const keys = place.split('.');
  const last = keys.pop()!;
  const parent = keys.reduce<Record<string, unknown>>(
    (node, key) => node[key] as Record<string, unknown>,
    plain,
  );
  if (value === undefined) delete parent[last];
  else parent[last] = value;
  return JSON.stringify(plain);
}

test.each([
  ['pieces.0.outline.0.0.0', 'far'],
  ['pieces.0.outline.0.0.0', null],
  ['pieces.0.outline.1.0.0', 1e9],
  ['pieces.0.name', ''],
  ['pieces.0.name', 'x'.repeat(201)],
  ['pieces.0.name', 'bell\u0007'],
  [
    'pieces.0.grain',
    [
      [1, 1],
      [1, 1],
    ],
  ],
  ['pieces.1.cutting', 'thrice'],
  ['colours.0.fill', 'red'],
  ['colours.0.fill', '#AABBCC'],
  ['colours.0.width', -5],
  ['colours.0.shrinkage.along', 99],
  ['lines.0.once', 'no'],
  ['lines.0.path', []],
  ['allowances.newSeam', 1e6],
  ['allowances.tracing.kind', 'both'],
  ['paper.size', 'a5'],
  ['paper.size', 'roll:3'],
  ['units', 'ell'],
  ['trims.0.width', undefined],
  ['pieces.0.extra', 1],
])('damage at %s is told with its path', (place, value) => {
  const outcome = openDesign(changed(place, value), 'x.json');
  expect(outcome.ok).toBe(false);
  const [p] = outcome.problems;
  expect(p!.code).toBe('design-broken');
  expect((p!.facts as { where: string }).where.startsWith(place.split('.').slice(0, 2).join('.'))).toBe(true);
});

test.each([
  ['lines.0.piece', 'piece-99', 'there is no such piece'],
  ['marks.0.colour', 'colour-99', 'there is no such colour'],
  ['trims.0.on.line', 'line-99', 'there is no such line'],
  ['allowances.edges.0.piece', 'piece-99', 'there is no such piece'],
  ['lines.1.id', 'line-1', 'the id is used twice'],
  ['pieces.1.id', 'piece-1', 'the id is used twice'],
])('a broken reference at %s is told', (place, value, what) => {
  expect(openDesign(changed(place, value), 'x.json').problems[0]).toMatchObject({
    code: 'design-broken',
    facts: { where: place.replace('.on.line', '.on'), what },
  });
});

test.each([
  [
    'an open outline',
    [
      [
        [0, 0],
        [9, 0],
      ],
      [
        [9, 0],
        [9, 9],
      ],
    ],
    'the outline is open',
  ],
  [
    'curves apart',
    [
      [
        [0, 0],
        [9, 0],
      ],
      [
        [8, 0],
        [9, 9],
      ],
      [
        [9, 9],
        [0, 0],
      ],
    ],
    'the curves do not join',
  ],
  [
    'a crossing outline',
    [
      [
        [0, 0],
        [9, 9],
      ],
      [
        [9, 9],
        [9, 0],
      ],
      [
        [9, 0],
        [0, 9],
      ],
      [
        [0, 9],
        [0, 0],
      ],
    ],
    'the outline crosses itself',
  ],
  [
    'no area',
    [
      [
        [0, 0],
        [9, 0],
      ],
      [
        [9, 0],
        [0, 0],
      ],
    ],
    'the outline encloses nothing',
  ],
  [
    'a negative outline',
    [
      [
        [0, 0],
        [0, 9],
      ],
      [
        [0, 9],
        [9, 9],
      ],
      [
        [9, 9],
        [9, 0],
      ],
      [
        [9, 0],
        [0, 0],
      ],
    ],
    'the outline runs the wrong way round',
  ],
])('%s is refused', (_, outline, what) => {
  expect(openDesign(changed('pieces.0.outline', outline), 'x.json').problems[0]).toMatchObject({
    facts: { where: 'pieces.0.outline', what },
  });
});

test('a file from a newer version is refused untouched, and so is one without a version', () => {
  expect(openDesign(changed('version', 5), 'x.json').problems[0]).toMatchObject({
    code: 'design-too-new',
    facts: { version: 5 },
  });
  for (const version of [0, -1, 1.5, '1', null]) {
    expect(openDesign(changed('version', version), 'x.json').problems[0]!.code).toBe('design-broken');
  }
});

test.each([
  ['', 'file-empty'],
  ['{', 'not-a-design'],
  ['[]', 'not-a-design'],
  ['null', 'not-a-design'],
  ['{}', 'not-a-design'],
  ['{"format":"something else","version":1}', 'not-a-design'],
  ['{"__proto__":{"format":"panelwright design","version":1}}', 'not-a-design'],
  ['['.repeat(1_000_000), 'not-a-design'],
  [
    `{"format":"panelwright design","version":1,"x":${'{"a":'.repeat(100)}1${'}'.repeat(100)}}`,
    'not-a-design',
  ],
  ['{"format":"panelwright design","version":1}', 'design-broken'],
])('%# hostile or foreign JSON is refused', (text, code) => {
  expect(openDesign(text, 'x.json').problems[0]!.code).toBe(code);
});

test('keys that reach for the prototype are faults, and nothing is changed by them', () => {
  for (const key of ['__proto__', 'constructor', 'prototype']) {
    const text = V1.replace('"units"', `"${key}": {"polluted": true}, "units"`);
    const outcome = openDesign(text, 'x.json');
    expect(outcome.ok).toBe(false);
    expect(sayProblem(outcome.problems[0]!)).toContain(key);
  }
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
});

test('too many of a thing is refused', () => {
  const many = Array.from({ length: 501 }, (_, i) => ({
    id: `t${i}`,
    name: 'x',
    on: { kind: 'line', line: 'line-1', from: 0, to: 1 },
    kind: 'straight',
    width: 5,
    fill: '#000000',
    rows: 2,
    shrinkage: 0,
    soldIn: null,
  }));
  expect(openDesign(changed('trims', many), 'x.json').problems[0]).toMatchObject({
    facts: { where: 'trims' },
  });
});

test('designs are told from drawings by their first character', () => {
  expect(looksLikeDesign(V1)).toBe(true);
  expect(looksLikeDesign(new TextEncoder().encode(`\uFEFF ${V1}`))).toBe(true);
  expect(looksLikeDesign(svg(OUTLINE))).toBe(false);
});
