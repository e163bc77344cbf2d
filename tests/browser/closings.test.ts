/** Zips and bands at the bench: put into a sewn edge and along a hem by keyboard, kept over a reload, taken out again. */
import { afterAll, expect, test } from 'vitest';
import { closeBrowser, openBench, TABLET, waitForDrawing } from './bench';
import { fact, go } from './onTable';

afterAll(closeBrowser);

test('the centre back zip is taken out and put in again, a sleeve gets a band, and both outlive a reload', async () => {
  const { page, faults, close } = await openBench(TABLET);
  await go(page, 'Pattern');
  const [back, sleeve] = [page.locator('.piece-row').nth(1), page.locator('.piece-row').nth(2)];
  await back.getByText('Edges', { exact: true }).press('Enter');
  await back.getByRole('button', { name: /^centre back/ }).press('Enter');
  // the zip has one allowance, on its own card
  expect(await back.getByLabel('Allowance', { exact: true }).count()).toBe(0);
  await back.getByRole('button', { name: 'Take the zip out' }).press('Enter');
  await back.getByLabel('Allowance', { exact: true }).waitFor();
  expect(await fact(page, 'Sewing order')).toBe('21 steps');
  await back.getByRole('button', { name: 'A zip in this seam' }).press('Enter');
  await back.getByRole('radio', { name: 'Shown zip' }).check();
  await back.getByLabel('Width of the slot').waitFor();
  expect(await fact(page, 'Sewing order')).toBe('22 steps');

  await sleeve.getByText('Edges', { exact: true }).press('Enter');
  await sleeve.getByRole('button', { name: /^hem/ }).press('Enter');
  const depth = sleeve.getByLabel('A band along it, depth');
  await depth.fill('60');
  await depth.press('Enter');
  await sleeve.getByRole('button', { name: 'Add a band' }).press('Enter');
  await sleeve.getByText(/no room for a band this deep/).waitFor();
  await depth.fill('4');
  await depth.press('Enter');
  await sleeve.getByRole('button', { name: 'Add a band' }).press('Enter');
  expect(await fact(page, 'Paper')).toBe('13 panels');

  await page.getByText('kept in this browser').waitFor();
  await page.reload();
  await waitForDrawing(page);
  await page.getByText('band, 4 cm deep').waitFor();
  expect(await fact(page, 'Paper')).toBe('13 panels');
  expect(faults).toEqual([]);
  await close();
}, 60_000);
