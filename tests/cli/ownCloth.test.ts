import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { make } from '../../src/cli/make.ts';
import { saveDesign, type Report } from '../../src/files';
import type { Pt } from '../../src/geometry';
import type { ColourId, Design, PieceId, Remnant, RemnantId } from '../../src/pattern';
import { colour, lined, rectangle } from '../making/designs';

const folder = mkdtempSync(join(tmpdir(), 'panelwright-own-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const CHALK = 'chalk' as ColourId;
const SLATE = 'slate' as ColourId;

const stripOf = (id: string, colour: ColourId, length: number, width: number): Remnant => ({
  id: id as RemnantId,
  name: id,
  colour,
  outline: [
    [0, 0],
    [length, 0],
    [length, width],
    [0, width],
  ],
  count: 1,
});

/** A block 300 × 600 in three panels: chalk above and below, slate between. Cloth so narrow that they lie one behind the other. */
const design = (remnants: readonly Remnant[]): Design => ({
  ...lined(rectangle(300, 600), [
    [
      [0, 200],
      [300, 200],
    ],
    [
      [0, 400],
      [300, 400],
    ],
  ]),
  marks: [100, 300, 500].map((y, i) => ({
    piece: 'front' as PieceId,
    at: [150, y] as Pt,
    colour: i === 1 ? SLATE : CHALK,
  })),
  colours: [colour('chalk', '#e8e4d8'), colour('slate', '#4a5560')].map((c) => ({ ...c, width: 400 })),
  remnants,
});

async function fabricsOf(name: string, remnants: readonly Remnant[]): Promise<Report['fabrics']> {
  mkdirSync(join(folder, name));
  writeFileSync(join(folder, `${name}.json`), saveDesign(design(remnants)));
  const complaints: string[] = [];
  const code = await make([`${name}.json`, '--out', name, '--seconds', '0.1'], {
    folder,
    say: () => undefined,
    complain: (s) => complaints.push(s),
  });
  expect([code, complaints]).toEqual([0, []]);
  return (JSON.parse(readFileSync(join(folder, name, 'report.json'), 'utf8')) as Report).fabrics;
}

test('own cloth stands before the bought cloth of its colour, with nothing to buy', async () => {
  const [first, second, third, ...others] = await fabricsOf('some', [stripOf('scrap', CHALK, 350, 350)]);
  expect(others).toEqual([]);
  expect(first).toMatchObject({ colour: '#e8e4d8', width: 350, buy: 0 });
  expect(first!.placed).toHaveLength(1);
  expect(first!.length).toBeLessThanOrEqual(350);
  expect(second).toMatchObject({ colour: '#e8e4d8', width: 400 });
  expect(second!.placed).toHaveLength(1);
  expect(second!.buy).toBeGreaterThan(0);
  expect(third).toMatchObject({ colour: '#4a5560', width: 400 });
});

test('a colour cut from own cloth alone has no bought cloth; every entry is a plan', async () => {
  const fabrics = await fabricsOf('all', [
    stripOf('scrap', CHALK, 350, 350),
    stripOf('large', CHALK, 600, 400),
    stripOf('slate', SLATE, 400, 400),
  ]);
  expect(fabrics.every(({ buy, placed }) => buy === 0 && placed.length > 0)).toBe(true);
  expect(fabrics.map(({ colour }) => colour)).toEqual(expect.arrayContaining(['#e8e4d8', '#4a5560']));
  expect(fabrics.reduce((sum, { placed }) => sum + placed.length, 0)).toBe(3);
});

test('without own cloth every colour has the one entry it always had', async () => {
  const fabrics = await fabricsOf('none', []);
  expect(fabrics.map(({ colour, width }) => [colour, width])).toEqual([
    ['#e8e4d8', 400],
    ['#4a5560', 400],
  ]);
});
