import type { Locator, Page } from 'playwright-core';
import { afterAll, expect, test } from 'vitest';
import { LAPTOP, TABLET, closeBrowser, openBench, takePicture } from './bench';
import { go } from './onTable';

afterAll(closeBrowser);

const rows = (page: Page): Locator => page.locator('.step-rows .row-button');
const handles = (page: Page): Locator => page.locator('.step-handle');
const titles = (page: Page): Promise<string[]> =>
  rows(page).evaluateAll((all) => all.map((row) => row.lastElementChild!.textContent ?? ''));

async function places(page: Page, from: number, to: number): Promise<[number, number, number, number]> {
  await handles(page).nth(to).scrollIntoViewIfNeeded();
  const [a, b] = [await handles(page).nth(from).boundingBox(), await handles(page).nth(to).boundingBox()];
  return [a!.x + a!.width / 2, a!.y + a!.height / 2, b!.x + b!.width / 2, b!.y + 4];
}

test('a step is dragged to an earlier place by the mouse, and taken back', async () => {
  const { page, faults, close } = await openBench(LAPTOP);
  await go(page, 'Sewing order');
  await handles(page).first().waitFor();
  const before = await titles(page);
  const [x0, y0, x1, y1] = await places(page, 1, 0);
  await page.mouse.move(x0, y0);
  await page.mouse.down();
  await page.mouse.move(x1, (y0 + y1) / 2, { steps: 4 });
  await page.mouse.move(x1, y1, { steps: 4 });
  expect(await page.locator('.dropped-before').count()).toBe(1);
  await page.mouse.up();
  await page.getByText(/Step 2 is step 1 now/).waitFor({ state: 'attached' });
  expect(await titles(page)).not.toEqual(before);
  await page.getByRole('button', { name: 'As proposed' }).click();
  expect(await titles(page)).toEqual(before);
  expect(faults).toEqual([]);
  await close();
}, 60_000);

test('by a finger too; a drop that cannot be says why where it was let go', async () => {
  const { page, context, faults, close } = await openBench(TABLET);
  await go(page, 'Sewing order');
  await handles(page).first().waitFor();
  const before = await titles(page);
  const hand = await context.newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', at?: [number, number]): Promise<unknown> =>
    hand.send('Input.dispatchTouchEvent', { type, touchPoints: at ? [{ x: at[0], y: at[1] }] : [] });
  // 3 and 4 are sewn to each other before anything is sewn across them
  const last = before.findIndex((t) => /^Sew 4 to 3$/.test(t));
  const [x0, y0, x1, y1] = await places(page, last, last + 2);
  await touch('touchStart', [x0, y0]);
  for (let i = 1; i <= 8; i += 1)
    await touch('touchMove', [x0 + ((x1 - x0) * i) / 8, y0 + ((y1 - y0) * i) / 8]);
  await touch('touchEnd');
  const said = page.locator('.step-refused');
  await said.waitFor();
  expect(await said.innerText()).toMatch(/cannot go there/);
  expect(await titles(page)).toEqual(before);
  await takePicture(page, 'order-refused');
  for (const box of await handles(page).evaluateAll((all) =>
    all.map((h) => h.getBoundingClientRect().toJSON() as DOMRect),
  )) {
    expect(box.width).toBeGreaterThanOrEqual(44);
    expect(box.height).toBeGreaterThanOrEqual(44);
  }
  expect(faults).toEqual([]);
  await close();
}, 60_000);

test('a chosen step shows its picture and its telling', async () => {
  const { page, faults, close } = await openBench(LAPTOP);
  await go(page, 'Sewing order');
  await rows(page).nth(6).click();
  await page.getByRole('img', { name: /^Picture of step 7/ }).waitFor();
  await page
    .getByText(/right sides together/)
    .first()
    .waitFor();
  await takePicture(page, 'order-step');
  expect(faults).toEqual([]);
  await close();
}, 60_000);
