/**
 * `npm test`: install what is missing, a browser included, then type check, lint and every test.
 * Plain Node, so that it runs on a fresh clone. Arguments go to the test runner: `npm test -- tests/geometry`.
 * The test runner comes last, so that its closing lines end the run.
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { ROOT, installIfNeeded } from '../src/cli/install.mjs';

const bin = (...parts) => join(ROOT, 'node_modules', ...parts);

/** Run one of our tools with this Node; end the run if it fails. */
function run(what, script, args, options = {}) {
  const started = performance.now();
  const result = spawnSync(process.execPath, [script, ...args], { cwd: ROOT, stdio: 'inherit', ...options });
  if (result.error || result.status !== 0) {
    console.error(`\n${what} failed.${result.error ? ` ${result.error.message}` : ''}`);
    process.exit(result.status || 1);
  }
  if (what !== 'Tests') console.log(`${what}: fine (${((performance.now() - started) / 1000).toFixed(1)} s)`);
  return result;
}

const filters = process.argv.slice(2);
installIfNeeded();
const browser = run('Finding a browser', bin('tsx', 'dist', 'cli.mjs'), ['tests/browser/findBrowser.ts'], {
  stdio: ['ignore', 'pipe', 'inherit'],
});
run('Type check', bin('typescript', 'bin', 'tsc'), ['--noEmit']);
run('Lint', bin('oxlint', 'bin', 'oxlint'), ['--deny-warnings']);
run('Tests', bin('vitest', 'vitest.mjs'), ['run', ...filters], {
  env: { ...process.env, PANELWRIGHT_TEST_BROWSER: browser.stdout.toString().trim() },
});
