/** The built app in a real browser, as the browser tests use it. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { inject } from 'vitest';
import { launchOptions } from './findBrowser';

/** Sizes the bench is made for: a usual laptop, and a tablet held sideways. */
export const LAPTOP = { viewport: { width: 1440, height: 900 } } as const;
export const TABLET = { viewport: { width: 1024, height: 768 }, hasTouch: true } as const;

/** An open bench, and everything it did that a test may want to know. */
export interface OpenBench {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Every address it asked for. */
  readonly requests: readonly string[];
  /** Errors on the console, uncaught errors, and refusals by the content security policy. */
  readonly faults: readonly string[];
  readonly close: () => Promise<void>;
}

let running: Promise<Browser> | null = null;

/** One browser for a test file; every bench gets its own context, so nothing saved is shared. */
const theBrowser = (): Promise<Browser> => (running ??= chromium.launch(launchOptions(inject('browser'))));

/** Call from afterAll of each file that opens a bench. */
export async function closeBrowser(): Promise<void> {
  const browser = await running;
  running = null;
  await browser?.close();
}

/** Make a context and listen in, without opening the app yet: for tests that prepare storage or routes first. */
export async function prepareBench(options: BrowserContextOptions = LAPTOP): Promise<OpenBench> {
  const browser = await theBrowser();
  const context = await browser.newContext({ acceptDownloads: true, locale: 'en-GB', ...options });
  const page = await context.newPage();
  const [requests, faults]: [string[], string[]] = [[], []];
  page.on('request', (request) => requests.push(request.url()));
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  await page.exposeFunction('reportRefusal', (what: string) => faults.push(what));
  await page.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (event) => {
      const report = (window as unknown as { reportRefusal: (what: string) => void }).reportRefusal;
      report(
        `refused by ${event.violatedDirective}: ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`,
      );
    });
  });
  return { page, context, requests, faults, close: () => context.close() };
}

/** Open the built app and wait until the first drawing is on the table. */
export async function openBench(options: BrowserContextOptions = LAPTOP): Promise<OpenBench> {
  const bench = await prepareBench(options);
  await bench.page.goto(inject('address'));
  await waitForDrawing(bench.page);
  return bench;
}

/** Until the canvas shows more than one colour: the drawing is really there, not only its frame. */
export async function waitForDrawing(page: Page): Promise<void> {
  await page.waitForFunction(
    () => {
      const canvas = document.querySelector('canvas');
      if (!canvas || canvas.width === 0 || canvas.height === 0) return false;
      const small = document.createElement('canvas');
      [small.width, small.height] = [64, 64];
      const ink = small.getContext('2d')!;
      ink.drawImage(canvas, 0, 0, 64, 64);
      const pixels = new Uint32Array(ink.getImageData(0, 0, 64, 64).data.buffer);
      return new Set(pixels).size > 8;
    },
    undefined,
    { timeout: 30_000, polling: 50 },
  );
}

/** A picture for the eye, in node_modules/.cache/panelwright/pictures; answers its path. */
export async function takePicture(page: Page, name: string): Promise<string> {
  const folder = join(import.meta.dirname, '../../node_modules/.cache/panelwright/pictures');
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `${name}.png`);
  await page.screenshot({ path });
  return path;
}
