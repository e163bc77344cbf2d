import type { Page } from 'playwright-core';
import { afterAll, expect, test } from 'vitest';
import { LAPTOP, TABLET, closeBrowser, openBench, takePicture } from './bench';
import { DEMO, dragMouse, fact, garmentFrom, go, screenOf } from './onTable';

afterAll(closeBrowser);

/** From where to where the outlines of the demo reach on the screen, pixels. */
async function reach(page: Page): Promise<{ left: number; right: number; top: number; bottom: number }> {
  const at = await screenOf(page, DEMO);
  const spots = garmentFrom(DEMO).pieces.flatMap(({ whole }) =>
    whole.outline.map((curve) => at(whole.name, curve[0])),
  );
  const [xs, ys] = [spots.map(([x]) => x), spots.map(([, y]) => y)];
  return {
    left: Math.min(...xs),
    right: Math.max(...xs),
    top: Math.min(...ys),
    bottom: Math.max(...ys),
  };
}

const sheetEdge = (page: Page): Promise<number> =>
  page.evaluate(() => document.querySelector('.sheet')!.getBoundingClientRect().right);

test('folding the sheet away gives the drawing its room, unfolding takes it back, and the focus goes along', async () => {
  const { page, close, faults } = await openBench(TABLET);
  const before = await reach(page);
  expect(before.left).toBeGreaterThan(await sheetEdge(page));
  await page.getByRole('button', { name: 'Fold away' }).click();
  const unfold = page.getByRole('button', { name: /^Unfold/ });
  await expect.poll(async () => (await reach(page)).left).toBeLessThan(250);
  const wide = await reach(page);
  expect(wide.bottom - wide.top).toBeGreaterThan(before.bottom - before.top);
  expect(wide.right).toBeLessThan(1024);
  expect(await unfold.evaluate((button) => button === document.activeElement)).toBe(true);
  await takePicture(page, 'folded-away-tablet');
  await unfold.click();
  await expect.poll(async () => (await reach(page)).left).toBeCloseTo(before.left, 0);
  expect(faults).toEqual([]);
  await close();
});

test('a view that somebody has moved stays as it is when the sheet goes or the window changes', async () => {
  const { page, close } = await openBench(LAPTOP);
  await page.getByRole('button', { name: /^Nearer/ }).click();
  const zoom = (): Promise<string> =>
    page.evaluate(() => document.querySelector('canvas')!.dataset['view']!.split(' ')[0]!);
  const before = await zoom();
  await page.getByRole('button', { name: 'Fold away' }).click();
  await page.setViewportSize({ width: 1200, height: 800 });
  await page.waitForTimeout(200);
  expect(await zoom()).toBe(before);
  await page.getByRole('button', { name: /^Show everything/ }).click();
  expect((await reach(page)).right).toBeLessThan(1200);
  await close();
});

test('enlarged twice on a laptop the drawing still has room beside the sheet', async () => {
  const { page, close, faults } = await openBench({
    viewport: { width: 720, height: 450 },
    deviceScaleFactor: 2,
  });
  const { left, right, top, bottom } = await reach(page);
  expect(left).toBeGreaterThan(await sheetEdge(page));
  expect(right).toBeLessThan(720);
  expect(bottom - top).toBeGreaterThan(200);
  await takePicture(page, 'enlarged-twice');
  expect(faults).toEqual([]);
  await close();
});

test('two taps near each other draw a line from the first to the edge beyond the second', async () => {
  const { page, close } = await openBench(TABLET);
  const at = await screenOf(page, DEMO);
  await page.touchscreen.tap(...at('back', [790, 560]));
  await page.touchscreen.tap(...at('back', [886, 562]));
  await expect.poll(() => fact(page, 'Lines')).toMatch(/^10 lines/);
  await close();
});

test('the cure of an open end stays clear of the way ahead of it and off the edge of the screen', async () => {
  const { page, close } = await openBench(LAPTOP);
  const at = await screenOf(page, DEMO);
  await dragMouse(page, at('sleeve', [1150, 330]), at('sleeve', [1190, 520]));
  const cure = page.locator('.cure button').first();
  const box = (await cure.boundingBox())!;
  expect(box.x + box.width).toBeLessThan(1440);
  const [x, y] = await page.evaluate(() => {
    const { left, top } = document.querySelector('.cure')!.getBoundingClientRect();
    return [left, top] as const;
  });
  expect(box.y).toBeGreaterThan(y + 5);
  expect(box.x > x + 5 || box.x + box.width < x - 5).toBe(true);
  expect(await cure.getAttribute('aria-label')).toMatch(/to the next line or edge$/);
  await close();
});

test('a step of the sewing order lights up where it lies: the view stays when it shows the seam already', async () => {
  const { page, close, faults } = await openBench(TABLET);
  await go(page, 'Sewing order');
  const step = page.locator('.sheet li button').nth(6);
  await step.waitFor();
  const view = (): Promise<string> => page.evaluate(() => document.querySelector('canvas')!.dataset['view']!);
  const before = await view();
  await step.click();
  expect(await step.getAttribute('aria-pressed')).toBe('true');
  expect(await view()).toBe(before);
  expect(faults).toEqual([]);
  await close();
});
