/** A line whose cloth is known: what it costs follows the hand, and the spots where less is needed are shown, caught and offered. */
import { afterAll, expect, inject, test } from 'vitest';
import type { Page } from 'playwright-core';
import type { Pt } from '../../src/geometry';
import {
  LAPTOP,
  TABLET,
  type OpenBench,
  closeBrowser,
  prepareBench,
  takePicture,
  waitForDrawing,
} from './bench';
import { fact, garmentFrom, go, screenOf } from './onTable';

afterAll(closeBrowser);

/**
 * A front 500 × 1000 mm cut across at 675.5, 15 mm round every panel: the upper part needs 705.5 of cloth, so 80 cm, and from 5.5 mm
 * higher 70 cm; the lower one 354.5, so 40 cm, and from 54.5 mm lower 30 cm.
 */
const TWO_STEPS = `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="1100mm" viewBox="0 0 600 1100">
  <g data-role="piece front">
    <path data-role="outline" d="M50,50 H550 V1050 H50 Z"/>
    <path data-role="grain" d="M300,100 V900"/>
    <path data-role="panel-line" d="M50,725.5 H550"/>
    <circle data-role="colour" cx="300" cy="200" r="9" fill="#c77a5b"/>
    <circle data-role="colour" cx="300" cy="950" r="9" fill="#4d6a78"/>
  </g>
</svg>`;
const HEIGHT = 725.5;

async function openTwoSteps(options: typeof LAPTOP | typeof TABLET): Promise<OpenBench> {
  const bench = await prepareBench(options);
  const { page } = bench;
  await page.addInitScript(() => {
    for (const name of ['showOpenFilePicker', 'showSaveFilePicker'])
      delete (window as unknown as Record<string, unknown>)[name];
  });
  await page.goto(inject('address'));
  await waitForDrawing(page);
  await go(page, 'Pattern');
  // what opens the system's window is loaded: a window asked for too late after the press is refused
  await page.waitForLoadState('networkidle');
  const [chooser] = await Promise.all([
    page.waitForEvent('filechooser'),
    page.getByRole('button', { name: 'Choose a tracing' }).click(),
  ]);
  await chooser.setFiles([
    { name: 'two steps.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(TWO_STEPS) },
  ]);
  await expect.poll(() => fact(page, 'Lines')).toBe('1 line');
  await go(page, 'Lines');
  return bench;
}

const [UPPER, LOWER] = garmentFrom(TWO_STEPS).design.colours.map(({ name }) => name) as [string, string];
const row = (page: Page) => page.locator('.row-button').first();
const slip = (page: Page): Promise<string> =>
  page
    .locator('.cost-slip ul')
    .innerText()
    .then((text) => text.replace(/\s+/g, ' '));

test('with keys only: a cheap spot is offered for the chosen line, taken, and given back by one undo', async () => {
  const { page, faults, close } = await openTwoSteps(LAPTOP);
  const lies = await row(page).innerText();
  await row(page).focus();
  await page.keyboard.press('Enter');
  const offer = page.getByRole('list', { name: 'Where less cloth is needed' }).getByRole('listitem');
  await expect.poll(() => offer.count(), { timeout: 30_000 }).toBe(2);
  expect(await offer.first().innerText()).toContain(`0.7 cm higher: 10 cm less ${UPPER}`);
  expect(await offer.last().innerText()).toContain(`5.6 cm lower: 10 cm less ${LOWER}`);
  await takePicture(page, 'cheap-spots');
  await offer.first().getByRole('button', { name: 'Move it there' }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => row(page).innerText()).not.toBe(lies);
  await expect.poll(() => slip(page), { timeout: 30_000 }).toContain(`${UPPER} 0.7 m 10 cm less`);
  await page.locator('canvas').focus();
  await page.keyboard.press('Control+z');
  await expect.poll(() => row(page).innerText()).toBe(lies);
  expect(await page.getByRole('button', { name: 'Redo' }).isEnabled()).toBe(true);
  expect(faults).toEqual([]);
  await close();
}, 90_000);

test('dragged, a line says what it costs, catches where less is needed, and shows the spot it has left', async () => {
  const { page, faults, close } = await openTwoSteps(TABLET);
  await row(page).click();
  await expect.poll(() => page.locator('.spot-words').count(), { timeout: 30_000 }).toBe(2);
  const at = await screenOf(page, TWO_STEPS);
  const on = (by: number): Pt => at('front', [200, HEIGHT + by]);
  await page.mouse.move(...on(0));
  await page.mouse.down();
  await page.mouse.move(...on(-16), { steps: 6 });
  // the hand is 16 mm higher, the line catches at 7
  await expect.poll(() => page.locator('.tip strong').innerText()).toBe(`10 cm less ${UPPER}`);
  await expect.poll(() => slip(page), { timeout: 30_000 }).toContain(`${UPPER} 0.7 m 10 cm less`);
  expect(await slip(page)).toContain(`${LOWER} 0.4 m as before`);
  await page.mouse.move(...on(-60), { steps: 4 });
  await expect.poll(() => slip(page), { timeout: 30_000 }).toMatch(/about /);
  await expect.poll(() => slip(page), { timeout: 30_000 }).toMatch(/ 0\.7 m 10 cm less .* 0\.5 m 10 cm more/);
  await takePicture(page, 'cost-of-a-drag');
  const box = (await page.locator('.cost-slip').boundingBox())!;
  expect(box.y + box.height).toBeLessThanOrEqual((await page.locator('.tape').boundingBox())!.y);
  await page.mouse.move(...on(-7), { steps: 4 });
  await page.mouse.up();
  await expect.poll(() => slip(page), { timeout: 30_000 }).toContain(`${UPPER} 0.7 m 10 cm less`);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => page.locator('.cost-slip').count()).toBe(0);
  await expect.poll(() => page.locator('.spot-words').count(), { timeout: 30_000 }).toBe(2);
  expect(faults).toEqual([]);
  await close();
}, 120_000);
