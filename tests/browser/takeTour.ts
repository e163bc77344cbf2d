/**
 * `npm run tour`: take the README's pictures from the real, built app, into demo-data/pictures. Run it after the screens change,
 * look at the pictures, and commit them.
 */
import { mkdirSync } from 'node:fs';
import { chromium, type Page } from 'playwright-core';
import { build, preview } from 'vite';
import { findBrowser, launchOptions } from './findBrowser';
import { DEMO, dragMouse, go, screenOf } from './onTable';

const FOLDER = new URL('../../demo-data/pictures/', import.meta.url).pathname;

async function take(page: Page, name: string): Promise<void> {
  await page.waitForTimeout(700);
  await page.screenshot({ path: `${FOLDER}${name}.png` });
}

/** Draw a line half way, and let go only after the picture: so that the distance it shows is in it. */
async function drawing(page: Page): Promise<void> {
  const at = await screenOf(page, DEMO);
  const [from, to] = [at('front', [40, 810]), at('front', [420, 812])];
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move(...to, { steps: 8 });
  await take(page, 'lines');
  await page.mouse.up();
  await page.keyboard.press('Control+z');
}

/** A dart shown folded shut, then a line beside its point that takes it. Leaves the dress as it was. */
async function darts(page: Page): Promise<void> {
  await page.locator('#darts').scrollIntoViewIfNeeded();
  await page.locator('#darts .row-button').first().click();
  await page.getByLabel('Show it folded shut').check();
  await take(page, 'shut');
  await page.locator('#darts .row-button').first().click();
  const at = await screenOf(page, DEMO);
  await dragMouse(page, at('front', [437, 60]), at('front', [437, 1051]));
  await page.getByRole('button', { name: 'Take the dart into the line' }).click();
  await page.locator('#darts .row-button').first().click();
  await take(page, 'darts');
  await page.locator('#darts .row-button').first().click();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('button', { name: 'Undo' }).click();
}

async function tour(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.waitForTimeout(2500);
  await drawing(page);
  await darts(page);
  const at = await screenOf(page, DEMO);
  await dragMouse(page, at('front', [40, 800]), at('front', [579, 800]));
  await go(page, 'Colours');
  await take(page, 'colours');
  await go(page, 'Sewing order');
  await page.getByText(/^Sew 4 to 3/).first().click();
  await take(page, 'order');
  await go(page, 'Cloth');
  await page.waitForTimeout(6000);
  await take(page, 'cloth');
}

mkdirSync(FOLDER, { recursive: true });
await build({
  mode: 'production',
  logLevel: 'warn',
  build: { outDir: 'node_modules/.cache/panelwright/tour' },
});
const server = await preview({
  build: { outDir: 'node_modules/.cache/panelwright/tour' },
  preview: { port: 0, host: '127.0.0.1', open: false },
  logLevel: 'warn',
});
const browser = await chromium.launch(launchOptions(await findBrowser()));
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: 'en-GB' });
  await tour(page, server.resolvedUrls!.local[0]!);
} finally {
  await browser.close();
  await server.close();
}
