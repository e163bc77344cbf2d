/**
 * The walls between the rooms. Lint enforces them too, but does not see `import('…').Type`; this reads every import itself,
 * and compiles the inner rooms without the DOM's and Node's types.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { describe, expect, test } from 'vitest';

const SRC = join(import.meta.dirname, '../../src');

/** Each room may import itself and the rooms named before it. */
const INNER_ROOMS = ['geometry', 'pattern', 'neighbours', 'lines', 'panels', 'allowance', 'sewing', 'trim', 'fabric', 'garment'];
const OUTER_ROOMS: Readonly<Record<string, readonly string[]>> = {
  paper: INNER_ROOMS,
  files: [...INNER_ROOMS, 'paper'],
  cli: [...INNER_ROOMS, 'files', 'paper'],
  workbench: [...INNER_ROOMS, 'files', 'paper'],
};
const allowedFrom = (room: string): readonly string[] =>
  OUTER_ROOMS[room] ?? INNER_ROOMS.slice(0, INNER_ROOMS.indexOf(room));

/** Packages of numbers only, fit for the inner rooms. */
const NUMBERS_ONLY = ['flatbush', 'polylabel', 'robust-predicates', 'clipper2-ts'];

/**
 * What cannot be on its room's face: fonts and the worker run in one place only, disk or browser; telling and spots are long and only for those
 * who ask for it, and must not be loaded with the garment.
 */
const OWN_DOORS = ['paper/fontsFromDisk', 'paper/fontsFromAsset', 'fabric/worker', 'garment/telling', 'garment/spots'];

interface Import {
  /** File as `geometry/area.ts`. */
  readonly file: string;
  readonly room: string;
  readonly from: string;
}

const IMPORT = /(?:(?<!['"])\bfrom\s*|\bimport\s*\(?\s*)(['"])([^'"]+)\1/g;
const withoutComments = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/^\s*\/\/.*$/gm, '');

/** Every import of a source text: values, types, re-exports, dynamic imports and `import('…').Type`. */
const importsOf = (text: string): string[] =>
  [...withoutComments(text).matchAll(IMPORT)].map((match) => match[2]!);

function allImports(): Import[] {
  const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).filter((f) =>
    /\.(ts|tsx|mjs)$/.test(f),
  );
  return files.flatMap((file) =>
    importsOf(readFileSync(join(SRC, file), 'utf8')).map((from) => ({
      file: file.split(sep).join('/'),
      room: file.split(sep)[0]!,
      from,
    })),
  );
}

/** The room and file a relative import leads to: `['geometry', 'area']`, or `['geometry']` for its face. */
function target({ file, from }: Import): string[] {
  const path = relative(SRC, join(SRC, file, '..', from)).split(sep);
  return path.at(-1) === 'index' ? path.slice(0, -1) : path;
}

const isOurs = ({ from }: Import): boolean => from.startsWith('.');

/** Why an import breaks a wall, or null. */
function breach(i: Import): string | null {
  const inner = INNER_ROOMS.includes(i.room);
  if (!isOurs(i)) {
    const name = i.from.split('/')[0]!;
    return inner && !NUMBERS_ONLY.includes(name) ? `${i.file} imports the package ${i.from}` : null;
  }
  const [room, ...rest] = target(i);
  if (room === i.room || !room || room.startsWith('..')) return null;
  if (!allowedFrom(i.room).includes(room)) return `${i.file} imports ${room}`;
  // an address (`?url`) is not an import of the contents
  return rest.length > 0 && !i.from.includes('?') && !OWN_DOORS.includes([room, ...rest].join('/'))
    ? `${i.file} imports ${i.from} past the face of ${room}`
    : null;
}

describe('the walls', () => {
  test('no room imports one that comes after it, a file behind another room’s face, or a package it may not know', () => {
    const imports = allImports();
    expect(imports.length).toBeGreaterThan(100);
    expect(imports.map(breach).filter((b) => b !== null)).toEqual([]);
  });

  test.each([
    ['geometry/a.ts', "import type { Piece } from '../pattern';"],
    ['geometry/a.ts', "export * from '../paper';"],
    ['geometry/a.ts', "export type P = import('react').ReactNode;"],
    ['fabric/worker/a.ts', "import { x } from '../../garment';"],
    ['panels/a.ts', "import { x } from '../geometry/area';"],
    ['sewing/a.ts', "const z = () => import(\n  '../workbench');"],
    ['pattern/a.ts', "import { readFileSync } from 'node:fs';"],
  ])('a breach would be seen: %s with %s', (file, text) => {
    const [from] = importsOf(text);
    expect(breach({ file, room: file.split('/')[0]!, from: from! })).not.toBeNull();
  });

  test('the inner rooms compile without the types of the DOM and of Node', () => {
    const tsc = join(import.meta.dirname, '../../node_modules/typescript/bin/tsc');
    const project = join(import.meta.dirname, 'withoutScreen.tsconfig.json');
    const { status, stdout } = spawnSync(process.execPath, [tsc, '--noEmit', '-p', project], {
      encoding: 'utf8',
    });
    expect(stdout).toBe('');
    expect(status).toBe(0);
  }, 60_000);
});
