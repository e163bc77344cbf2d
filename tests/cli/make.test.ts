import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { make } from '../../src/cli/make.ts';
import { openDesign, type Report } from '../../src/files';
import { OUTLINE, svg, valueOf } from '../files/drawing';

const folder = mkdtempSync(join(tmpdir(), 'panelwright-make-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const FILES = ['design.json', 'handout.pdf', 'pieces.pdf', 'pieces.svg', 'report.json'];
const FRONT = svg(`${OUTLINE}<path id="panel-line" d="M40 0V50"/><path id="grain" d="M10 5V45"/>`);

const put = (name: string, content: string | Uint8Array): string => {
  writeFileSync(join(folder, name), content);
  return name;
};
put('front.svg', FRONT);

interface Ran {
  readonly code: number;
  readonly out: string[];
  readonly errors: string[];
}

/** Run the command in this process; a blank splits arguments. */
async function run(line: string): Promise<Ran> {
  const out: string[] = [];
  const errors: string[] = [];
  const code = await make(line.split(' '), {
    folder,
    say: (s) => out.push(s),
    complain: (s) => errors.push(s),
  });
  return { code, out, errors };
}

const reportIn = (name: string): Report =>
  JSON.parse(readFileSync(join(folder, name, 'report.json'), 'utf8')) as Report;

test('a tracing becomes five files, and one line says so', async () => {
  const { code, out, errors } = await run('front.svg --out made --seconds 0');
  expect([code, errors]).toEqual([0, []]);
  expect(out).toEqual(['2 panels in 1 colour, written to made.']);
  expect(readdirSync(join(folder, 'made')).sort()).toEqual(FILES);
  expect(readFileSync(join(folder, 'made/pieces.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  expect(readFileSync(join(folder, 'made/handout.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  const { pieces, panels, sheets } = reportIn('made');
  expect(pieces[0]).toMatchObject({ name: 'front', area: 5000 });
  expect(panels.map((p) => p.area).sort((a, b) => a - b)).toEqual([2000, 3000]);
  expect(sheets).toMatchObject({ paper: 'a4' });
}, 30_000);

test('the same input gives the same bytes', async () => {
  await run('front.svg --out one --seconds 0 --seed 7');
  await run('front.svg --out two --seconds 0 --seed 7');
  for (const file of FILES) {
    expect(readFileSync(join(folder, 'one', file)).equals(readFileSync(join(folder, 'two', file)))).toBe(
      true,
    );
  }
});

test('options reach the design', async () => {
  const options = '--new-seam 10 --outer 12.5 --hem 30 --fabric-width 1100 --nap --paper letter --seconds 0';
  expect((await run(`front.svg --out options ${options}`)).code).toBe(0);
  const design = valueOf(openDesign(readFileSync(join(folder, 'options/design.json')), 'design.json'));
  expect(design.allowances).toMatchObject({ newSeam: 10, hem: 30, tracing: { kind: 'net', outer: 12.5 } });
  expect(design.colours[0]).toMatchObject({ width: 1100, nap: true });
  expect(design.paper.size).toBe('letter');
  expect(reportIn('options').fabrics[0]!.width).toBe(1100);
  // 40 + 10 + 12.5 by 50 + 2 · 12.5, and 60 + 10 + 12.5
  expect(
    reportIn('options')
      .panels.map((p) => p.cutArea)
      .sort((a, b) => a - b),
  ).toEqual([62.5 * 75, 82.5 * 75]);
});

test('a cutting line is taken as one with --included, and nothing is added outside it', async () => {
  expect((await run('front.svg --out cut --included 5 --seconds 0')).code).toBe(0);
  const { pieces, panels } = reportIn('cut');
  expect(pieces[0]!.area).toBeCloseTo(90 * 40, 6);
  const xs = panels.flatMap((p) => p.cutLine.map(([x]) => x));
  expect([Math.min(...xs), Math.max(...xs)]).toEqual([expect.closeTo(0, 4), expect.closeTo(100, 4)]);
});

/** A rectangle of 100 × 200 mm with a named hem below. */
put(
  'hemmed.svg',
  svg(
    '<path id="outline" d="M0 0H100V200H0Z"/><path id="edge-hem" d="M100 200H0"/><path id="grain" d="M50 20V180"/>',
    'width="300mm" height="300mm" viewBox="0 0 300 300"',
  ),
);

test.each([
  // what is given, the stitching area, the cutting area, mm²
  ['', 100 * 200, 130 * 255],
  ['--outer 10', 100 * 200, 120 * 250],
  ['--outer 10 --hem 30', 100 * 200, 120 * 240],
  ['--included 10', 80 * 180, 100 * 200],
  ['--included 10 --hem 30', 80 * 160, 100 * 200],
  ['--included 0 --hem 30', 100 * 170, 100 * 200],
])('with options “%s” the outline means what they say', async (options, stitched, cut) => {
  const line = `hemmed.svg --out meant ${options} --seconds 0`.replace(/ +/g, ' ');
  expect((await run(line)).code).toBe(0);
  const { panels } = reportIn('meant');
  expect(panels[0]!.area).toBeCloseTo(stitched, 4);
  expect(panels[0]!.cutArea).toBeCloseTo(cut, 4);
  if (!options.includes('included')) return;
  // a cutting line stays exactly as traced
  const corners = [...panels[0]!.cutLine].map((p) => p.join(' ')).sort();
  expect(corners).toEqual(['0 0', '0 200', '100 0', '100 200']);
});

test('a saved design takes another included width along to its hems, unless they have a depth of their own', async () => {
  await run('hemmed.svg --out cut10 --included 10 --seconds 0');
  await run('hemmed.svg --out cut10hem30 --included 10 --hem 30 --seconds 0');
  await run('cut10/design.json --out a --included 20 --seconds 0');
  await run('cut10hem30/design.json --out b --included 20 --seconds 0');
  await run('cut10hem30/design.json --out c --outer 20 --seconds 0');
  expect(reportIn('a').panels[0]!.area).toBeCloseTo(60 * 160, 4);
  expect(reportIn('b').panels[0]!.area).toBeCloseTo(60 * 150, 4);
  expect(reportIn('c').panels[0]!.cutArea).toBeCloseTo(140 * 250, 4);
});

test('a saved design makes the same again, and options change it only when given', async () => {
  await run('front.svg --out first --new-seam 8 --paper a3 --seconds 0');
  expect((await run('first/design.json --out second --seconds 0')).code).toBe(0);
  for (const file of FILES) {
    expect(readFileSync(join(folder, 'second', file)).equals(readFileSync(join(folder, 'first', file)))).toBe(
      true,
    );
  }
  expect((await run('first/design.json --out third --hem 55 --seconds 0')).code).toBe(0);
  const design = valueOf(openDesign(readFileSync(join(folder, 'third/design.json')), 'design.json'));
  expect(design.allowances).toMatchObject({ newSeam: 8, hem: 55 });
  expect(design.paper.size).toBe('a3');
});

test('several tracings make one garment', async () => {
  put('back.svg', FRONT);
  expect((await run('front.svg back.svg --out both --seconds 0')).code).toBe(0);
  expect(reportIn('both').pieces.map((p) => p.name)).toEqual(['front', 'back']);
  expect(reportIn('both').panels.map((p) => p.number)).toEqual([1, 2, 3, 4]);
});

test('a drawing without a size asks for --scale and takes it', async () => {
  put('unsized.svg', svg(OUTLINE, 'viewBox="0 0 100 100"'));
  const refused = await run('unsized.svg --out unsized');
  expect([refused.code, refused.errors.length]).toEqual([1, 1]);
  expect(refused.errors[0]).toContain('--scale');
  expect((await run('unsized.svg --out unsized --scale 2 --seconds 0')).code).toBe(0);
  expect(reportIn('unsized').pieces[0]!.area).toBe(20_000);
});

test.each([
  ['no file', '--out x', 'No FILE'],
  ['no folder', 'front.svg', 'No --out FOLDER'],
  ['an unknown option', 'front.svg --out x --colour red', 'no option --colour'],
  ['an option without its value', 'front.svg --out x --hem', '--hem needs a value'],
  ['a value for a switch', 'front.svg --out x --nap=yes', '--nap takes no value'],
  ['a number that is none', 'front.svg --out x --hem deep', '--hem deep is not a number'],
  ['a negative number', 'front.svg --out x --outer -5', '--outer -5 is not a number from 0'],
  ['infinity', 'front.svg --out x --new-seam 1e999', '--new-seam 1e999 is not a number'],
  ['half a seed', 'front.svg --out x --seed 1.5', '--seed 1.5 is not a whole number'],
  ['both kinds of outline', 'front.svg --out x --outer 15 --included 15', 'not both'],
  ['an unknown paper', 'front.svg --out x --paper a5', "Paper 'a5' is not known"],
  ['a design with a drawing', 'made/design.json front.svg --out x', 'made on its own'],
])('%s is wrong usage', async (_, line, says) => {
  const { code, errors, out } = await run(line);
  expect(code).toBe(2);
  expect(errors[0]).toContain(says);
  expect(errors[1]).toContain('npm run -s make -- FILE');
  expect(out).toEqual([]);
  expect(existsSync(join(folder, 'x'))).toBe(false);
});

test('input that cannot be used gives one line per error and leaves nothing behind', async () => {
  put('open.svg', svg('<path id="outline" d="M0 0H100V50"/>'));
  put('cut off.svg', FRONT.slice(0, 200));
  put('broken.json', '{"format":"panelwright design","version":1}');
  put('picture.svg', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0, 1, 2]));
  mkdirSync(join(folder, 'a folder'));
  const before = readdirSync(folder).sort();
  const bad: readonly (readonly string[])[] = [
    ['open.svg'],
    ['cut off.svg'],
    ['broken.json'],
    ['picture.svg'],
    ['missing.svg'],
    ['a folder'],
    ['open.svg', 'front.svg', 'missing.svg', 'cut off.svg'],
    ['open.svg', 'cut off.svg'],
  ];
  const counts = [];
  for (const files of bad) {
    const errors: string[] = [];
    const code = await make([...files, '--out', 'never/made'], {
      folder,
      say: () => {},
      complain: (s) => errors.push(s),
    });
    expect(code).toBe(1);
    for (const error of errors) expect(error).toMatch(/^[^\n]+\.$/);
    counts.push(errors.length);
  }
  expect(counts).toEqual([1, 1, 1, 1, 1, 1, 1, 2]);
  expect(readdirSync(folder).sort()).toEqual(before);
});

test('other files in the folder stay, old results are replaced, nothing else is left', async () => {
  mkdirSync(join(folder, 'kept'));
  put('kept/notes.txt', 'mine');
  put('kept/report.json', 'old');
  expect((await run('front.svg --out kept --seconds 0')).code).toBe(0);
  expect(readdirSync(join(folder, 'kept')).sort()).toEqual([...FILES, 'notes.txt'].sort());
  expect(readFileSync(join(folder, 'kept/notes.txt'), 'utf8')).toBe('mine');
  expect(reportIn('kept').units).toBe('mm');
  expect(readdirSync(folder).filter((name) => name.startsWith('.'))).toEqual([]);
});

test('a folder that cannot be written is told in one line', async () => {
  put('taken', 'a file');
  const { code, errors } = await run('front.svg --out taken --seconds 0');
  expect(code).toBe(1);
  expect(errors).toEqual([expect.stringMatching(/taken is a file, not a folder/)]);
  expect((await run('front.svg --out taken/inside --seconds 0')).code).toBe(1);
  expect(readFileSync(join(folder, 'taken'), 'utf8')).toBe('a file');
});

test('where a folder stands in a file’s place nothing is written at all', async () => {
  mkdirSync(join(folder, 'blocked/report.json'), { recursive: true });
  const { code, errors } = await run('front.svg --out blocked --seconds 0');
  expect(code).toBe(1);
  expect(errors).toEqual([expect.stringMatching(/report\.json is a folder/)]);
  expect(readdirSync(join(folder, 'blocked'))).toEqual(['report.json']);
});

test('an error about a mark names its piece and spot', async () => {
  put('off.svg', svg(`${OUTLINE}<path id="fold" d="M20 20H80"/>`));
  const { code, errors } = await run('off.svg --out off --seconds 0');
  expect(code).toBe(1);
  expect(errors).toEqual([
    expect.stringMatching(/^off: The fold lies 20 mm off.*near x 20\.0, y 20\.0 mm\.$/),
  ]);
});

test('a file that never ends is refused once it is too large', async () => {
  const { code, errors } = await run('/dev/zero --out endless --seconds 0');
  expect(code).toBe(1);
  expect(errors).toEqual([expect.stringMatching(/the most is/)]);
});

test('the folder may be created several levels deep', async () => {
  expect((await run('front.svg --out deep/er/still --seconds 0')).code).toBe(0);
  expect(readdirSync(join(folder, 'deep/er/still')).sort()).toEqual(FILES);
});

test('help says how it is used', async () => {
  const { code, out } = await run('--help');
  expect(code).toBe(0);
  expect(out[0]).toContain('--included');
});

test('run by npm, it exits with the code, keeps standard output to its line and takes paths from where the user stands', () => {
  const npm = (...args: string[]) =>
    spawnSync('npm', ['run', '-s', 'make', '--', ...args], { cwd: process.cwd(), encoding: 'utf8' });
  const good = npm(join(folder, 'front.svg'), '--out', join(folder, 'by npm'), '--seconds', '0');
  expect(good.stdout).toBe(`2 panels in 1 colour, written to ${join(folder, 'by npm')}.\n`);
  expect(good.status).toBe(0);
  expect(npm(join(folder, 'nowhere.svg'), '--out', join(folder, 'x')).status).toBe(1);
  expect(npm('--out', join(folder, 'x')).status).toBe(2);
  const script = join(process.cwd(), 'src/cli/make.mjs');
  const elsewhere = spawnSync(
    process.execPath,
    [script, 'front.svg', '--out', 'from here', '--seconds', '0'],
    { cwd: folder, encoding: 'utf8' },
  );
  expect([elsewhere.status, elsewhere.stderr]).toEqual([0, '']);
  expect(readdirSync(join(folder, 'from here')).sort()).toEqual(FILES);
}, 120_000);
