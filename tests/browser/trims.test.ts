/** Trims at the bench: laid from a line's card, an end dragged along the line, the raw end cured, a narrow panel given up for one. */
import { afterAll, expect, test } from 'vitest';
import { closeBrowser, LAPTOP, openBench, TABLET } from './bench';
import { DEMO, dragMouse, garmentFrom, go, screenOf } from './onTable';

afterAll(closeBrowser);

/** The demo's second line, its ends on the front. */
const second = garmentFrom(DEMO).design.lines[1]!.path[0]!;

test.each([
  ['laptop', LAPTOP],
  ['tablet', TABLET],
] as const)(
  'a trim is laid on a line, shortened by its end on the table, and let run on: %s',
  async (_, size) => {
    const { page, faults, close } = await openBench(size);
    await page.locator('#sheet ol.rows .row-button').nth(1).click();
    await page.getByRole('button', { name: 'Lay a trim on this line' }).click();
    const card = page.locator('.trim-card');
    await card.getByText('52.9 cm to cut').waitFor();
    const at = await screenOf(page, DEMO);
    const [from, to] = [second[0], second.at(-1)!];
    const middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2] as const;
    await dragMouse(page, at('front', to), at('front', middle));
    await card.getByText(/Nothing covers this end of ribbon/).waitFor();
    const shown = Number(await card.getByLabel('Ends at').inputValue());
    expect(Math.abs(shown - 24.9)).toBeLessThan(0.7);
    await card.getByRole('button', { name: 'Let it run on' }).click();
    await card.getByText('52.9 cm to cut').waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await card.getByText(/Nothing covers this end of ribbon/).waitFor();
    await page.getByRole('button', { name: 'Redo' }).click();
    await go(page, 'Cloth');
    await page.locator('table.shopping tr', { hasText: 'ribbon, 1 cm wide' }).getByText('0.6 m').waitFor();
    expect(faults).toEqual([]);
    await close();
  },
);

test('a trim too stiff for its curve says so, and bias takes the curve', async () => {
  const { page, faults, close } = await openBench();
  await page.locator('#sheet ol.rows .row-button').nth(1).click();
  await page.getByLabel('Bow of its middle').fill('8');
  await page.getByLabel('Bow of its middle').press('Enter');
  await page.getByRole('button', { name: 'Lay a trim on this line' }).press('Enter');
  const card = page.locator('.trim-card');
  await card.getByLabel('Width', { exact: true }).fill('3');
  await card.getByLabel('Width', { exact: true }).press('Enter');
  await card.getByText('its edges must give by 3.9 %; 2 % lies flat').waitFor();
  await card.getByText('Kind, stitching, how it is sold').press('Enter');
  await card.getByRole('radio', { name: 'Bias' }).check();
  await card.getByText('its edges must give by 3.9 %; 10 % lies flat').waitFor();
  expect(await card.locator('.trim-notes').count()).toBe(0);
  expect(faults).toEqual([]);
  await close();
});

test('a trim becomes a narrow panel, and the panel a trim again', async () => {
  const { page, faults, close } = await openBench();
  await page.locator('#sheet ol.rows .row-button').nth(1).click();
  await page.getByRole('button', { name: 'Lay a trim on this line' }).click();
  const card = page.locator('.trim-card');
  await card.getByRole('button', { name: 'Cut it as a panel instead' }).click();
  await card.waitFor({ state: 'detached' });
  const slip = page.getByRole('region', { name: 'Problems and notes' });
  await slip.locator('.slip-head').click();
  await slip.getByText(/is only 1 cm wide: hard to sew/).waitFor();
  await slip.getByRole('button', { name: 'Lay a trim instead' }).click();
  await card.getByText('52.9 cm to cut').waitFor();
  expect(await card.getByLabel('Width', { exact: true }).inputValue()).toBe('1');
  await slip.getByText(/is only 1 cm wide/).waitFor({ state: 'detached' });
  expect(faults).toEqual([]);
  await close();
});

test('a line becomes a trim without a seam, and a line again', async () => {
  const { page, faults, close } = await openBench();
  await page.locator('#sheet ol.rows .row-button').nth(1).click();
  await page.getByRole('button', { name: 'Make it a trim without a seam' }).click();
  const card = page.locator('.trim-card');
  await card.getByText('On a path of its own').waitFor();
  await card.getByRole('button', { name: 'Make its path a panel line' }).click();
  await card.getByLabel('Ends at').waitFor();
  expect(faults).toEqual([]);
  await close();
});
