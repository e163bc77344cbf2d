/**
 * Plain Node, nothing installed yet: makes sure that what package-lock.json lists is in node_modules.
 * Runs on a fresh clone, and again when the lock file has changed.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const OLDEST_NODE = [20, 19];

const readJson = (path) => JSON.parse(readFileSync(path, 'utf8'));

/** Whether node_modules lacks something that the lock file lists, or has another version of it. */
export function isInstallNeeded(root = ROOT) {
  const installedList = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installedList)) return true;
  const installed = readJson(installedList).packages;
  return Object.entries(readJson(join(root, 'package-lock.json')).packages).some(([path, entry]) => {
    if (path === '' || entry.optional || entry.peerOptional) return false;
    return installed[path]?.version !== entry.version || !existsSync(join(root, path, 'package.json'));
  });
}

/** The npm that started us, or the one on the path. */
function npm(args, stdout) {
  const script = process.env['npm_execpath'];
  const viaNode = script && script.endsWith('npm-cli.js');
  const options = {
    cwd: ROOT,
    stdio: ['ignore', stdout, 'inherit'],
    shell: !viaNode && process.platform === 'win32',
  };
  return viaNode ? spawnSync(process.execPath, [script, ...args], options) : spawnSync('npm', args, options);
}

/**
 * Install if needed. Ends the process with a clear line when it cannot.
 * With `quiet` nothing goes to standard output: a command's own output stays clean.
 */
export function installIfNeeded({ quiet = false } = {}) {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor < OLDEST_NODE[1])) {
    console.error(
      `Panelwright needs Node ${OLDEST_NODE.join('.')} or newer; this is ${process.versions.node}. Install a newer one.`,
    );
    process.exit(1);
  }
  if (!isInstallNeeded()) return;
  (quiet ? console.error : console.log)(
    'Installing what Panelwright needs (once; a minute at most on a usual line) …',
  );
  const result = npm(['ci', '--include=dev', '--no-audit', '--no-fund'], quiet ? 2 : 'inherit');
  if (result.error || result.status !== 0) {
    console.error(
      `npm ci failed${result.error ? `: ${result.error.message}` : ''}. Check the connection and try again.`,
    );
    process.exit(result.status || 1);
  }
}
