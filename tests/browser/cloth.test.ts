import type { Page } from 'playwright-core';
import { afterAll, expect, inject, test } from 'vitest';
import {
  LAPTOP,
  TABLET,
  closeBrowser,
  prepareBench,
  takePicture,
  waitForDrawing,
  type OpenBench,
} from './bench';
import { go } from './onTable';

afterAll(closeBrowser);

/** What the lay planner's workers did, noted in the page: how many live at once at most, and when each began and ended. */
interface Noted {
  readonly most: number;
  readonly living: number;
  readonly begun: number;
  readonly events: readonly (readonly [string, number])[];
}

/** A bench whose lay workers are watched. */
async function openWatched(options: Parameters<typeof prepareBench>[0] = LAPTOP): Promise<OpenBench> {
  const bench = await prepareBench(options);
  await bench.page.addInitScript(() => {
    const noted = { most: 0, living: 0, begun: 0, events: [] as [string, number][] };
    Object.assign(window, { noted });
    window.Worker = class extends Worker {
      private isLay: boolean;
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options);
        this.isLay = String(url).includes('layWorker');
        if (!this.isLay) return;
        noted.living += 1;
        noted.begun += 1;
        noted.most = Math.max(noted.most, noted.living);
        noted.events.push(['begun', performance.now()]);
        this.addEventListener('message', ({ data }) => noted.events.push([data.kind, performance.now()]));
      }
      override terminate(): void {
        super.terminate();
        if (!this.isLay) return;
        noted.living -= 1;
        noted.events.push(['terminated', performance.now()]);
      }
    };
    document.addEventListener(
      'click',
      ({ target }) => noted.events.push([`click ${(target as Element).textContent}`, performance.now()]),
      true,
    );
  });
  await bench.page.goto(inject('address'));
  await waitForDrawing(bench.page);
  return bench;
}

const noted = (page: Page): Promise<Noted> =>
  page.evaluate(() => (window as unknown as { noted: Noted }).noted);

const atRest = (page: Page): Promise<void> =>
  expect
    .poll(async () => (await page.locator('.cloth[aria-busy=true]').count()) + (await noted(page)).living, {
      timeout: 60_000,
    })
    .toBe(0);

/** Every search stopped: what is shown stays as it is. */
async function stopAll(page: Page): Promise<void> {
  await expect.poll(() => page.locator('.buy').count(), { timeout: 30_000 }).toBe(3);
  const stop = page.getByRole('button', { name: 'Stop and keep' });
  while ((await stop.count()) > 0)
    await stop
      .first()
      .click({ timeout: 2000 })
      .catch(() => undefined);
}

test('first plans come at once, get better, and never more workers are at work than there are cores', async () => {
  const { page, faults, close } = await openWatched();
  const clicked = Date.now();
  await go(page, 'Cloth');
  await expect.poll(() => page.locator('.buy').count(), { timeout: 30_000 }).toBe(3);
  console.log(`first plans of all cloths ${Date.now() - clicked} ms after the click`);
  expect(await page.locator('.laid-piece').count()).toBeGreaterThan(4);
  await takePicture(page, 'cloth-first');
  await page.locator('.length-line').first().waitFor({ timeout: 30_000 });
  const words = await page.locator('.length-line figcaption').first().innerText();
  const [first, last] = [...words.matchAll(/([\d.]+) cm/g)].map(([, cm]) => Number(cm));
  expect(last!).toBeLessThan(first!);
  await atRest(page);
  const { most } = await noted(page);
  const cores = await page.evaluate(() => navigator.hardwareConcurrency);
  console.log(`at most ${most} workers at once on ${cores} cores`);
  expect(most).toBeGreaterThan(0);
  expect(most).toBeLessThanOrEqual(cores);
  await takePicture(page, 'cloth-at-rest');
  expect(faults).toEqual([]);
  await close();
});

test('stop and keep ends the workers of a cloth before anything else is heard of them, and its plan stays', async () => {
  const { page, faults, close } = await openWatched();
  await go(page, 'Cloth');
  await stopAll(page);
  await atRest(page);
  await page.getByRole('button', { name: '1 minute' }).first().click();
  await expect.poll(async () => (await noted(page)).living).toBeGreaterThan(0);
  await page.waitForTimeout(400);
  const buy = await page.locator('.buy').first().innerText();
  await page.getByRole('button', { name: 'Stop and keep' }).first().click();
  await expect.poll(async () => (await noted(page)).living).toBe(0);
  const { events } = await noted(page);
  const click = events.findLastIndex(([what]) => what === 'click Stop and keep');
  expect(click).toBeGreaterThan(0);
  const after = events.slice(click + 1).map(([what]) => what);
  expect(after.length).toBeGreaterThan(0);
  expect(new Set(after)).toEqual(new Set(['terminated']));
  console.log(`workers ended ${(events.at(-1)![1] - events[click]![1]).toFixed(1)} ms after the click`);
  expect(await page.locator('.buy').first().innerText()).toBe(buy);
  expect(await page.locator('.laid-piece').count()).toBeGreaterThan(4);
  expect(faults).toEqual([]);
  await close();
});

test('a step taken back has its lay plan again without a worker', async () => {
  const { page, faults, close } = await openWatched();
  await go(page, 'Cloth');
  const orange = page.getByRole('region', { name: 'orange' });
  await stopAll(page);
  await atRest(page);
  const lay = (): Promise<(string | null)[]> =>
    page.locator('.laid-shape').evaluateAll((all) => all.map((g) => g.getAttribute('style')));
  const before = await lay();
  await orange.getByText(/^About this cloth/).click();
  await orange.getByLabel('Width between the selvedges').fill('90');
  await orange.getByLabel('Width between the selvedges').press('Enter');
  await orange.getByText('of 90 cm wide').waitFor({ timeout: 30_000 });
  await stopAll(page);
  await atRest(page);
  const { begun } = await noted(page);
  await page.getByRole('button', { name: 'Undo' }).click();
  await orange.getByText('of 140 cm wide').waitFor({ timeout: 30_000 });
  expect(await lay()).toEqual(before);
  await page.waitForTimeout(300);
  expect((await noted(page)).begun).toBe(begun);
  expect(faults).toEqual([]);
  await close();
});

test('by keyboard alone one goes from piece to piece, sees where it sits, and moves the view', async () => {
  const { page, faults, close } = await openWatched();
  await go(page, 'Cloth');
  await stopAll(page);
  const drawing = page.locator('.lay-plan > g');
  // the view follows when the cloth is there in its full length
  let fitted: string | null = null;
  await expect
    .poll(
      async () => {
        const before = fitted;
        fitted = await drawing.getAttribute('transform');
        return fitted === before;
      },
      { interval: 250 },
    )
    .toBe(true);
  await page.locator('.laid-piece[tabindex="0"]').focus();
  const name = (): Promise<string | null> =>
    page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? null);
  const start = await name();
  await page.keyboard.press('ArrowRight');
  const next = await name();
  expect([start, next].every((words) => /^\d+ \w+/.test(words ?? ''))).toBe(true);
  await page.keyboard.press('Enter');
  expect(await page.locator('.piece-slip strong').innerText()).toBe(next!.split(',')[0]);
  expect(await page.locator('.where-it-sits .here').count()).toBe(1);
  await page.keyboard.press('+');
  expect(await drawing.getAttribute('transform')).not.toBe(fitted);
  await page.keyboard.press('0');
  await expect.poll(() => drawing.getAttribute('transform')).toBe(fitted);
  expect(faults).toEqual([]);
  await close();
});

test('on a tablet a tap names a piece, folded cloth is shown as it lies, and every button is large enough for a finger', async () => {
  const { page, faults, close } = await openWatched({ ...TABLET, isMobile: true });
  await go(page, 'Cloth');
  await stopAll(page);
  await page.locator('.laid-piece').first().tap();
  expect(await page.locator('.piece-slip strong').innerText()).toMatch(/^\d+ \w+/);
  await page
    .getByText(/^About this cloth/)
    .first()
    .tap();
  await page.getByLabel('folded lengthwise').first().check();
  await page.getByLabel('as it lies').waitFor({ timeout: 30_000 });
  await page.getByLabel('as it lies').check();
  await takePicture(page, 'cloth-folded-tablet');
  const heights = await page
    .locator('.cloth button, .lay-choices button, .lay-choices label, .cloth label')
    .evaluateAll((all) =>
      all
        .filter((e) => e.getClientRects().length > 0 && (e.tagName === 'BUTTON' || e.querySelector('input')))
        .map((e) => [e.textContent, e.getBoundingClientRect().height] as const),
    );
  expect(heights.length).toBeGreaterThan(5);
  expect(heights.filter(([, height]) => height < 43.5)).toEqual([]);
  expect(faults).toEqual([]);
  await close();
});
