import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { designFromTracings, openDesign, saveDesign } from '../../src/files';
import { sayProblem, type Design } from '../../src/pattern';
import { OUTLINE, read, svg, valueOf } from './drawing';

const V1 = readFileSync('tests/files/v1.json', 'utf8');
const V2 = readFileSync('tests/files/v2.json', 'utf8');
const V3 = readFileSync('tests/files/v3.json', 'utf8');
const V4 = readFileSync('tests/files/v4.json', 'utf8');
const design = (content: string, file = 'front.svg'): Design =>
  designFromTracings([read(svg(content), file)]);

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

test.each([
  [
    'own cloth that crosses itself',
    [
      [0, 0],
      [100, 100],
      [100, 0],
      [0, 100],
    ],
    'the outline crosses itself',
  ],
  [
    'own cloth as thin as a thread',
    [
      [0, 0],
      [1000, 0],
      [1000, 0.001],
    ],
    'the outline encloses nothing',
  ],
  [
    'own cloth run the wrong way round',
    [
      [0, 0],
      [0, 100],
      [100, 0],
    ],
    'the outline runs the wrong way round',
  ],
])('%s is refused', (_, outline, what) => {
  expect(openDesign(changed('remnants.0.outline', outline), 'x.json').problems[0]).toMatchObject({
    facts: { where: 'remnants.0.outline', what },
  });
});
