/** Seams between pieces at the bench, by keyboard alone: the table, a line continued over a seam, an edge's job. */
import { afterAll, expect, test } from 'vitest';
import { closeBrowser, openBench, takePicture, TABLET } from './bench';

afterAll(closeBrowser);

test('a line is continued over the side seam by keyboard, and the seam table says that it meets', async () => {
  const { page, faults, close } = await openBench();
  // The back's hip line goes; the front's is then without a continuation.
  await page.getByRole('button', { name: /^6\s*across the grain/ }).press('Enter');
  await page.locator('.card').getByRole('button', { name: 'Delete' }).press('Enter');
  await page.getByRole('button', { name: /^3\s*across the grain/ }).press('Enter');
  await page.getByRole('button', { name: 'Continue on back over the side seam' }).press('Enter');
  await page.getByText('where line 3 of front arrives on the side seam').first().waitFor();
  await page.getByRole('heading', { name: 'Where pieces meet' }).scrollIntoViewIfNeeded();
  const table = page.getByRole('table').filter({ hasText: 'side seam' });
  const met = table.getByRole('list', { name: /side seam of front and back/ });
  await met.getByText('L3 – L9').waitFor();
  expect(await met.getByText('meet', { exact: true }).count()).toBe(2);
  await page.getByRole('button', { name: 'Undo' }).press('Enter');
  await met.getByText('L3 – L9').waitFor({ state: 'detached' });
  expect(faults).toEqual([]);
  await close();
});

test('the edges of a piece are listed with their jobs, and one is bound from its card', async () => {
  const { page, faults, close } = await openBench(TABLET);
  await page.getByRole('button', { name: /^Pattern/ }).click();
  const front = page.locator('.piece-row').first();
  await front.getByText('Edges', { exact: true }).press('Enter');
  await front.getByRole('button', { name: /^side seam sewn to back/ }).waitFor();
  await front.getByRole('button', { name: /^neckline left as it is/ }).press('Enter');
  await front.getByLabel('It is').selectOption({ label: 'bound' });
  await front.getByRole('button', { name: /^neckline bound\s*0 cm/ }).waitFor();
  await takePicture(page, 'edges');
  // Nothing of the sheet is wider than the sheet.
  expect(await page.locator('.sheet-body').evaluate((e) => e.scrollWidth - e.clientWidth)).toBeLessThan(1);
  expect(faults).toEqual([]);
  await close();
});
