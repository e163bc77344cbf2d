/** What `npm start` and `npm test` do on a fresh clone, as far as it can be tried without installing. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const { isInstallNeeded } = (await import(pathToFileURL(join(ROOT, 'src/cli/install.mjs')).href)) as {
  isInstallNeeded: (root: string) => boolean;
};

interface Entry {
  readonly version: string;
  readonly optional?: boolean;
}

describe('installing', () => {
  let root: string;
  beforeEach(() => {
    root = mkdtempSync(join(tmpdir(), 'panelwright-install-'));
  });
  afterEach(() => rmSync(root, { recursive: true, force: true }));

  const write = (path: string, packages: Record<string, Entry>): void =>
    writeFileSync(join(root, path), JSON.stringify({ packages }));
  function installed(name: string): void {
    mkdirSync(join(root, 'node_modules', name), { recursive: true });
    writeFileSync(join(root, 'node_modules', name, 'package.json'), '{}');
  }

  test('is needed on a fresh clone', () => {
    write('package-lock.json', { 'node_modules/a': { version: '1.0.0' } });
    expect(isInstallNeeded(root)).toBe(true);
  });

  test('is not needed when everything listed is there, optional parts for other systems apart', () => {
    const listed = { '': { version: '9.9.9' }, 'node_modules/a': { version: '1.0.0' } };
    write('package-lock.json', { ...listed, 'node_modules/b': { version: '2.0.0', optional: true } });
    installed('a');
    write('node_modules/.package-lock.json', { 'node_modules/a': { version: '1.0.0' } });
    expect(isInstallNeeded(root)).toBe(false);
  });

  test('is needed again when the lock file asks for another version, or a folder has gone', () => {
    installed('a');
    write('node_modules/.package-lock.json', { 'node_modules/a': { version: '1.0.0' } });
    write('package-lock.json', { 'node_modules/a': { version: '1.0.1' } });
    expect(isInstallNeeded(root)).toBe(true);
    write('package-lock.json', { 'node_modules/a': { version: '1.0.0' } });
    expect(isInstallNeeded(root)).toBe(false);
    rmSync(join(root, 'node_modules/a'), { recursive: true });
    expect(isInstallNeeded(root)).toBe(true);
  });
});

test('the lock file names no address to download from, so any registry will do', () => {
  const text = readFileSync(join(ROOT, 'package-lock.json'), 'utf8');
  expect(text).not.toContain('"resolved"');
  expect(text).not.toMatch(/tarball|\.tgz/);
});

test.each([
  [['--port', 'abc'], 'is not a port'],
  [['--port', '70000'], 'is not a port'],
  [['--colour', 'red'], '--colour'],
])('starting with %j says what is wrong and ends with 2', (args, what) => {
  const { status, stderr } = spawnSync(process.execPath, [join(ROOT, 'src/cli/start.mjs'), ...args], {
    encoding: 'utf8',
  });
  expect(stderr).toContain(what);
  expect(status).toBe(2);
});
