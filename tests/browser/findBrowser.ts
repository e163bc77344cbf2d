/**
 * A browser for the tests, from wherever one can be had. Each candidate is launched once for real before it counts.
 * Run as a script it prints the result as JSON on stdout and what it tried on stderr.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, mkdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import type { LaunchOptions } from 'playwright-core';

/** What it takes to launch the browser that was found. */
export interface FoundBrowser {
  /** Where it came from, for people. */
  readonly from: string;
  readonly executablePath?: string;
  /** An installed browser that the test tool knows by name. */
  readonly channel?: string;
  /** Added to the environment of the browser only. */
  readonly env?: Readonly<Record<string, string>>;
}

/** Our own flags; the package's own list would switch off web security, which the tests are there to check. */
const FLAGS = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const launchOptions = ({ executablePath, channel, env }: FoundBrowser): LaunchOptions => ({
  ...(executablePath ? { executablePath } : {}),
  ...(channel ? { channel } : {}),
  ...(env ? { env: { ...(process.env as Record<string, string>), ...env } } : {}),
  args: FLAGS,
  chromiumSandbox: false,
  timeout: 60_000,
});

/** null if it draws a page, else the first line of what went wrong. */
async function faultOf(candidate: FoundBrowser): Promise<string | null> {
  try {
    const browser = await chromium.launch(launchOptions(candidate));
    try {
      const page = await browser.newPage();
      await page.setContent('<canvas></canvas>');
      const drew = await page.evaluate(() => Boolean(document.querySelector('canvas')?.getContext('2d')));
      return drew ? null : 'it has no canvas';
    } finally {
      await browser.close();
    }
  } catch (error) {
    return (
      String(error instanceof Error ? error.message : error)
        .split('\n')
        .find((line) => line.trim() !== '') ?? 'no reason given'
    );
  }
}

function onPath(name: string): string | null {
  for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
    const file = join(folder, process.platform === 'win32' ? `${name}.exe` : name);
    try {
      accessSync(file, constants.X_OK);
      return file;
    } catch {
      // not in this folder
    }
  }
  return null;
}

function named(): FoundBrowser[] {
  const path = process.env['CHROMIUM_PATH'];
  return path ? [{ from: 'CHROMIUM_PATH', executablePath: path }] : [];
}

const installed = (): FoundBrowser[] => [
  ...['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome']
    .map(onPath)
    .filter((path) => path !== null)
    .map((executablePath) => ({ from: 'installed', executablePath })),
  ...['chrome', 'msedge'].map((channel) => ({ from: `installed ${channel}`, channel })),
];

const DOWNLOAD_LIMIT = 5 * 60_000;

/** The test tool's own browser: the one in its cache, else downloaded. */
function ownDownload(): FoundBrowser[] {
  const own = { from: "the test tool's own" };
  if (existsSync(chromium.executablePath())) return [own];
  const command = join(
    dirname(createRequire(import.meta.url).resolve('playwright-core/package.json')),
    'cli.js',
  );
  const env = { PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT: '10000', ...process.env };
  const download = spawnSync(process.execPath, [command, 'install', 'chromium'], {
    env,
    stdio: 'ignore',
    timeout: DOWNLOAD_LIMIT,
  });
  return download.status === 0 ? [own] : [];
}

/**
 * The browser that a registry package carries (Linux on 64-bit Intel or AMD). It is unpacked under its version, because the
 * package itself reuses any file of the same name; first elsewhere, so that a broken-off run leaves nothing half done.
 */
function carried(): FoundBrowser[] {
  if (process.platform !== 'linux' || process.arch !== 'x64') return [];
  const root = dirname(dirname(dirname(createRequire(import.meta.url).resolve('@sparticuz/chromium'))));
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  const home = join(import.meta.dirname, '../../node_modules/.cache/panelwright', `chromium-${version}`);
  if (!existsSync(home)) unpackCarried(home);
  const fonts: Record<string, string> = existsSync('/etc/fonts/fonts.conf')
    ? {}
    : { FONTCONFIG_PATH: join(home, 'fonts') };
  const libraries = [join(home, 'al2023', 'lib'), process.env['LD_LIBRARY_PATH']].filter(Boolean).join(':');
  const found = { from: 'carried by a registry package', executablePath: join(home, 'chromium') };
  return [
    { ...found, env: fonts },
    { ...found, from: `${found.from}, with its libraries`, env: { ...fonts, LD_LIBRARY_PATH: libraries } },
  ];
}

function unpackCarried(home: string): void {
  const unpacking = `${home}.${process.pid}`;
  mkdirSync(unpacking, { recursive: true });
  // this setting makes the package unpack its libraries too, for systems that lack them
  const env = { ...process.env, TMPDIR: unpacking, AWS_EXECUTION_ENV: 'AWS_Lambda_nodejs20.x' };
  const script = "import('@sparticuz/chromium').then((m) => m.default.executablePath())";
  try {
    execFileSync(process.execPath, ['-e', script], { env, cwd: import.meta.dirname, stdio: 'pipe' });
    if (!existsSync(home)) renameSync(unpacking, home);
  } finally {
    rmSync(unpacking, { recursive: true, force: true });
  }
}

/** Debian's own package, when we may install it. */
function fromDebian(): FoundBrowser[] {
  if (!existsSync('/etc/debian_version') || process.getuid?.() !== 0 || !onPath('apt-get')) return [];
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    if (spawnSync('apt-get', args, { env, stdio: 'ignore' }).status !== 0) return [];
  }
  return ['chromium']
    .map(onPath)
    .filter((path) => path !== null)
    .map((executablePath) => ({ from: "the system's package manager", executablePath }));
}

const SOURCES: readonly (readonly [what: string, candidates: () => FoundBrowser[]])[] = [
  ['CHROMIUM_PATH', named],
  ['an installed Chromium, Chrome or Edge', installed],
  ["the test tool's own download", ownDownload],
  ['the one carried by @sparticuz/chromium', carried],
  ['apt-get install chromium', fromDebian],
];

/**
 * The first browser that works, in the order above.
 * @throws Error listing what was tried when there is none
 */
export async function findBrowser(): Promise<FoundBrowser> {
  const tried: string[] = [];
  for (const [what, candidates] of SOURCES) {
    try {
      const all = candidates();
      if (all.length === 0) tried.push(`${what}: none here`);
      for (const candidate of all) {
        const fault = await faultOf(candidate);
        if (fault === null) return candidate;
        tried.push(`${candidate.executablePath ?? candidate.channel ?? what}: ${fault}`);
      }
    } catch (error) {
      tried.push(`${what}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  throw new Error(
    `No browser for the tests. Tried:\n  ${tried.join('\n  ')}\nInstall Chromium, or set CHROMIUM_PATH to the one you have.`,
  );
}

/** Set by tests/run.mjs once it has found one, so that the tests do not look again. */
export const FOUND_VARIABLE = 'PANELWRIGHT_TEST_BROWSER';

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    const found = await findBrowser();
    console.error(
      `Browser for the tests: ${found.from}${found.executablePath ? ` (${found.executablePath})` : ''}`,
    );
    console.log(JSON.stringify(found));
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    process.exitCode = 1;
  }
}
